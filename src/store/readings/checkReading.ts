import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { Refusal } from '../../science/refusal.ts';
import { canonicalJson } from '../journal/canonicalJson.ts';
import { checkInstant } from '../journal/checkDraft.ts';

const LONGEST_NAME = 200;

/** Every reason why a reading cannot be kept; none for nearly all, so that the quick way is quick. */
export function checkReading(reading: Reading, index: number): Refusal[] {
  const path = `readings[${index}]`;
  return [
    ...checkInstant(reading.at, `${path}.at`),
    ...checkText(reading.place, `${path}.place`),
    ...checkText(reading.quantity, `${path}.quantity`),
    ...(reading.instrument === undefined || reading.instrument === '' ? [] : checkText(reading.instrument, `${path}.instrument`)),
    ...checkNumber(reading.value, `${path}.value`),
    ...(reading.sd === undefined ? [] : checkNumber(reading.sd, `${path}.sd`)),
  ];
}

function checkNumber(value: number, path: string): Refusal[] {
  if (Number.isFinite(value)) return [];
  return [{ code: 'value-not-a-number', path, value: String(value), message: 'A reading needs a number; leave the reading out where the instrument gave none.', severity: 'error' }];
}

function checkText(text: string, path: string): Refusal[] {
  if (typeof text !== 'string' || text === '') return [{ code: 'value-missing', path, message: 'This text is missing; a reading needs it.', severity: 'error' }];
  if (text.length <= LONGEST_NAME && isPlain(text)) return [];
  return [{ code: 'value-not-allowed', path, value: text, limit: `plain text of at most ${LONGEST_NAME} characters`, message: 'This text cannot be kept as a name.', severity: 'error' }];
}

function isPlain(text: string): boolean {
  try {
    canonicalJson(text);
    return true;
  } catch {
    return false;
  }
}
