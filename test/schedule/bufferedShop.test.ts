import { describe, expect, it } from 'vitest';
import type { JobShopProblem } from '../../src/planning/jobShop/jobShopProblem.ts';
import { solveShop } from '../../src/planning/jobShop/solveShop.ts';
import { verifyShopPlan } from '../../src/planning/jobShop/verifyShopPlan.ts';
import { startRandom } from '../../src/science/seededRandom.ts';
import { randomShop, type ShopSize } from './randomShop.ts';
import { shortestBuffered } from './shortestBuffered.ts';

/** Every place but the start has no, one or two waiting places. */
function buffered(seed: number, size: ShopSize): JobShopProblem {
  const shop = randomShop(seed, size), random = startRandom(seed + 1000);
  return { ...shop, buffers: Object.fromEntries(shop.locations.slice(1).map((name) => [name, random.below(3) === 0 ? 1 : random.below(6) === 0 ? 2 : 0])) };
}

describe('job shops with finite waiting places', () => {
  it('gives the shortest plan of tiny ones, every one tried to the end', () => {
    let longer = 0;
    for (let seed = 1; seed <= 40; seed += 1) {
      const shop = buffered(seed, { jobs: 2 + (seed % 2), operations: seed % 2 === 0 ? 3 : 2, places: 2, vehicles: 1 + (seed % 3 === 0 ? 1 : 0), alternatives: 1 + (seed % 4 === 0 ? 1 : 0) });
      const plan = solveShop(shop, { seed, iterations: 6000 });
      const shortest = shortestBuffered(shop);
      expect(verifyShopPlan(shop, plan), `shop ${seed}`).toEqual([]);
      expect(plan.makespan, `shop ${seed}`).toBe(shortest);
      expect(plan.lowerBound).toBeLessThanOrEqual(shortest);
      const { buffers: _, ...endless } = shop;
      if (solveShop(endless, { seed, iterations: 2000 }).makespan < shortest) longer += 1;
    }
    expect(longer).toBeGreaterThan(3);
    console.log(`40 tiny shops with finite waiting places at the optimum by enumeration; in ${longer} the waiting places make the plan longer`);
  });

  it('never locks on larger ones, and is the same bit for bit', () => {
    for (let seed = 1; seed <= 12; seed += 1) {
      const shop = buffered(seed, { jobs: 4 + seed, operations: 6, places: 5, vehicles: 1 + (seed % 4), alternatives: 2, unit: seed % 4 === 0 ? Math.PI : 1 });
      const plan = solveShop(shop, { seed, iterations: 500 });
      expect(verifyShopPlan(shop, plan), `shop ${seed}`).toEqual([]);
      expect(solveShop(shop, { seed, iterations: 500 })).toEqual(plan);
    }
  });

  it('is refused by the validator where places are overfull or somebody is in the way', () => {
    const move = (job: string, depart: number) => ({ job, from: 'home', to: 'A', vehicle: 0, depart, arrive: depart + 1 });
    const file = { vehicles: 1, locations: ['home', 'A', 'B'], startAt: 'home', travelTime: [[0, 1, 1], [1, 0, 1], [1, 1, 0]], buffers: { A: 0 },
      jobs: ['X', 'Y'].map((id) => ({ id, operations: [{ alternatives: [{ at: 'A', duration: 5 }] }] })) };
    const plan = { makespan: 11, lowerBound: 0, proven: false, operations: [{ job: 'X', index: 0, at: 'A', start: 1, end: 6 }, { job: 'Y', index: 0, at: 'A', start: 6, end: 11 }], moves: [move('X', 0), move('Y', 2)] };
    expect(verifyShopPlan({ ...file, buffers: { A: 1 } }, plan)).toEqual([]);
    expect(verifyShopPlan(file, plan)).toEqual(['Y comes to A at 3, where all places are taken']);
  });
});
