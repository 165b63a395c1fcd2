import type { EventDraft } from '../../greenhouse/journalEvent.ts';
import type { Outcome, Refusal } from '../../science/refusal.ts';
import { accepted, refused } from '../../science/refusal.ts';
import { readInstant } from '../instant.ts';
import { NotPlainJson, canonicalJson } from './canonicalJson.ts';

const LONGEST_NAME = 200;
const LONGEST_IDENTITY = 1000;

/** A draft that may be stored, with its body as canonical text. */
export interface CheckedDraft {
  readonly draft: EventDraft;
  readonly bodyText: string;
}

/** Checks what a draft says about itself; what it says about other events is checked against the journal. */
export function checkDraft(draft: EventDraft, index: number): Outcome<CheckedDraft> {
  const path = `drafts[${index}]`;
  const body = formBody(draft, path);
  const refusals = [
    ...checkName(draft.kind, `${path}.kind`, LONGEST_NAME),
    ...checkName(draft.recordedBy, `${path}.recordedBy`, LONGEST_NAME),
    ...(draft.identity === undefined ? [] : checkName(draft.identity, `${path}.identity`, LONGEST_IDENTITY)),
    ...checkInstant(draft.happenedAt, `${path}.happenedAt`),
    ...(body.ok ? [] : body.refusals),
  ];
  return body.ok && refusals.length === 0 ? accepted({ draft, bodyText: body.value }) : refused(refusals);
}

/** An instant must be UTC, ISO 8601 with Z. */
export function checkInstant(instant: string, path: string): Refusal[] {
  if (readInstant(instant) !== undefined) return [];
  return [{ code: 'value-not-allowed', path, value: instant, limit: 'UTC, ISO 8601 with Z', severity: 'error',
    message: 'This is not an instant in UTC. Write it like 2026-11-25T06:30:00Z.' }];
}

function checkName(name: string, path: string, longest: number): Refusal[] {
  if (typeof name !== 'string' || name === '') return [{ code: 'value-missing', path, message: 'This text is missing; an event needs it.', severity: 'error' }];
  if (name.length > longest) {
    return [{ code: 'value-out-of-range', path, value: name.length, limit: longest, message: `This text has ${name.length} characters; at most ${longest} can be kept.`, severity: 'error' }];
  }
  const plain = formCanonical(name, path);
  return plain.ok ? [] : [...plain.refusals];
}

function formBody(draft: EventDraft, path: string): Outcome<string> {
  if (draft.body !== undefined) return formCanonical(draft.body, `${path}.body`);
  return refused([{ code: 'value-missing', path: `${path}.body`, message: 'An event needs a body; give {} where there is nothing to say.', severity: 'error' }]);
}

function formCanonical(value: unknown, path: string): Outcome<string> {
  try {
    return accepted(canonicalJson(value));
  } catch (error) {
    if (!(error instanceof NotPlainJson)) throw error;
    const inside = error.path === '' || error.path.startsWith('[') ? error.path : `.${error.path}`;
    return refused([{ code: 'value-not-allowed', path: `${path}${inside}`, message: `Only plain JSON can be kept: ${error.message}.`, severity: 'error' }]);
  }
}
