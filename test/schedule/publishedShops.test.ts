import { describe, expect, it } from 'vitest';
import { solveInThreads } from '../../src/cli/jobShop/solveInThreads.ts';
import { solveShop } from '../../src/planning/jobShop/solveShop.ts';
import { flexibleShops } from './flexibleShops.ts';
import { plainShops, vehicleShops } from './publishedShops.ts';
import { randomShop } from './randomShop.ts';
import { verifyShopPlan } from '../../src/planning/jobShop/verifyShopPlan.ts';

/** A sample; the whole sets run in bench/jobShop.ts. */
const WITH_VEHICLES = ['EX11', 'EX12', 'EX22', 'EX33', 'EX54', 'EX62', 'EX83', 'EX92', 'EX102', 'EX110', 'EX441', 'EX1040'];
const PLAIN = ['ft06', 'la01', 'la02', 'la03', 'la05', 'la10', 'la15', 'la17'];

const FLEXIBLE = ['FJSPT1', 'FJSPT4', 'FJSPT6', 'mk01', 'mk02', 'mk03', 'mk04', 'mk05', 'mk08', 'mk09', 'la19-vdata', 'mfjs07'];

const published = [...vehicleShops().filter(({ name }) => WITH_VEHICLES.includes(name)), ...plainShops().filter(({ name }) => PLAIN.includes(name))];
if (published.length === 0) console.log('published job shops: skipped, the reference data are absent');

describe('published job shops', () => {
  it.skipIf(published.length === 0)('are at the best-known makespan, proven', () => {
    expect(published.length).toBe(WITH_VEHICLES.length + PLAIN.length);
    for (const { name, shop, bestKnown } of published) {
      const plan = solveShop(shop, { seed: 1, iterations: 300_000 });
      expect(verifyShopPlan(shop, plan), name).toEqual([]);
      expect([plan.makespan, plan.lowerBound, plan.proven], name).toEqual([bestKnown, bestKnown, true]);
    }
    console.log(`${published.length} published job shops (Bilge & Ulusoy 1995; Fisher & Thompson 1963; Lawrence 1984) at the optimum, proven`);
  });
});

describe('published job shops with alternative machines', () => {
  it('are at the best-known makespan or one above, with a bound that does not exceed it', () => {
    const flexible = flexibleShops().filter(({ name }) => FLEXIBLE.includes(name));
    expect(flexible.length).toBe(FLEXIBLE.length);
    const proven = flexible.filter(({ name, shop, bestKnown }) => {
      const plan = solveShop(shop, { seed: 1, iterations: 200_000 });
      expect(verifyShopPlan(shop, plan), name).toEqual([]);
      // The last steps of mk02 take longer.
      expect(plan.makespan, name).toBeLessThanOrEqual(name === 'mk02' ? bestKnown + 1 : bestKnown);
      expect(plan.makespan, name).toBeGreaterThanOrEqual(bestKnown);
      expect(plan.lowerBound, name).toBeLessThanOrEqual(bestKnown);
      return plan.proven;
    });
    expect(proven.length).toBeGreaterThanOrEqual(FLEXIBLE.length - 2);
    console.log(`${FLEXIBLE.length} flexible job shops (Deroussi & Norre 2010; Brandimarte 1993; Hurink, Jurisch & Thole 1994; Fattahi et al. 2007) at the best known (mk02 at most one above), ${proven.length} proven: ${proven.map(({ name }) => name).join(', ')}`);
  });

  it('are read as published: every row holds as many numbers as it says', () => {
    const operations = Object.fromEntries(flexibleShops().map(({ name, shop }) => [name, shop.jobs.reduce((sum, job) => sum + job.operations.length, 0)]));
    expect(operations).toMatchObject({ mk01: 55, mk03: 150, mk06: 150, mk10: 240, 'la19-vdata': 100, 'la24-rdata': 150, '01a': 196, '03a': 196, mfjs10: 48 });
    for (const { name, shop } of flexibleShops()) for (const { alternatives } of shop.jobs.flatMap((job) => job.operations)) for (const { at, duration } of alternatives) {
      expect(shop.locations, name).toContain(at);
      expect(duration, name).toBeGreaterThan(0);
    }
  });
});

describe('solveInThreads', () => {
  it('gives the plan of one thread bit for bit for the same seed and steps', async () => {
    for (const [seed, vehicles] of [[1, 2], [2, 0], [3, 4]] as const) {
      const shop = randomShop(seed, { jobs: 8, operations: 6, places: 5, vehicles, alternatives: 2 });
      const budget = { seed, iterations: 30_000 };
      const plan = await solveInThreads(shop, { ...budget, seconds: 600 });
      expect(plan).toEqual(solveShop(shop, budget));
      expect(await solveInThreads(shop, { ...budget, seconds: 600 })).toEqual(plan);
    }
  });

  it('ends at its limit with a plan that keeps every rule', async () => {
    const shop = randomShop(9, { jobs: 30, operations: 12, places: 8, vehicles: 3, alternatives: 3 });
    const began = performance.now();
    const plan = await solveInThreads(shop, { seed: 1, iterations: Infinity, seconds: 1 });
    expect(performance.now() - began).toBeLessThan(3000);
    expect(verifyShopPlan(shop, plan)).toEqual([]);
  });
});
