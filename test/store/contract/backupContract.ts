import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { JournalEvent, Reading } from '../../../src/greenhouse/journalEvent.ts';
import type { Store } from '../../../src/store/store.ts';
import { mustOpen } from '../testStore.ts';
import { type StoreBench, codesOf, collectLines, draft, newGreenhouse, valueOf } from './storeBench.ts';

const BROKEN: readonly (readonly [string, (lines: string[]) => string[], string])[] = [
  ['a changed event', (all) => all.with(1, all[1]!.replace('"z":1', '"z":2')), 'inconsistent line 2'],
  ['a missing event', (all) => all.toSpliced(2, 1), 'inconsistent line 3'],
  ['a missing reading', (all) => all.toSpliced(6, 1), 'inconsistent end'],
  ['an export that was cut off', (all) => all.slice(0, -1), 'inconsistent end'],
  ['a line that was cut off', (all) => all.with(2, all[2]!.slice(0, 40)), 'syntax line 3'],
  ['something after the end', (all) => [...all, all[4]!], 'syntax line 13'],
  ['no first line', (all) => all.slice(1), 'syntax line 1'],
  ['a newer form', (all) => all.with(0, '{"watermeadowJournal":2,"greenhouse":"x"}'), 'syntax line 1'],
  ['an event without its hash', (all) => all.with(1, all[1]!.replace(/,"hash":"[0-9a-f]+"/, '')), 'syntax line 2'],
  ['a reading without a number', (all) => all.with(5, all[5]!.replace(/"value":[^,}]+/, '"value":"much"')), 'value-not-a-number line 6 value'],
  ['something else', () => ['a,b,c\n1,2,3\n'], 'syntax line 1'],
  ['nothing', () => [], 'inconsistent end'],
];

/** What every export and import does. */
export function backupContract(bench: () => StoreBench): void {
  describe('backup', () => {
    let store: Store;
    let lines: string[];
    let events: readonly JournalEvent[];
    let latest: readonly Reading[];
    beforeAll(async () => {
      store = await mustOpen(bench().settings(newGreenhouse()));
      const { events: [first] } = valueOf(await store.journal.append([draft(1, { identity: 'a', body: { z: 1, a: 'Ä😀' } })]));
      await store.journal.append([draft(2, { corrects: first!.id }), draft(3)]);
      await store.readings.append(Array.from({ length: 7 }, (_, n) => ({ at: new Date(n * 60_000).toISOString(), place: `basin:${n % 2}`, quantity: 'pH', value: n / 3, ...(n === 3 ? { sd: 0.1, instrument: 'x' } : {}) })));
      [lines, events, latest] = [await collectLines(store), await store.journal.read(), await store.readings.latest()];
    });
    afterAll(() => store.close());

    it('refuses a store that holds something already', async () => {
      expect(codesOf(await store.importJournal(lines))).toEqual(['state-conflict store']);
    });

    it('goes wholly into an empty store or not at all, and the journal goes on from there', async () => {
      // The full store closes first: an embedded database is open for one greenhouse at a time.
      await store.close();
      store = await mustOpen(bench().settings(newGreenhouse()));
      for (const [what, change, refusal] of BROKEN) {
        expect(codesOf(await store.importJournal(change(lines))), what).toContain(refusal);
        expect((await store.journal.head()).sequence, what).toBe(0);
        expect(await store.readings.latest(), what).toEqual([]);
      }
      expect(valueOf(await store.importJournal(lines))).toEqual({ events: 3, readings: 7, headHash: events[2]!.hash });
      expect(await store.journal.read()).toEqual(events);
      expect(await store.readings.latest()).toEqual(latest);
      expect((await collectLines(store)).slice(1)).toEqual(lines.slice(1));
      expect(valueOf(await store.journal.append([draft(4), draft(5, { identity: 'a' })])).events.map(({ sequence }) => sequence)).toEqual([4]);
      expect(await store.journal.verifyChain()).toEqual([]);
    });
  });
}
