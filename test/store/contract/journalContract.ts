import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Store } from '../../../src/store/store.ts';
import { mustOpen } from '../testStore.ts';
import { type StoreBench, codesOf, cutConnections, draft, newGreenhouse, valueOf } from './storeBench.ts';

/** What every journal does. */
export function journalContract(bench: () => StoreBench): void {
  describe('journal', () => {
    let greenhouse: string;
    let store: Store;
    const reopen = async (): Promise<void> => {
      await store.close();
      store = await mustOpen(bench().settings(greenhouse));
    };
    beforeEach(async () => {
      greenhouse = newGreenhouse();
      store = await mustOpen(bench().settings(greenhouse));
    });
    afterEach(() => store.close());

    it('is empty at first', async () => {
      expect(await store.journal.head()).toEqual({ sequence: 0, hash: '0'.repeat(64) });
      expect(await store.journal.read()).toEqual([]);
      expect(await store.journal.verifyChain()).toEqual([]);
      expect(valueOf(await store.journal.append([]))).toEqual({ events: [], skipped: [] });
    });

    it('gives back letter by letter what was added, now and after it was opened again', async () => {
      const first = valueOf(await store.journal.append([draft(1, { identity: 'a' })])).events[0]!;
      const body = { z: 1e-7, a: [1e21, -0, null, true, 'Ä€😀\u0001"\\'], 10: 'ten', 9: 'nine', gone: undefined };
      const added = valueOf(await store.journal.append([draft(2, { corrects: first.id, happenedAt: '2026-11-25T06:30:00.1234567Z', body }), draft(3, { body: 'only a text' })])).events;
      const text = JSON.stringify([first, ...added]);
      expect(JSON.stringify(await store.journal.read())).toBe(text);
      await reopen();
      expect(JSON.stringify(await store.journal.read())).toBe(text);
      expect(added[0]!.happenedAt).toBe('2026-11-25T06:30:00.1234567Z');
      expect(await store.journal.head()).toEqual({ sequence: 3, hash: added[1]!.hash });
      expect(await store.journal.verifyChain()).toEqual([]);
    });

    it('adds the same fact once, within a call, in the next call and in two at the same time', async () => {
      const { events } = valueOf(await store.journal.append([draft(1, { identity: 'a' }), draft(2, { identity: 'a' }), draft(3)]));
      expect(events.map(({ sequence }) => sequence)).toEqual([1, 2]);
      await reopen();
      expect(valueOf(await store.journal.append([draft(4), draft(5, { identity: 'a' })])).skipped).toEqual([{ draft: 1, identity: 'a', existingId: events[0]!.id }]);
      const both = await Promise.all([1, 2, 3].map((n) => store.journal.append([draft(n, { identity: 'b' })])));
      expect(both.map((outcome) => valueOf(outcome).events.length).toSorted()).toEqual([0, 0, 1]);
      expect((await store.journal.read()).map(({ identity }) => identity)).toEqual(['a', undefined, undefined, 'b']);
    });

    it('refuses a correction of what is not there, and adds nothing', async () => {
      const outcome = await store.journal.append([draft(1), draft(2, { corrects: '017f22e2-79b0-7cc3-98c4-dc0c0c07398f' }), draft(3, { corrects: 'nothing' })]);
      expect(codesOf(outcome)).toEqual(['reference-unknown drafts[1].corrects', 'reference-unknown drafts[2].corrects']);
      expect((await store.journal.head()).sequence).toBe(0);
    });

    it('refuses drafts that cannot be kept, all at once, and adds nothing', async () => {
      const outcome = await store.journal.append([draft(1), draft(2, { happenedAt: '2026-02-30T00:00:00Z' }), draft(3, { kind: '' }), draft(4, { body: { a: [Number.NaN] } }),
        draft(5, { body: undefined }), draft(6, { recordedBy: 'a\0' }), draft(7, { identity: 'x'.repeat(1001) }), draft(8, { body: 'half \ud800' })]);
      expect(codesOf(outcome)).toEqual(['value-not-allowed drafts[1].happenedAt', 'value-missing drafts[2].kind', 'value-not-allowed drafts[3].body.a[0]', 'value-missing drafts[4].body',
        'value-not-allowed drafts[5].recordedBy', 'value-out-of-range drafts[6].identity', 'value-not-allowed drafts[7].body']);
      expect((await store.journal.head()).sequence).toBe(0);
    });

    it('keeps calls that come at the same time whole and in their order', async () => {
      const sizes = Array.from({ length: 150 }, (_, call) => 1 + (call * 7) % 5);
      const outcomes = await Promise.all(sizes.map((size, call) => store.journal.append(Array.from({ length: size }, (_, part) => draft(call, { body: { call, part } })))));
      const events = await store.journal.read();
      expect(events.map(({ sequence }) => sequence)).toEqual(events.map((_, index) => index + 1));
      expect(events.map(({ body }) => body)).toEqual(outcomes.flatMap((outcome) => valueOf(outcome).events.map(({ body }) => body)));
      expect(await store.journal.verifyChain()).toEqual([]);
    });

    it('reads what is wished', async () => {
      await store.journal.append(Array.from({ length: 10 }, (_, n) => draft(n, { kind: n % 2 === 0 ? 'even' : 'odd' })));
      const sequences = async (...wish: Parameters<Store['journal']['read']>) => (await store.journal.read(...wish)).map(({ sequence }) => sequence);
      expect(await sequences({ afterSequence: 7 })).toEqual([8, 9, 10]);
      expect(await sequences({ upToSequence: 2 })).toEqual([1, 2]);
      expect(await sequences({ kinds: ['odd'], afterSequence: 2, limit: 2 })).toEqual([4, 6]);
      expect(await sequences({ kinds: [] })).toEqual([]);
      expect(await sequences({ afterSequence: 10 })).toEqual([]);
    });

    it('takes a long text and a long list, the list wholly or not at all', async () => {
      const text = 'weather '.repeat(400_000);
      await store.journal.append([draft(1, { body: { text } })]);
      expect(((await store.journal.read())[0]!.body as { text: string }).text).toBe(text);
      expect(valueOf(await store.journal.append(Array.from({ length: 12_000 }, (_, n) => draft(n)))).events).toHaveLength(12_000);
      expect(await store.journal.verifyChain()).toEqual([]);
    });

    it('refuses every change of what is there, from anybody', async () => {
      await store.journal.append([draft(1)]);
      await store.readings.append([{ at: '2026-11-25T06:30:00Z', place: 'outdoor', quantity: 'airC', value: 7 }]);
      for (const table of ['event', 'reading', 'series']) {
        for (const sql of [`update watermeadow.${table} set greenhouse = greenhouse`, `delete from watermeadow.${table}`, `truncate watermeadow.${table}`]) {
          await expect(bench().behind((client) => client.query(sql))).rejects.toMatchObject({ code: '23001' });
        }
      }
    });

    it('says where the chain was broken by somebody with every right', async () => {
      await store.journal.append(Array.from({ length: 9 }, (_, n) => draft(n)));
      const number = '(select id from watermeadow.greenhouse where name = $1)';
      await bench().behind(async (client) => {
        await client.query('alter table watermeadow.event disable trigger append_only');
        await client.query(`update watermeadow.event set body = '{"n":99}' where sequence = 3 and greenhouse = ${number}`, [greenhouse]);
        await client.query(`delete from watermeadow.event where sequence = 7 and greenhouse = ${number}`, [greenhouse]);
        await client.query('alter table watermeadow.event enable trigger append_only');
      });
      expect((await store.journal.verifyChain()).map(({ sequence, what }) => `${what} ${sequence}`)).toEqual(['content 3', 'missing 7', 'link 8']);
    });

    it('adds each event once and loses none while its connections are cut again and again', async () => {
      const progress = { done: 0 };
      const writes = Array.from({ length: 8 }, async (_, writer) => {
        for (let n = 0; n < 40; n += 1) {
          valueOf(await store.journal.append([draft(n, { body: { writer, n } }), draft(n, { body: { writer, n, second: true } })]));
          progress.done += 1;
        }
      });
      let cuts = 0;
      for (; progress.done < 320; await sleep(5)) {
        if (progress.done <= cuts * 60) continue;
        await cutConnections(bench());
        cuts += 1;
      }
      await Promise.all(writes);
      const events = await store.journal.read();
      expect(events).toHaveLength(640);
      expect(new Set(events.map(({ body }) => JSON.stringify(body))).size).toBe(640);
      expect(await store.journal.verifyChain()).toEqual([]);
      expect(cuts).toBeGreaterThan(3);
    });

    it('answers a closed store with a fault, not with silence', async () => {
      await store.close();
      await expect(store.journal.append([draft(1)])).rejects.toMatchObject({ fault: 'store-closed', retryHelps: false });
      await expect(store.journal.read()).rejects.toMatchObject({ fault: 'store-closed' });
    });
  });
}
