import { beforeAll, describe, expect, it } from 'vitest';
import { dualBound } from './dualBound.ts';
import type { LinearModel, LinearSolver } from './linearModel.ts';
import { loadLinearSolver } from './loadLinearSolver.ts';

let solver: LinearSolver;
beforeAll(async () => { solver = await loadLinearSolver(); });

/** Worked by hand: x + y = 10, x + 2 y >= 14, least x + 3 y. */
const BLEND: LinearModel = {
  columns: [{ cost: 1, lower: 0, upper: 100 }, { cost: 3, lower: 0, upper: 100 }],
  rows: [
    { lower: 10, upper: 10, entries: [[0, 1], [1, 1]] },
    { lower: 14, upper: Infinity, entries: [[0, 1], [1, 2]] },
  ],
};

describe('loadLinearSolver', () => {
  it('solves a two-component blend worked by hand: 6 and 4, cost 18, duals -1 and 2', () => {
    const found = solver.solve(BLEND);
    expect(found.status).toBe('optimal');
    expect([...found.columnValue]).toEqual([6, 4]);
    expect(found.objective).toBeCloseTo(18, 9);
    expect([...found.rowDual].map((y) => Math.round(y * 1e6) / 1e6)).toEqual([-1, 2]);
  });

  it('bounds the optimum from its duals, and from any other duals from below', () => {
    expect(dualBound(BLEND, solver.solve(BLEND).rowDual)).toBeCloseTo(18, 9);
    for (const duals of [[0, 0], [1, 0], [-3, 5], [0, 1]]) expect(dualBound(BLEND, Float64Array.from(duals))).toBeLessThanOrEqual(18);
  });

  it('keeps a semicontinuous dose at zero or above its least dose', () => {
    const dose = (upper: number) => solver.solve({
      columns: [{ cost: 1, lower: 2, upper: 5, domain: 'semicontinuous' }, { cost: 10, lower: 0, upper: 5 }],
      rows: [{ lower: 1, upper, entries: [[0, 1], [1, 1]] }],
    });
    expect(dose(1.5).columnValue[0]).toBeCloseTo(0, 5);
    expect(dose(1.5).columnValue[1]).toBeCloseTo(1, 5);
    expect(dose(3).columnValue[0]).toBeCloseTo(2, 5);
    expect(dose(3).bound).toBeCloseTo(2, 5);
  });

  it('says infeasible, and unbounded never arises with finite columns', () => {
    expect(solver.solve({ columns: [{ cost: 1, lower: 0, upper: 1 }], rows: [{ lower: 2, upper: 3, entries: [[0, 1]] }] }).status).toBe('infeasible');
  });

  it('answers a model with nothing to decide', () => {
    expect(solver.solve({ columns: [], rows: [] })).toMatchObject({ status: 'optimal', objective: 0, bound: 0 });
    expect(solver.solve({ columns: [], rows: [{ lower: 1, upper: 2, entries: [] }] }).status).toBe('infeasible');
  });

  it('refuses to build an unsound model', () => {
    const one = { cost: 1, lower: 0, upper: 1 };
    expect(() => solver.solve({ columns: [{ ...one, cost: Number.NaN }], rows: [] })).toThrow(/unsound/);
    expect(() => solver.solve({ columns: [one], rows: [{ lower: 0, upper: 1, entries: [[0, 1], [0, 2]] }] })).toThrow(/unsound/);
    expect(() => solver.solve({ columns: [one], rows: [{ lower: 2, upper: 1, entries: [] }] })).toThrow(/unsound/);
  });

  it('gives the same bits again', () => {
    const [first, second] = [solver.solve(BLEND), solver.solve(BLEND)];
    expect([...first.columnValue, ...first.rowDual]).toEqual([...second.columnValue, ...second.rowDual]);
  });
});
