import type { Refusal } from '../../science/refusal.ts';
import type { RefusalCode } from '../../science/refusalCodes.ts';
import { nearestWord } from './nearestWord.ts';
import { writePlace, type Place } from './place.ts';

/** Collects what is wrong in one file. */
export function findingsIn(file: string) {
  const found: Refusal[] = [];
  const add = (severity: Refusal['severity']) => (code: RefusalCode, place: Place | undefined, message: string, more: Pick<Refusal, 'value' | 'limit' | 'unit'> = {}) => {
    found.push({ code, severity, path: writePlace(file, place), message, ...more });
  };
  const refuse = add('error');
  return {
    found, refuse, warn: add('warning'),
    /** Refuses a name that is not among those described. */
    mustBeKnown: (name: string, known: readonly string[], what: string, place: Place | undefined) => {
      if (known.includes(name)) return;
      const near = nearestWord(name, known);
      refuse('reference-unknown', place, `There is no ${what} '${name}'${near === undefined ? '' : `; did you mean '${near}'?`} Described are: ${known.slice(0, 12).join(', ')}${known.length > 12 ? ' ...' : ''}.`, { value: name });
    },
    /** Refuses the second of two entries with one identity. */
    mustDiffer: <T>(entries: readonly T[], keyOf: (entry: T) => string, what: string, placeOf: (entry: T, index: number) => Place | undefined) => {
      const seen = new Set<string>();
      entries.forEach((entry, i) => {
        const key = keyOf(entry);
        if (seen.has(key)) refuse('duplicate', placeOf(entry, i), `The ${what} '${key}' is described twice; give each its own id or remove one.`, { value: key });
        seen.add(key);
      });
    },
  };
}
