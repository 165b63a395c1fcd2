import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Reading } from '../../../src/greenhouse/journalEvent.ts';
import type { Store } from '../../../src/store/store.ts';
import { mustOpen } from '../testStore.ts';
import { type StoreBench, codesOf, cutConnections, newGreenhouse, valueOf } from './storeBench.ts';

const at = (minute: number): string => new Date(Date.UTC(2026, 10, 25, 6, minute)).toISOString();
const reading = (minute: number, value: number, more: Partial<Reading> = {}): Reading => ({ at: at(minute), place: 'basin:B017', quantity: 'pH', value, ...more });

/** What all readings do. */
export function readingsContract(bench: () => StoreBench): void {
  describe('readings', () => {
    let store: Store;
    beforeEach(async () => { store = await mustOpen(bench().settings(newGreenhouse())); });
    afterEach(() => store.close());
    const all = { from: '2000-01-01T00:00:00Z', to: '2100-01-01T00:00:00Z' };

    it('gives back what was added, bit for bit', async () => {
      const readings = [reading(0, 0.1 + 0.2), reading(1, -1e-300, { sd: 5e-324 }), reading(2, 1.7976931348623157e308, { instrument: 'probe "7" Ä' }), reading(3, 6, { at: '2026-11-25T06:03:00.123Z' })];
      expect(valueOf(await store.readings.append(readings))).toEqual({ added: 4, alreadyKnown: 0 });
      expect(await store.readings.range({ place: 'basin:B017', ...all })).toEqual(readings);
    });

    it('keeps the first value of the same place, quantity, instant and instrument', async () => {
      expect(valueOf(await store.readings.append([reading(0, 6), reading(0, 7), reading(0, 8, { instrument: 'a' })]))).toEqual({ added: 2, alreadyKnown: 1 });
      expect(valueOf(await store.readings.append([reading(0, 9), reading(0, 9, { instrument: 'a' }), reading(0, 9, { instrument: 'b' }), reading(1, 9)]))).toEqual({ added: 2, alreadyKnown: 2 });
      expect((await store.readings.range({ place: 'basin:B017', ...all })).map(({ value }) => value)).toEqual([6, 8, 9, 9]);
      expect(valueOf(await store.readings.append([]))).toEqual({ added: 0, alreadyKnown: 0 });
    });

    it('reads a span: its start belongs to it, its end does not', async () => {
      await store.readings.append([reading(2, 2), reading(0, 0), reading(1, 1), reading(1, 11, { quantity: 'waterC' }), reading(1, 111, { place: 'basin:B018' })]);
      const values = async (wish: Parameters<Store['readings']['range']>[0]) => (await store.readings.range(wish)).map(({ value }) => value);
      expect(await values({ place: 'basin:B017', quantity: 'pH', from: at(0), to: at(2) })).toEqual([0, 1]);
      expect(await values({ place: 'basin:B017', from: at(1), to: at(3) })).toEqual([1, 11, 2]);
      expect(await values({ from: at(1), to: at(2) })).toEqual([1, 11, 111]);
      expect(await values({ place: 'nowhere', ...all })).toEqual([]);
      await expect(store.readings.range({ from: 'yesterday', to: at(1) })).rejects.toBeInstanceOf(RangeError);
    });

    it('knows the newest of each place and quantity, now and at an instant', async () => {
      await store.readings.append([reading(0, 0), reading(5, 5, { instrument: 'a' }), reading(4, 4, { instrument: 'b' }), reading(1, 1, { quantity: 'waterC' }), reading(9, 9, { place: 'basin:B003' })]);
      const values = async (wish?: Parameters<Store['readings']['latest']>[0]) => (await store.readings.latest(wish)).map(({ place, quantity, value }) => `${place} ${quantity} ${value}`);
      expect(await values()).toEqual(['basin:B003 pH 9', 'basin:B017 pH 5', 'basin:B017 waterC 1']);
      expect(await values({ at: at(4) })).toEqual(['basin:B017 pH 4', 'basin:B017 waterC 1']);
      expect(await values({ at: at(5), place: 'basin:B017' })).toEqual(['basin:B017 pH 5', 'basin:B017 waterC 1']);
    });

    it('refuses what is no reading, all at once, and adds nothing', async () => {
      const outcome = await store.readings.append([reading(0, 1), reading(1, Number.NaN), reading(2, 1, { at: '25.11.2026' }), reading(3, 1, { sd: Infinity }), reading(4, 1, { place: '' }), reading(5, 1, { quantity: 'a\0' })]);
      expect(codesOf(outcome)).toEqual(['value-not-a-number readings[1].value', 'value-not-allowed readings[2].at', 'value-not-a-number readings[3].sd', 'value-missing readings[4].place', 'value-not-allowed readings[5].quantity']);
      expect(await store.readings.latest()).toEqual([]);
    });

    it('takes no reading of a series that is not there, from anybody', async () => {
      const insert = `insert into watermeadow.reading (greenhouse, series, at, value) select id, 2000000000, now(), 1 from watermeadow.greenhouse limit 1`;
      await expect(bench().behind((client) => client.query(insert))).rejects.toMatchObject({ code: '23503' });
    });

    it('adds each once while its connections are cut', async () => {
      // Each is the first of its series, so that the series too is made in the midst of the cuts.
      const writes = Array.from({ length: 60 }, (_, minute) => store.readings.append([reading(minute, minute, { place: `basin:${minute}` })]));
      for (let cut = 0; cut < 5; cut += 1) await cutConnections(bench());
      await Promise.all(writes);
      expect(await store.readings.range(all)).toHaveLength(60);
    });
  });
}
