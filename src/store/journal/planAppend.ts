import type { Outcome, Refusal } from '../../science/refusal.ts';
import { accepted, refused } from '../../science/refusal.ts';
import type { JournalHead, SkippedDraft } from '../store.ts';
import type { CheckedDraft } from './checkDraft.ts';
import type { EventRow } from './hashEvent.ts';
import { hashEvent } from './hashEvent.ts';

/** What drafts refer to, as far as the journal holds it. */
export interface KnownEvents {
  /** Identity -> id of the event that has it. */
  readonly identities: ReadonlyMap<string, string>;
  readonly ids: ReadonlySet<string>;
}

/** What the drafts of one call come to. */
export interface PlannedAppend {
  readonly rows: readonly EventRow[];
  readonly skipped: readonly SkippedDraft[];
}

export interface Stamp {
  readonly recordedAt: string;
  readonly nextId: () => string;
}

/** Chains the drafts of one call to the head, skips those that the journal knows, refuses all when one corrects what is not there. */
export function planAppend(drafts: readonly CheckedDraft[], head: JournalHead, known: KnownEvents, stamp: Stamp): Outcome<PlannedAppend> {
  const refusals = refuseUnknownCorrections(drafts, known.ids);
  if (refusals.length > 0) return refused(refusals);
  const rows: EventRow[] = [];
  const skipped: SkippedDraft[] = [];
  const own = new Map<string, string>();
  for (const [index, checked] of drafts.entries()) {
    const { identity } = checked.draft;
    const existingId = identity === undefined ? undefined : known.identities.get(identity) ?? own.get(identity);
    if (identity !== undefined && existingId !== undefined) {
      skipped.push({ draft: index, identity, existingId });
      continue;
    }
    const row = chainEvent(checked, rows.at(-1) ?? head, stamp);
    rows.push(row);
    if (identity !== undefined) own.set(identity, row.id);
  }
  return accepted({ rows, skipped });
}

function chainEvent({ draft, bodyText }: CheckedDraft, before: JournalHead, stamp: Stamp): EventRow {
  const { kind, happenedAt, recordedBy, identity, corrects } = draft;
  const row = {
    kind, happenedAt, recordedBy, identity, corrects: corrects?.toLowerCase(), bodyText,
    id: stamp.nextId(), sequence: before.sequence + 1, recordedAt: stamp.recordedAt, previousHash: before.hash,
  };
  return { ...row, hash: hashEvent(row) };
}

const refuseUnknownCorrections = (drafts: readonly CheckedDraft[], ids: ReadonlySet<string>): Refusal[] =>
  drafts.flatMap(({ draft: { corrects } }, index): Refusal[] => (corrects === undefined || ids.has(corrects.toLowerCase()) ? [] : [{
    code: 'reference-unknown', path: `drafts[${index}].corrects`, value: corrects, severity: 'error',
    message: 'A correction must name an event of this journal; no event has this id.',
  }]));
