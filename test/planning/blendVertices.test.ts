import * as fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { LinearSolver } from '../../src/planning/solver/linearModel.ts';
import { loadLinearSolver } from '../../src/planning/solver/loadLinearSolver.ts';
import { blendFile } from '../../src/planning/water/blendFile.ts';
import { solveSmall } from '../../src/science/chemistry/solveSmall.ts';

let solver: LinearSolver;
beforeAll(async () => { solver = await loadLinearSolver(); });

/** normal . x <= limit */
interface HalfSpace { readonly normal: readonly number[]; readonly limit: number }

/** The least cost over all corners of a polyhedron in three dimensions, by brute force; absent when it is empty. */
function leastCorner(cost: readonly number[], spaces: readonly HalfSpace[]): number | undefined {
  let best: number | undefined;
  for (let i = 0; i < spaces.length; i += 1) for (let j = i + 1; j < spaces.length; j += 1) for (let k = j + 1; k < spaces.length; k += 1) {
    const chosen = [spaces[i]!, spaces[j]!, spaces[k]!];
    const corner = Float64Array.from(chosen, ({ limit }) => limit);
    if (!solveSmall(Float64Array.from(chosen.flatMap(({ normal }) => normal)), corner, 3, 3) || !corner.every(Number.isFinite)) continue;
    const holds = spaces.every(({ normal, limit }) => normal.reduce((sum, n, at) => sum + n * corner[at]!, 0) <= limit + 1e-7 * (1 + Math.abs(limit)));
    const value = cost.reduce((sum, c, at) => sum + c * corner[at]!, 0);
    if (holds && (best === undefined || value < best)) best = value;
  }
  return best;
}

describe('blend of one basin from two sources', () => {
  it('costs what the cheapest corner of all its bounds costs, and is infeasible when there is none', () => {
    const whole = (most: number) => fc.integer({ min: 0, max: most });
    const water = fc.record({ Na: whole(12), K: whole(12) });
    const source = fc.record({ mmolPerL: water, availableL: whole(300), costPerL: whole(9) });
    const band = fc.tuple(whole(12), whole(12)).map(([a, b]): [number, number] => [Math.min(a, b), Math.max(a, b)]);
    const basin = fc.record({ volumeL: whole(150), mmolPerL: water, targetVolumeL: band.map(([a, b]): [number, number] => [20 + 15 * a, 20 + 15 * b]), mmolPerLBand: fc.record({ Na: band, K: band }) });
    let feasible = 0;
    fc.assert(fc.property(source, source, basin, whole(5), (one, other, at, dischargeCostPerL) => {
      const outcome = blendFile({ sources: [{ id: 'S0', ...one }, { id: 'S1', ...other }], basins: [{ id: 'B', ...at }], dischargeCostPerL }, solver);
      if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
      const ions = ['Na', 'K'] as const, [low, high] = at.targetVolumeL;
      // x: litres of each source, litres drained. Volume: held + x0 + x1 - x2.
      const spaces: HalfSpace[] = [
        { normal: [-1, 0, 0], limit: 0 }, { normal: [0, -1, 0], limit: 0 }, { normal: [0, 0, -1], limit: 0 },
        { normal: [1, 0, 0], limit: one.availableL }, { normal: [0, 1, 0], limit: other.availableL }, { normal: [0, 0, 1], limit: at.volumeL },
        { normal: [1, 1, -1], limit: high - at.volumeL }, { normal: [-1, -1, 1], limit: at.volumeL - low },
        ...ions.flatMap((ion): HalfSpace[] => [1, -1].map((side) => {
          const bound = at.mmolPerLBand[ion][side === 1 ? 1 : 0], own = at.mmolPerL[ion] - bound;
          return { normal: [one.mmolPerL[ion] - bound, other.mmolPerL[ion] - bound, -own].map((n) => side * n), limit: -side * own * at.volumeL };
        })),
      ];
      const best = leastCorner([one.costPerL, other.costPerL, dischargeCostPerL], spaces);
      expect(outcome.value.status).toBe(best === undefined ? 'infeasible' : 'optimal');
      if (best === undefined) { expect(outcome.value.violation.length).toBeGreaterThan(0); return; }
      feasible += 1;
      expect(Math.abs(outcome.value.cost - best)).toBeLessThan(1e-4 * (1 + best));
    }), { seed: 41, numRuns: 400 });
    console.log(`blends against all corners of their bounds: 400, ${feasible} of them feasible, none dearer`);
    expect(feasible).toBeGreaterThan(50);
  });
});
