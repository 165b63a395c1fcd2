import { beforeAll, describe, expect, it } from 'vitest';
import type { LinearSolver } from '../solver/linearModel.ts';
import { loadLinearSolver } from '../solver/loadLinearSolver.ts';
import { readSources } from './readSowing.ts';
import { relaxSowing, solveSowing } from './solveSowing.ts';
import type { SowingOption, SowingProblem } from './sowingProblem.ts';

let solver: LinearSolver;
beforeAll(async () => { solver = await loadLinearSolver(); });

/** Three blocks of one week. A basin holds 50 plants; one plant gives one unit for sure. Costs worked by hand below. */
const option = (id: string, sowDay: number, cuts: readonly number[], costPerBasin: number): SowingOption => ({
  id, crop: 'leaf', place: 'glass', sowDay, mostBasins: 10, plantsPerBasin: 50, finalFromDay: 7 * cuts[0]!, stages: [], takes: {}, costPerBasin,
  basinCostByBlock: Object.fromEntries(cuts.map((block) => [block, 2])),
  cuts: cuts.map((block) => ({ block, unitsPerPlant: 1, usableShare: 1, costPerPlant: 0, takesPerPlant: { [`harvest/${block}`]: 0.01 } })),
});
const problem = (over: Partial<SowingProblem> = {}): SowingProblem => ({
  blocks: [0, 1, 2].map((week) => ({ fromDay: 7 * week, toDay: 7 * week + 6, week })),
  places: [{ id: 'glass', title: 'Glass', kind: 'glass', bays: ['g'], basins: 10, basinM2: 3, usableBasins: 10 }],
  options: [option('a', 0, [0, 1], 14), option('b', 1, [1, 2], 14)], standing: [],
  demand: [{ crop: 'leaf', block: 1, orderedUnits: 120, expectedUnits: 0, bufferUnits: 0 }, { crop: 'leaf', block: 2, orderedUnits: 60, expectedUnits: 0, bufferUnits: 0 }],
  limits: [], shortCostPerUnit: { leaf: 4 }, thinCostPerUnit: { leaf: 1 }, wasteCostPerPlant: { leaf: 0 }, wasteCostPerUnit: { leaf: 0 }, ...over,
});

describe('solveSowing', () => {
  it('sows as few basins as the orders need, worked by hand', () => {
    // 180 units need 4 basins of 50: 4 x 14, less 2 for each final basin that is empty in its last block. Best are four of b:
    // 60 plants stay for block 2, the other 140 (20 of them spare) leave in block 1 and free 2.8 basins: 56 - 5.6 = 50.4.
    const solved = solveSowing(problem(), solver, { relativeGap: 0, maxNodes: 1000, wholeStagesDays: 0 });
    expect(solved.cost).toBeCloseTo(50.4, 6);
    expect(solved.gap).toBeCloseTo(0, 6);
    expect(readSources(problem(), solved).map(({ basins }) => basins)).toEqual([0, 4]);
  });

  it('leaves short what costs more to grow than to be short of', () => {
    const dear = problem({ shortCostPerUnit: { leaf: 0.2 } });
    const solved = solveSowing(dear, solver);
    expect(readSources(dear, solved).map(({ basins }) => basins)).toEqual([0, 0]);
    expect(solved.cost).toBeCloseTo(36, 6);
  });

  it('keeps to the basins, and one more is worth what it saves', () => {
    const places = (usableBasins: number) => problem({ places: [{ ...problem().places[0]!, usableBasins }] });
    const cost = (usable: number) => relaxSowing(places(usable), solver).solution.objective;
    // With 2 basins in the first block that b may stand in: block 1 can give 100 of 120 and block 2 60.
    expect(cost(2)).toBeGreaterThan(cost(3));
    const solved = solveSowing(places(2), solver, { relativeGap: 0, maxNodes: 1000, wholeStagesDays: 0 });
    const read = readSources(places(2), solved);
    expect(read.reduce((sum, { basins }) => sum + basins, 0)).toBeLessThanOrEqual(4);
    expect(cost(2)).toBeLessThanOrEqual(solved.cost + 1e-9);
  });

  it('uses lots that stand first, and pays for them whatever is cut', () => {
    const { sowDay: _, mostBasins: __, ...source } = option('old', 0, [1], 3);
    const standing = problem({ standing: [{ ...source, lot: 'old', basins: 3 }] });
    const solved = solveSowing(standing, solver, { relativeGap: 0, maxNodes: 1000, wholeStagesDays: 0 });
    // 120 of 150 standing plants fill block 1; 60 units in block 2 need 2 basins of b, whose 40 spare plants leave a block sooner: 28 - 1.6 + 3 x 3.
    expect(solved.cost).toBeCloseTo(28 - 1.6 + 9, 6);
    expect(readSources(standing, solved).map(({ cut }) => Math.round(cut.reduce((a, b) => a + b, 0))).slice(0, 2)).toEqual([0, 100]);
  });

  it('pays for clearing what nobody buys', () => {
    const solved = solveSowing(problem({ wasteCostPerPlant: { leaf: 0.1 }, wasteCostPerUnit: { leaf: 0.1 } }), solver, { relativeGap: 0, maxNodes: 1000, wholeStagesDays: 0 });
    // 200 plants for 180 units.
    expect(solved.cost).toBeCloseTo(50.4 + 20 * 0.1, 6);
  });

  it('keeps to the hours of a week', () => {
    const limited = problem({ limits: [{ id: 'harvest/1', title: 'Harvest', unit: 'h', week: 1, amount: 0.5 }] });
    const solved = solveSowing(limited, solver, { relativeGap: 0, maxNodes: 1000, wholeStagesDays: 0 });
    // 50 plants can be cut in week 1: 70 units short at 4. 110 units take 3 basins: 2 of b give 40 then and 60 in week 2,
    // one of a gives the other 10; its 40 spare plants leave in week 0. What is freed a week sooner: 80 plants, 3.2.
    expect(solved.cost).toBeCloseTo(70 * 4 + 42 - 3.2, 6);
  });

  it('counts basins of earlier stages whole where it is told to', () => {
    const nursery = { id: 'nursery', title: 'Nursery', kind: 'nursery' as const, bays: ['n'], basins: 1, basinM2: 3, usableBasins: 1 };
    const staged = problem({ places: [...problem().places, nursery], options: problem().options.map((each) => ({ ...each, stages: [{ place: 'nursery', basinsPerFinal: 0.3, fromDay: 0, toDay: 7 }] })) });
    const cost = (wholeStagesDays: number) => solveSowing(staged, solver, { relativeGap: 0, maxNodes: 1000, wholeStagesDays }).cost;
    // One nursery basin carries 3.3 final basins: three of them, whole or not; the whole count allows no second part basin.
    expect(cost(0)).toBeLessThanOrEqual(cost(100) + 1e-9);
    const read = readSources(staged, solveSowing(staged, solver, { relativeGap: 0, maxNodes: 1000, wholeStagesDays: 100 }));
    expect(read.reduce((sum, { basins }) => sum + Math.ceil(basins * 0.3), 0)).toBeLessThanOrEqual(1);
  });

  it('holds ready plants back as a buffer, and pays for what is missing of it', () => {
    const buffered = (bufferUnits: number, usableShare = 1) => problem({
      demand: problem().demand.map((each) => (each.block === 1 ? { ...each, bufferUnits } : each)),
      options: problem().options.map((each) => ({ ...each, cuts: each.cuts.map((cut) => ({ ...cut, usableShare })) })),
    });
    const exact = { relativeGap: 0, maxNodes: 1000, wholeStagesDays: 0 };
    // 120 cut in block 1 and 80 held over it from four of b: 60 are wanted after it, 20 more are held and then cleared: 56 - 120 / 50 x 2.
    expect(solveSowing(buffered(80), solver, exact).cost).toBeCloseTo(56 - 4.8, 6);
    // 10 more take a fifth basin, which costs 14 - 2 x 0.8 = 12.4; leaving them missing costs 10.
    const thin = solveSowing(buffered(90), solver, exact);
    expect(thin.cost).toBeCloseTo(56 - 4.8 + 10, 6);
    expect(thin.solution.columnValue[thin.built.thinColumn[0]!]).toBeCloseTo(10, 6);
    // Plants that are usable with a chance of one half count half: 40 of 80.
    expect(solveSowing(buffered(40, 0.5), solver, exact).cost).toBeCloseTo(56 - 4.8, 6);
  });
});
