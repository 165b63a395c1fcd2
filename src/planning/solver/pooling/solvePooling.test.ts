import * as fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkPooling } from '../../../../test/pooling/checkPooling.ts';
import type { LinearSolver } from '../linearModel.ts';
import { loadLinearSolver } from '../loadLinearSolver.ts';
import { bestFlows } from './poolingPoint.ts';
import type { PoolingProblem } from './poolingProblem.ts';
import { solvePooling } from './solvePooling.ts';

let solver: LinearSolver;
beforeAll(async () => { solver = await loadLinearSolver(); });

/** Haverly 1978, ACM SIGMAP Bulletin 25: sulphur 3, 1 and 2 %; the first two meet in one tank. */
function haverly(cheapProductMost: number, secondCost: number): PoolingProblem {
  return {
    qualities: ['sulphur'],
    sources: [{ id: 'A', cost: 6, least: 0, most: 800, quality: [3] }, { id: 'B', cost: secondCost, least: 0, most: 800, quality: [1] }, { id: 'C', cost: 10, least: 0, most: 800, quality: [2] }],
    pools: [{ id: 'tank', capacity: 800 }],
    products: [
      { id: 'X', price: 9, least: 0, most: cheapProductMost, qualityLow: [undefined], qualityHigh: [2.5] },
      { id: 'Y', price: 15, least: 0, most: 200, qualityLow: [undefined], qualityHigh: [1.5] },
    ],
    intoPool: [{ source: 0, pool: 0 }, { source: 1, pool: 0 }],
    outOfPool: [{ pool: 0, product: 0, most: 800 }, { pool: 0, product: 1, most: 800 }],
    direct: [{ source: 2, product: 0, most: 800 }, { source: 2, product: 1, most: 800 }],
  };
}

describe('solvePooling', () => {
  it('Haverly 1978, the three cases: profit 400, 600 and 750, proven', () => {
    for (const [most, cost, profit] of [[100, 16, 400], [600, 16, 600], [100, 13, 750]] as const) {
      const found = solvePooling(haverly(most, cost), solver);
      expect(found.status).toBe('optimal');
      expect(found.cost).toBeCloseTo(-profit, 4);
      expect(checkPooling(haverly(most, cost), found).broken).toEqual([]);
    }
  });

  it('gives the same bits again', () => {
    expect(solvePooling(haverly(600, 16), solver)).toEqual(solvePooling(haverly(600, 16), solver));
  });

  it('says infeasible where no mixture can be good enough', () => {
    const problem = haverly(100, 16);
    const impossible = { ...problem, products: problem.products.map((product) => ({ ...product, least: 50, qualityHigh: [0.5] })) };
    expect(solvePooling(impossible, solver)).toMatchObject({ status: 'infeasible', cost: Infinity });
  });

  it('keeps the bound below and the cost above what a fine grid of one pool finds, for random networks', () => {
    const amount = fc.integer({ min: 0, max: 20 });
    const network = fc.record({ quality: fc.array(fc.tuple(amount, amount), { minLength: 3, maxLength: 3 }), costs: fc.array(amount, { minLength: 3, maxLength: 3 }), limits: fc.array(fc.tuple(amount, amount), { minLength: 2, maxLength: 2 }), prices: fc.array(amount, { minLength: 2, maxLength: 2 }), worth: fc.integer({ min: 0, max: 2 }) });
    let pooled = 0;
    fc.assert(fc.property(network, ({ quality, costs, limits, prices, worth }) => {
      const problem: PoolingProblem = {
        qualities: ['a', 'b'],
        sources: quality.map((each, i) => ({ id: `s${i}`, cost: costs[i]!, least: 0, most: 30, quality: each })),
        pools: [{ id: 'tank', capacity: 40 }],
        products: limits.map((high, j) => ({ id: `p${j}`, price: prices[j]!, least: 0, most: 25, qualityLow: [undefined, undefined], qualityHigh: high, worth: [0, worth / 10] })),
        intoPool: [{ source: 0, pool: 0 }, { source: 1, pool: 0 }],
        outOfPool: [{ pool: 0, product: 0, most: 40 }, { pool: 0, product: 1, most: 40 }],
        direct: [{ source: 2, product: 0, most: 40 }, { source: 2, product: 1, most: 40 }],
      };
      const found = solvePooling(problem, solver, { maxNodes: 300 });
      const { broken, cost } = checkPooling(problem, found);
      expect(broken).toEqual([]);
      expect(cost).toBeCloseTo(found.cost, 4);
      for (let step = 0; step <= 40; step += 1) {
        const grid = bestFlows(problem, Float64Array.of(step / 40, 1 - step / 40), solver);
        if (grid !== undefined) expect(grid.cost).toBeGreaterThanOrEqual(found.lowerBound - 1e-4);
        if (grid !== undefined && found.status === 'optimal') expect(grid.cost).toBeGreaterThanOrEqual(found.cost - 1e-3);
      }
      if (found.flow.some((each) => each > 0)) pooled += 1;
    }), { numRuns: 40, seed: 5 });
    expect(pooled).toBeGreaterThan(5);
  });
});
