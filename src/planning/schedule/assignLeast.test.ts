import { describe, expect, it } from 'vitest';
import { assignLeast } from './assignLeast.ts';
import { seedRandom } from './seededRandom.ts';

/** The least total over all permutations. */
function leastByTrial(cost: readonly (readonly number[])[], row = 0, used = 0): number {
  if (row === cost.length) return 0;
  let least = Infinity;
  cost[row]?.forEach((c, column) => {
    if ((used >> column) % 2 === 0) least = Math.min(least, c + leastByTrial(cost, row + 1, used | (1 << column)));
  });
  return least;
}

describe('least-cost assignment', () => {
  it('equals a trial of every assignment on 150 random tables, ties and forbidden pairs included', () => {
    const random = seedRandom(5);
    for (let i = 0; i < 150; i++) {
      const rows = 1 + random.below(6);
      const columns = rows + random.below(2);
      const cost = Array.from({ length: rows }, () => Array.from({ length: columns }, () => (random.below(6) === 0 ? Infinity : random.below(9))));
      const least = leastByTrial(cost);
      expect(assignLeast(rows, columns, (r, c) => cost[r]?.[c] ?? NaN)).toBe(least === Infinity ? undefined : least);
    }
  });
});
