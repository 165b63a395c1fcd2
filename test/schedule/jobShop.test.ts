import { describe, expect, it } from 'vitest';
import { solveShop } from '../../src/planning/jobShop/solveShop.ts';
import { randomShop } from './randomShop.ts';
import { shortestShop } from './shortestShop.ts';
import { verifyShopPlan } from '../../src/planning/jobShop/verifyShopPlan.ts';

describe('job shops drawn at random', () => {
  it('gives the shortest plan of tiny ones, every one tried to the end', () => {
    let proven = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const shop = randomShop(seed, { jobs: 1 + (seed % 3), operations: 2, places: 3, vehicles: seed % 3, alternatives: 1 + (seed % 2), unit: seed % 5 === 0 ? 0.1 : 1 });
      const plan = solveShop(shop, { seed, iterations: 3000 });
      const shortest = shortestShop(shop);
      expect(verifyShopPlan(shop, plan), `shop ${seed}`).toEqual([]);
      expect(plan.makespan, `shop ${seed}`).toBeCloseTo(shortest, 9);
      expect(plan.lowerBound, `bound of shop ${seed}`).toBeLessThanOrEqual(shortest + 1e-9);
      if (plan.proven) proven += 1;
    }
    console.log(`60 tiny shops at the optimum by enumeration, ${proven} proven by the planner itself`);
  });

  it('keeps every rule on larger ones, with odd numbers, and is the same bit for bit', () => {
    for (let seed = 1; seed <= 12; seed += 1) {
      const shop = randomShop(seed, { jobs: 4 + seed, operations: 6, places: 5, vehicles: seed % 5, alternatives: 3, unit: seed % 4 === 0 ? Math.PI : 1 });
      const plan = solveShop(shop, { seed, iterations: 400 });
      expect(verifyShopPlan(shop, plan), `shop ${seed}`).toEqual([]);
      expect(solveShop(shop, { seed, iterations: 400 })).toEqual(plan);
    }
  });
});
