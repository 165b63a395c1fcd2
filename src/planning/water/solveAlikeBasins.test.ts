import * as fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { dualBound } from '../solver/dualBound.ts';
import type { LinearModel, LinearSolver } from '../solver/linearModel.ts';
import { loadLinearSolver } from '../solver/loadLinearSolver.ts';
import { buildBlendModel } from './blendModel.ts';
import type { BlendBasin, BlendProblem } from './blendProblem.ts';
import { solveAlikeBasins } from './solveAlikeBasins.ts';

let solver: LinearSolver;
beforeAll(async () => { solver = await loadLinearSolver(); });

const salt = (low: number, high: number) => ({ name: 'K', unit: 'mmol/L', weights: { K: 1 }, constant: 0, low, high });
const KINDS: readonly Omit<BlendBasin, 'id'>[] = [
  { volumeL: 0, mmolPerL: {}, volumeBandL: [90, 100], limits: [salt(4, 6)] },
  { volumeL: 60, mmolPerL: { K: 9 }, volumeBandL: [90, 100], limits: [salt(4, 6)] },
  { volumeL: 60, mmolPerL: { K: 9 }, volumeBandL: [90, 100], limits: [salt(4, 6.5)] },
  { volumeL: 60, mmolPerL: { K: 9 }, volumeBandL: [90, 100], limits: [salt(4, 6)], without: new Set(['returned']) },
];
const problemOf = (kinds: readonly number[], returnedL: number, stockL: number): BlendProblem => ({
  dischargeCostPerL: 0.3,
  sources: [
    { id: 'rain', mmolPerL: {}, availableL: 1e4, costPerL: 0.2 }, { id: 'returned', mmolPerL: { K: 3 }, availableL: returnedL, costPerL: 0.1 },
    { id: 'stock', mmolPerL: { K: 500 }, availableL: stockL, costPerL: 7 },
  ],
  basins: kinds.map((kind, b) => ({ id: `B${b}`, ...KINDS[kind]! })),
});

/** The solver, and how many columns it was given. */
function counting(): { readonly widths: number[]; readonly solver: LinearSolver } {
  const widths: number[] = [];
  return { widths, solver: { ...solver, solve: (model: LinearModel, limits, start) => { widths.push(model.columns.length); return solver.solve(model, limits, start); } } };
}

describe('solveAlikeBasins', () => {
  it('costs what the whole programme costs, holds all its rows, and its duals prove it', () => {
    let feasible = 0;
    fc.assert(fc.property(fc.array(fc.nat(3), { minLength: 2, maxLength: 12 }), fc.integer({ min: 0, max: 600 }), fc.integer({ min: 0, max: 12 }), (kinds, returnedL, stockL) => {
      const model = buildBlendModel(problemOf(kinds, returnedL, stockL), { kind: 'hard' });
      const whole = solver.solve(model);
      const alike = solveAlikeBasins(model, solver);
      expect(alike.status).toBe(whole.status);
      if (whole.status !== 'optimal') return;
      feasible += 1;
      expect(alike.objective).toBeCloseTo(whole.objective, 6);
      expect(model.columns.reduce((sum, { cost }, j) => sum + cost * alike.columnValue[j]!, 0)).toBeCloseTo(whole.objective, 6);
      expect(dualBound(model, alike.rowDual)).toBeCloseTo(whole.objective, 6);
      model.columns.forEach(({ lower, upper }, j) => { expect(alike.columnValue[j]).toBeGreaterThan(lower - 1e-6); expect(alike.columnValue[j]).toBeLessThan(upper + 1e-6); });
      model.rows.forEach(({ lower, upper, entries }, i) => {
        const value = entries.reduce((sum, [j, coefficient]) => sum + coefficient * alike.columnValue[j]!, 0);
        expect(alike.rowValue[i]).toBeCloseTo(value, 6);
        expect(value).toBeGreaterThan(lower - 1e-6);
        expect(value).toBeLessThan(upper + 1e-6);
      });
    }), { seed: 7, numRuns: 120 });
    console.log(`blends with alike basins against the whole programme: 120, ${feasible} feasible`);
    expect(feasible).toBeGreaterThan(80);
  });

  it('gives alike basins the same mix, and solves one block a kind', () => {
    const model = buildBlendModel(problemOf([0, 1, 0, 2, 1, 0, 3], 120, 100), { kind: 'hard' });
    const { widths, solver: counted } = counting();
    const { columnValue } = solveAlikeBasins(model, counted);
    expect(widths).toEqual([4 * 5]);
    const mixOf = (b: number) => columnValue.slice(model.firstColumn[b], model.firstColumn[b]! + 5);
    for (const [one, other] of [[0, 2], [0, 5], [1, 4]] as const) expect(mixOf(one)).toEqual(mixOf(other));
    expect(mixOf(6)[1]).toBe(0);
  });

  it('leaves basins alone that differ in anything: a limit, what is in them, a source they may not have', () => {
    const model = buildBlendModel(problemOf([0, 1, 2, 3], 120, 100), { kind: 'hard' });
    const { widths, solver: counted } = counting();
    solveAlikeBasins(model, counted);
    expect(widths).toEqual([model.columns.length]);
  });

  it('starts many different basins from the basis of a single one, and ends at the same proven optimum', () => {
    const basins = Array.from({ length: 40 }, (_, b) => ({ ...KINDS[b % 2]!, id: `B${b}`, limits: [salt(3 + b / 100, 5 + b / 50)] }));
    const model = buildBlendModel({ ...problemOf([], 900, 9), basins }, { kind: 'hard' });
    const { widths, solver: counted } = counting();
    const found = solveAlikeBasins(model, counted);
    expect(widths).toEqual([5, 5, model.columns.length]);
    expect(found.objective).toBeCloseTo(solver.solve(model).objective, 6);
    expect(dualBound(model, found.rowDual)).toBeCloseTo(found.objective, 6);
    const none = buildBlendModel({ ...problemOf([], 0, 0), basins }, { kind: 'hard' });
    expect(solveAlikeBasins(none, solver).status).toBe(solver.solve(none).status);
  });
});
