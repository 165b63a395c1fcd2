import { describe, expect, it } from 'vitest';
import { startRandom } from '../../science/seededRandom.ts';
import { boundSearch } from './boundSearch.ts';

const NUMBERS = 6, CHOICES = 9, TOP = 25;
interface Difference { readonly earlier: number; readonly later: number; readonly distance: number; readonly when?: number }
interface Puzzle { readonly differences: readonly Difference[]; readonly clauses: readonly (readonly number[])[] }

/** Literals: 2 c "no", 2 c + 1 "yes" of choice c. */
function drawPuzzle(seed: number): Puzzle {
  const random = startRandom(seed);
  const literal = (): number => random.below(2 * CHOICES);
  return {
    differences: Array.from({ length: 22 }, () => ({ earlier: random.below(NUMBERS), later: random.below(NUMBERS), distance: random.below(9) - 1, ...(random.below(5) === 0 ? {} : { when: literal() }) })).filter((d) => d.earlier !== d.later && (d.when !== undefined || d.earlier < d.later)),
    clauses: Array.from({ length: 12 }, () => [literal(), literal(), literal()]).filter((clause) => new Set(clause.map((l) => l >> 1)).size === 3),
  };
}

/** Smallest value of the last number over all assignments, by trying every one; Infinity where there is none. */
function leastByTrying({ differences, clauses }: Puzzle): number {
  let least = Infinity;
  for (let bits = 0; bits < 2 ** CHOICES; bits += 1) {
    const holds = (literal: number): boolean => ((bits >> (literal >> 1)) & 1) === (literal & 1);
    if (!clauses.every((clause) => clause.some(holds))) continue;
    const low = new Array<number>(NUMBERS).fill(0);
    const active = differences.filter(({ when }) => when === undefined || holds(when));
    for (let round = 0; round <= NUMBERS * TOP; round += 1) for (const { earlier, later, distance } of active) low[later] = Math.max(low[later]!, low[earlier]! + distance);
    if (low.every((value) => value <= TOP)) least = Math.min(least, low[NUMBERS - 1]!);
  }
  return least;
}

function leastByLearning({ differences, clauses }: Puzzle): number {
  const search = boundSearch();
  const numbers = Array.from({ length: NUMBERS }, () => search.addVariable(0, TOP));
  const choices = Array.from({ length: CHOICES }, () => search.addChoice());
  const own = (literal: number): number => 2 * choices[literal >> 1]! + (literal & 1);
  for (const { earlier, later, distance, when } of differences) search.addDifference(numbers[earlier]!, numbers[later]!, distance, when === undefined ? undefined : own(when));
  for (const clause of clauses) search.addClause(clause.map(own));
  let least = Infinity;
  while (search.run(1e6, () => false) === 'found') {
    least = search.lowOf(numbers[NUMBERS - 1]!);
    search.rememberChoices();
    search.lowerTop(numbers[NUMBERS - 1]!, least - 1);
  }
  return least;
}

describe('boundSearch', () => {
  it('finds the least value of puzzles that are tried to the end, and says where there is none', () => {
    let without = 0;
    for (let seed = 1; seed <= 150; seed += 1) {
      const puzzle = drawPuzzle(seed);
      const least = leastByTrying(puzzle);
      expect(leastByLearning(puzzle), `puzzle ${seed}`).toBe(least);
      if (least === Infinity) without += 1;
    }
    expect(without).toBeGreaterThan(5);
    expect(without).toBeLessThan(120);
  });
});
