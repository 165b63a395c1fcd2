import type { JournalEvent, Reading } from '../../greenhouse/journalEvent.ts';
import type { Outcome, Refusal } from '../../science/refusal.ts';
import { accepted, refused } from '../../science/refusal.ts';
import { checkDraft } from '../journal/checkDraft.ts';
import type { EventRow } from '../journal/hashEvent.ts';
import { checkReading } from '../readings/checkReading.ts';
import { BACKUP_FORM, type BackupEnd } from './backupLine.ts';

/** One line of an export, checked. */
export type ReadLine =
  | { readonly is: 'first' }
  | { readonly is: 'event'; readonly row: EventRow }
  | { readonly is: 'reading'; readonly reading: Reading }
  | { readonly is: 'end'; readonly end: BackupEnd };

/** Reads one line of an export; refused with its number where it is none. */
export function readBackupLine(text: string, line: number): Outcome<ReadLine> {
  const path = `line ${line}`;
  const said = parseRecord(text);
  if (said === undefined) return refused([refuse('syntax', path, 'This line is not one JSON object.')]);
  if ('watermeadowJournal' in said) return readFirst(said['watermeadowJournal'], path);
  if (isRecord(said['event'])) return readEvent(said['event'] as unknown as JournalEvent, path);
  if (isRecord(said['reading'])) return readReading(said['reading'] as unknown as Reading, path);
  if (isRecord(said['end'])) return accepted({ is: 'end', end: said['end'] as unknown as BackupEnd });
  return refused([refuse('syntax', path, 'This line is neither an event nor a reading nor the first or last line of an export.')]);
}

const refuse = (code: Refusal['code'], path: string, message: string): Refusal => ({ code, path, message, severity: 'error' });

function readFirst(form: unknown, path: string): Outcome<ReadLine> {
  if (form === BACKUP_FORM) return accepted({ is: 'first' });
  return refused([{ ...refuse('syntax', path, `This export has form ${String(form)}; this program reads form ${BACKUP_FORM}.`), value: form, limit: BACKUP_FORM }]);
}

function readEvent(event: JournalEvent, path: string): Outcome<ReadLine> {
  const check = checkDraft(event, 0);
  const chained = [event.id, event.recordedAt, event.previousHash, event.hash].every((text) => typeof text === 'string') && Number.isSafeInteger(event.sequence);
  if (!check.ok || !chained) return refused([refuse('syntax', path, 'This line is not a whole event.'), ...(check.ok ? [] : check.refusals)]);
  const { body: _, ...row } = event;
  return accepted({ is: 'event', row: { ...row, bodyText: check.value.bodyText } });
}

function readReading(reading: Reading, path: string): Outcome<ReadLine> {
  const refusals = checkReading(reading, 0).map((refusal) => ({ ...refusal, path: `${path} ${refusal.path.replace('readings[0].', '')}` }));
  return refusals.length > 0 ? refused(refusals) : accepted({ is: 'reading', reading });
}

function parseRecord(text: string): Record<string, unknown> | undefined {
  try {
    const said: unknown = JSON.parse(text);
    return isRecord(said) ? said : undefined;
  } catch {
    return undefined;
  }
}

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value);
