import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Store } from '../../../src/store/store.ts';
import { mustOpen } from '../testStore.ts';
import { type StoreBench, cutConnections, draft, newGreenhouse, valueOf } from './storeBench.ts';

type Step =
  | { readonly is: 'append'; readonly identities: readonly (number | null)[] }
  | { readonly is: 'correct'; readonly which: number }
  | { readonly is: 'cut' }
  | { readonly is: 'reopen' };

const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ is: fc.constant('append' as const), identities: fc.array(fc.option(fc.nat(6)), { maxLength: 6 }) }) },
  { weight: 2, arbitrary: fc.record({ is: fc.constant('correct' as const), which: fc.nat(20) }) },
  { weight: 1, arbitrary: fc.constant({ is: 'cut' as const }) },
  { weight: 1, arbitrary: fc.constant({ is: 'reopen' as const }) },
);

/** Random histories, compared with a list in memory. */
export function walkContract(bench: () => StoreBench): void {
  describe('random histories', () => {
    it('leave the journal that a list in memory would be, with a chain that holds', async () => {
      await fc.assert(fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 14 }), async (steps) => {
        const settings = bench().settings(newGreenhouse());
        let store = await mustOpen(settings);
        const expected: { readonly id: string; readonly identity?: string }[] = [];
        for (const one of steps) {
          if (one.is === 'append') await appendBoth(store, one.identities, expected);
          else if (one.is === 'correct') await correctBoth(store, one.which, expected);
          else if (one.is === 'cut') await cutConnections(bench());
          else {
            await store.close();
            store = await mustOpen(settings);
          }
        }
        const events = await store.journal.read();
        expect(events.map(({ id }) => id)).toEqual(expected.map(({ id }) => id));
        expect(events.map(({ sequence }) => sequence)).toEqual(expected.map((_, index) => index + 1));
        expect(await store.journal.verifyChain()).toEqual([]);
        await store.close();
      }), { seed: 20261125, numRuns: 8, endOnFailure: true });
    });
  });
}

/** Appends to the store, and to the list what should have been added. */
async function appendBoth(store: Store, identities: readonly (number | null)[], expected: { id: string; identity?: string }[]): Promise<void> {
  const drafts = identities.map((identity, n) => draft(n, identity === null ? {} : { identity: `fact ${identity}` }));
  const { events, skipped } = valueOf(await store.journal.append(drafts));
  const known = new Set(expected.map(({ identity }) => identity));
  const fresh = drafts.filter(({ identity }) => identity === undefined || (!known.has(identity) && known.add(identity)));
  expect(events.map(({ body, identity }) => ({ body, identity }))).toEqual(fresh.map(({ body, identity }) => ({ body, identity })));
  expect(skipped).toHaveLength(drafts.length - fresh.length);
  expected.push(...events);
}

async function correctBoth(store: Store, which: number, expected: { id: string; identity?: string }[]): Promise<void> {
  const outcome = await store.journal.append([draft(which, { corrects: expected[which]?.id ?? '00000000-0000-7000-8000-000000000000' })]);
  expect(outcome.ok).toBe(which < expected.length);
  if (outcome.ok) expected.push(...outcome.value.events);
}
