import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shortDemo } from '../../test/greenhouse/shortDemo.ts';
import { decide } from './decide.ts';
import { evolve, foldEvents } from './evolve.ts';
import type { ApprovedPlan, GreenhouseEvent, GreenhouseEventDraft } from './events.ts';
import { readGreenhouseFolder } from './files/readGreenhouseFolder.ts';
import { importFolder } from './importFolder.ts';

const NOW = '2026-03-03T05:00:00Z';
const record = (drafts: readonly GreenhouseEventDraft[], after = 0): GreenhouseEvent[] =>
  drafts.map((draft, i) => ({ ...draft, id: `e${after + i + 1}`, sequence: after + i + 1, recordedAt: NOW, previousHash: '', hash: '' }) as GreenhouseEvent);
const read = readGreenhouseFolder(shortDemo(30));
if (!read.ok) throw new Error('the demo is refused');
const folder = read.value;
const events = record(importFolder(folder, [], NOW));
const state = foldEvents(events);
const row = folder.lots[0]!;

describe('importFolder', () => {
  it('adds nothing when the same files come again', () => {
    expect(importFolder(folder, events, '2026-03-04T05:00:00Z')).toEqual([]);
  });

  it('corrects a changed row, withdraws what is gone, and then is quiet', () => {
    const changed = { ...folder, lots: folder.lots.map((each) => (each === row ? { ...each, plants: each.plants + 1 } : each)), orders: folder.orders.slice(1) };
    const drafts = importFolder(changed, events, NOW);
    expect(drafts.map((draft) => draft.kind)).toEqual(['lot-placed', 'order-withdrawn']);
    expect(events.find((event) => event.id === drafts[0]!.corrects)).toMatchObject({ kind: 'lot-placed', body: { row } });
    const all = [...events, ...record(drafts, events.length)];
    expect(importFolder(changed, all, NOW)).toEqual([]);
    expect(foldEvents(all).basins[row.basin]?.planting?.plants).toBe(row.plants + 1);
    expect(Object.keys(foldEvents(all).orders)).toHaveLength(folder.orders.length - 1);
    expect(foldEvents(all.filter((event) => event.sequence <= events.length))).toEqual(state);
  });
});

describe('what is in trays', () => {
  const [tray] = folder.sowings!;
  const act = (journal: GreenhouseEvent[], command: Parameters<typeof decide>[1]) => { const drafts = decide(foldEvents(journal), command, NOW); if (!drafts.ok) throw new Error(JSON.stringify(drafts.refusals)); return [...journal, ...record(drafts.value, journal.length)]; };
  const sown = { lot: 'XX-1', crop: row.crop, sown: '2026-03-03', seeds: 100, plants: 80 };

  it('is what sowings.csv says until the lot stands in a basin or its row is gone; without the file nothing is withdrawn', () => {
    expect(state.trays[tray!.lot]).toEqual(tray);
    const placed = { ...folder, lots: [...folder.lots, { ...row, lot: tray!.lot, basin: 'B039' }] };
    expect(foldEvents([...events, ...record(importFolder(placed, events, NOW), events.length)]).trays[tray!.lot]).toBeUndefined();
    const drafts = importFolder({ ...folder, sowings: folder.sowings!.slice(1) }, events, NOW);
    expect(drafts).toMatchObject([{ kind: 'sowing-withdrawn', body: { lot: tray!.lot } }]);
    const { sowings: _, ...without } = folder;
    expect(importFolder(without, events, NOW)).toEqual([]);
  });

  it('is recorded by people, kept by the next import, and can come to nothing', () => {
    const after = act(events, { do: 'record-sowing', row: sown, by: 'tove' });
    expect(foldEvents(after).trays['XX-1']).toEqual(sown);
    expect(importFolder(folder, after, NOW)).toEqual([]);
    expect(foldEvents(act(after, { do: 'withdraw-sowing', lot: 'XX-1', reason: 'damped off', by: 'tove' })).trays['XX-1']).toBeUndefined();
    const refusedCodes = (change: object, by = 'tove') => { const outcome = decide(foldEvents(after), { do: 'record-sowing', row: { ...sown, lot: 'XX-2', ...change }, by }, NOW); return outcome.ok ? [] : outcome.refusals.map(({ code, path }) => `${code} ${path}`); };
    expect([refusedCodes({ lot: 'XX-1' }), refusedCodes({ lot: row.lot }), refusedCodes({ crop: 'none' }), refusedCodes({ plants: 101 }), refusedCodes({ sown: '2026-03-05' }), refusedCodes({}, 'ines'), refusedCodes({})])
      .toEqual([['state-conflict lot'], ['state-conflict lot'], ['reference-unknown crop'], ['inconsistent plants'], ['value-out-of-range sown'], ['not-permitted by'], []]);
  });
});

const plan = (upToSequence: number): ApprovedPlan => ({
  planId: 'p1', at: NOW, approvedBy: 'mirel', upToSequence,
  visits: [{
    visit: 'v1', basin: row.basin, fromBerth: state.basins[row.basin]!.berth, toBerth: state.basins[row.basin]!.berth,
    stops: [
      { stop: 0, kind: 'harvest', station: 'harvest', startAt: NOW, endAt: NOW, effect: { kind: 'harvest', lot: row.lot, plants: row.plants, orders: [{ order: folder.orders[0]!.order, line: folder.orders[0]!.line, units: 4 }] } },
      { stop: 1, kind: 'washing', station: 'washing', startAt: NOW, endAt: NOW, effect: { kind: 'washing' } },
    ],
  }],
});
const approval = decide(state, { do: 'approve-plan', plan: plan(state.sequence) }, NOW);
const approved = [...events, ...record(approval.ok ? approval.value : [], events.length)];
const mark = (stop: number, by = 'tove') => ({ do: 'mark-stop', planId: 'p1', visit: 'v1', stop, by, result: 'done' }) as const;
const codesOf = (outcome: ReturnType<typeof decide>) => (outcome.ok ? [] : outcome.refusals.map((each) => each.code));

describe('decide', () => {
  it('lets a lead approve the plan of the present journal only, once, and no operator', () => {
    expect(approval.ok).toBe(true);
    expect(codesOf(decide(state, { do: 'approve-plan', plan: plan(state.sequence - 1) }, NOW))).toEqual(['state-conflict']);
    expect(codesOf(decide(state, { do: 'approve-plan', plan: { ...plan(state.sequence), approvedBy: 'tove' } }, NOW))).toEqual(['not-permitted']);
    expect(codesOf(decide(foldEvents(approved), { do: 'approve-plan', plan: plan(approved.length) }, NOW))).toEqual(['state-conflict']);
  });

  it('takes stops in order, from people who may, once each', () => {
    const now = foldEvents(approved);
    expect(codesOf(decide(now, mark(1), NOW))).toEqual(['state-conflict']);
    expect(codesOf(decide(now, mark(0, 'ines'), NOW))).toEqual(['not-permitted']);
    expect(codesOf(decide(now, mark(7), NOW))).toEqual(['reference-unknown']);
    const first = decide(now, mark(0), NOW);
    const after = [...approved, ...record(first.ok ? first.value : [], approved.length)];
    expect(codesOf(decide(foldEvents(after), mark(0), NOW))).toEqual(['state-conflict']);
    expect(foldEvents(after).basins[row.basin]).toMatchObject({ planting: undefined, needsWash: true });
    expect(foldEvents(after).delivered[`${folder.orders[0]!.order}/${folder.orders[0]!.line}`]).toBe(4);
  });
});

describe('foldEvents', () => {
  it('puts a correction in the place of what it corrects: a stop marked done by mistake leaves the plants where they were', () => {
    const done = record([{ kind: 'stop-done', happenedAt: NOW, recordedBy: 'tove', body: { planId: 'p1', visit: 'v1', stop: 0, by: 'tove' } }], approved.length);
    const failed = record([{ kind: 'stop-failed', happenedAt: NOW, recordedBy: 'mirel', corrects: done[0]!.id, body: { planId: 'p1', visit: 'v1', stop: 0, by: 'mirel', reason: 'marked by mistake' } }], approved.length + 1);
    const now = foldEvents([...approved, ...done, ...failed]);
    expect(now.basins[row.basin]?.planting).toEqual(row);
    expect(now.outcomes['p1/v1/0']).toMatchObject({ result: 'failed', by: 'mirel' });
    expect(now.sequence).toBe(approved.length + 2);
  });

  it('takes a correction of a mark as a command: open again and marked anew, failed after all, and back to done; each stays in the journal', () => {
    const act = (journal: GreenhouseEvent[], command: Parameters<typeof decide>[1]) => { const drafts = decide(foldEvents(journal), command, NOW); if (!drafts.ok) throw new Error(JSON.stringify(drafts.refusals)); return [...journal, ...record(drafts.value, journal.length)]; };
    const correct = (now: 'done' | 'failed' | 'open') => ({ do: 'correct-stop' as const, planId: 'p1', visit: 'v1', stop: 0, by: 'mirel', now, reason: 'it was another basin' });
    const done = act(approved, mark(0));
    const open = act(done, correct('open'));
    expect([foldEvents(open).outcomes['p1/v1/0'], foldEvents(open).basins[row.basin]?.planting]).toEqual([undefined, row]);
    expect(open.at(-1)).toMatchObject({ kind: 'stop-corrected', corrects: done.at(-1)!.id });
    const again = act(open, mark(0));
    expect(again.at(-1)!.identity).not.toBe(done.at(-1)!.identity);
    expect(foldEvents(again).basins[row.basin]).toMatchObject({ planting: undefined, needsWash: true });
    const failed = act(done, correct('failed'));
    expect([foldEvents(failed).outcomes['p1/v1/0'], foldEvents(failed).delivered]).toMatchObject([{ result: 'failed', reason: 'it was another basin' }, {}]);
    const back = act(failed, correct('done'));
    expect({ ...foldEvents(back), sequence: 0, floorSequence: 0, outcomes: {} }).toEqual({ ...foldEvents(done), sequence: 0, floorSequence: 0, outcomes: {} });
    expect(codesOf(decide(foldEvents(approved), correct('open'), NOW))).toEqual(['state-conflict']);
    expect(codesOf(decide(foldEvents(done), correct('done'), NOW))).toEqual(['state-conflict']);
    expect(codesOf(decide(foldEvents(done), { ...correct('open'), by: 'ines' }, NOW))).toEqual(['not-permitted']);
  });

  it('is the same whether folded at once or in two parts, wherever it is split', () => {
    fc.assert(fc.property(fc.integer({ min: Math.max(0, events.length - 40), max: events.length }), (split) => {
      expect(events.slice(split).reduce(evolve, foldEvents(events.slice(0, split)))).toEqual(state);
    }), { numRuns: 6 });
  });
});
