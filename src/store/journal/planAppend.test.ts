import { describe, expect, it } from 'vitest';
import type { EventDraft } from '../../greenhouse/journalEvent.ts';
import { canonicalJson } from './canonicalJson.ts';
import { FIRST_PREVIOUS_HASH, hashEvent } from './hashEvent.ts';
import { planAppend } from './planAppend.ts';

const stamp = () => {
  let id = 0;
  return { recordedAt: '2026-11-25T06:31:00.000Z', nextId: () => `id-${id += 1}` };
};
const check = (drafts: readonly Partial<EventDraft>[]) => drafts.map((draft, n) => ({
  draft: { kind: 'k', happenedAt: '2026-11-25T06:30:00Z', recordedBy: 'ana', body: { n }, ...draft }, bodyText: canonicalJson({ n }) }));
const empty = { identities: new Map<string, string>(), ids: new Set<string>() };

describe('what an append comes to', () => {
  it('chains from the head without a gap', () => {
    const plan = planAppend(check([{}, {}, {}]), { sequence: 4, hash: 'ff'.repeat(32) }, empty, stamp());
    if (!plan.ok) throw new Error('refused');
    expect(plan.value.rows.map((row) => row.sequence)).toEqual([5, 6, 7]);
    expect(plan.value.rows.map((row) => row.previousHash)).toEqual(['ff'.repeat(32), plan.value.rows[0]!.hash, plan.value.rows[1]!.hash]);
    expect(plan.value.rows.map((row) => hashEvent(row))).toEqual(plan.value.rows.map((row) => row.hash));
  });

  it('skips what the journal knows and what came before in the same call, and names the event', () => {
    const known = { identities: new Map([['a', 'old']]), ids: new Set<string>() };
    const plan = planAppend(check([{ identity: 'a' }, { identity: 'b' }, { identity: 'b' }, {}]), { sequence: 0, hash: FIRST_PREVIOUS_HASH }, known, stamp());
    if (!plan.ok) throw new Error('refused');
    expect(plan.value.skipped).toEqual([{ draft: 0, identity: 'a', existingId: 'old' }, { draft: 2, identity: 'b', existingId: 'id-1' }]);
    expect(plan.value.rows.map((row) => row.sequence)).toEqual([1, 2]);
  });

  it('refuses all where one corrects what is not there, and lists each', () => {
    const plan = planAppend(check([{}, { corrects: 'x' }, { corrects: 'KNOWN' }, { corrects: 'y' }]), { sequence: 0, hash: FIRST_PREVIOUS_HASH }, { ...empty, ids: new Set(['known']) }, stamp());
    if (plan.ok) throw new Error('accepted');
    expect(plan.refusals.map(({ code, path }) => [code, path])).toEqual([['reference-unknown', 'drafts[1].corrects'], ['reference-unknown', 'drafts[3].corrects']]);
  });
});
