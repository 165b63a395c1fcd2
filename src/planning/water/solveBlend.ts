import { accepted, refused, type Outcome } from '../../science/refusal.ts';
import { dualBoundParts } from '../solver/dualBound.ts';
import type { LinearColumn, LinearSolution, LinearSolver } from '../solver/linearModel.ts';
import { buildBlendModel, limitScale, limitValue, type BlendModel } from './blendModel.ts';
import type { Amounts, BasinBlend, BindingLimit, BlendAnswer, BlendBasin, BlendProblem, BlendSource, Violation } from './blendProblem.ts';
import { solveAlikeBasins } from './solveAlikeBasins.ts';

/** Shares below this are rounding of the solver, not a miss. */
const MISS = 1e-6;

/**
 * The cheapest mix for all basins at once, as a linear programme solved to its proven optimum; mixed-integer where a
 * pump's least dose binds. Where no mix holds every limit, the one with the least sum of relative misses, and the
 * cheapest of those. Where no pump has a least dose, basins that are alike get the same mix if all limits can be held.
 * The lower bound is for `bounded`: the same problem with its true limits where `problem` has them narrowed (any dual
 * vector gives a bound).
 */
export function solveBlend(problem: BlendProblem, solver: LinearSolver, bounded: BlendProblem = problem): Outcome<BlendAnswer> {
  const hard = buildBlendModel(problem, { kind: 'hard' });
  // A mean of alike mixes could leave each of them below a pump's least dose.
  const hasLeastDose = problem.sources.some(({ minimumDoseL = 0 }) => minimumDoseL > 0);
  const solved = hasLeastDose ? solver.solve(hard) : solveAlikeBasins(hard, solver);
  if (solved.status === 'optimal') return finishBlend(hard, solved, solver, 'optimal', bounded === problem ? hard : buildBlendModel(bounded, { kind: 'hard' }));
  return solveNearest(problem, solver, bounded);
}

/** First the basins that cannot be brought within their limits even alone are let off; only if that is not enough, all of them. */
function solveNearest(problem: BlendProblem, solver: LinearSolver, bounded: BlendProblem): Outcome<BlendAnswer> {
  const alone = missesAlone(problem, solver);
  const answered = alone.size === 0 ? undefined : solveMissing(problem, alone, solver, bounded);
  if (answered !== undefined) return answered;
  const elastic = buildBlendModel(problem, { kind: 'elastic' });
  const least = solver.solve(elastic);
  if (least.status !== 'optimal') return notSolved(least.status);
  return solveMissing(problem, missedShares(elastic, least), solver, bounded) ?? notSolved('infeasible');
}

/** The cheapest mix that misses each row by no more than its share; absent when there is none. */
function solveMissing(problem: BlendProblem, shares: ReadonlyMap<number, number>, solver: LinearSolver, bounded: BlendProblem): Outcome<BlendAnswer> | undefined {
  const fixed = buildBlendModel(problem, { kind: 'missed-by', shares });
  const cheapest = solver.solve(fixed);
  if (cheapest.status !== 'optimal') return undefined;
  return finishBlend(fixed, cheapest, solver, 'infeasible', bounded === problem ? fixed : buildBlendModel(bounded, { kind: 'missed-by', shares }));
}

/** Row of the whole model to the share by which its basin misses it when it has every source to itself. */
function missesAlone(problem: BlendProblem, solver: LinearSolver): Map<number, number> {
  const shares = new Map<number, number>();
  let firstRow = 0;
  for (const basin of problem.basins) {
    const single: BlendProblem = { ...problem, basins: [basin] };
    const hard = buildBlendModel(single, { kind: 'hard' });
    if (solver.solve(hard).status !== 'optimal') {
      const elastic = buildBlendModel(single, { kind: 'elastic' });
      const least = solver.solve(elastic);
      if (least.status === 'optimal') for (const [row, share] of missedShares(elastic, least)) shares.set(firstRow + row, share);
    }
    firstRow += hard.rows.length - problem.sources.length;
  }
  return shares;
}

const missedShares = (elastic: BlendModel, least: LinearSolution): Map<number, number> =>
  new Map([...elastic.slackOfRow].map(([row, column]) => [row, missShare(least.columnValue[column]!)] as const));

/** A miss that is allowed again when the cost is minimised, with room for the solver's own tolerance. */
const missShare = (share: number): number => (share > MISS / 10 ? share + MISS / 10 : MISS / 10);

const notSolved = (status: string): Outcome<never> => refused([{
  code: 'not-converged', path: 'blend', value: status, message: `The blend was not solved: the solver says ${status}.`, severity: 'error',
}]);

function finishBlend(model: BlendModel, relaxed: LinearSolution, solver: LinearSolver, status: BlendAnswer['status'], bounded: BlendModel): Outcome<BlendAnswer> {
  const columnValue = keepLeastDoses(model, relaxed, solver);
  if (columnValue === undefined) return notSolved('no mix with these pumps');
  const bounds = boundsByBasin(bounded, model, relaxed);
  const basins = model.problem.basins.map((basin, b) => readBasin(model, basin, b, columnValue, bounds.perBasin[b]!));
  return accepted({
    status,
    cost: basins.reduce((sum, basin) => sum + basin.cost, 0),
    lowerBound: bounds.total,
    basins,
    binding: readBinding(model, relaxed, basins),
    violations: basins.flatMap((basin, b) => findViolations(model.problem.basins[b]!, basin)),
  });
}

/**
 * Doses between zero and a pump's least: each such basin is mixed again by itself, its small doses forced to nothing or to
 * the least in turn (branch and bound on the linear programme, Land & Doig 1960), with what the others leave of each
 * source. Where no source is scarce that is the optimum; where one is, the lower bound says how far from it at most.
 */
function keepLeastDoses(model: BlendModel, relaxed: LinearSolution, solver: LinearSolver): Float64Array | undefined {
  const { basins, sources } = model.problem;
  const columnValue = Float64Array.from(relaxed.columnValue);
  for (let b = 0; b < basins.length; b++) {
    const first = model.firstColumn[b]!;
    if (smallDose(columnValue.subarray(first, first + sources.length), sources) === undefined) continue;
    const again = mixAlone(model, b, columnValue, solver);
    if (again === undefined) return undefined;
    columnValue.set(again, first);
  }
  return columnValue;
}

/** Source whose dose its pump cannot measure; absent when there is none. */
function smallDose(litres: Float64Array, sources: readonly BlendSource[]): number | undefined {
  const at = sources.findIndex(({ minimumDoseL = 0 }, s) => litres[s]! > 1e-7 && litres[s]! < minimumDoseL - 1e-6);
  return at < 0 ? undefined : at;
}

/** The draws and the drain of one basin, all others' fixed. */
function mixAlone(model: BlendModel, b: number, columnValue: Float64Array, solver: LinearSolver): Float64Array | undefined {
  const { problem, firstColumn } = model;
  const others = (s: number) => problem.basins.reduce((sum, _, other) => sum + (other === b ? 0 : columnValue[firstColumn[other]! + s]!), 0);
  const alone: BlendProblem = {
    dischargeCostPerL: problem.dischargeCostPerL,
    basins: [problem.basins[b]!],
    sources: problem.sources.map((source, s) => ({ ...source, availableL: Math.max(0, source.availableL - others(s)) })),
  };
  const width = alone.sources.length + 1;
  const hard = branchDoses(buildBlendModel(alone, { kind: 'hard' }), solver);
  if (hard !== undefined) return hard.columnValue.slice(0, width);
  const elastic = buildBlendModel(alone, { kind: 'elastic' });
  const least = branchDoses(elastic, solver);
  if (least === undefined) return undefined;
  return (branchDoses(buildBlendModel(alone, { kind: 'missed-by', shares: missedShares(elastic, least) }), solver) ?? least).columnValue.slice(0, width);
}

/** The best solution in which each dose is nothing or at least its pump's least; absent when there is none. */
function branchDoses(model: BlendModel, solver: LinearSolver): LinearSolution | undefined {
  const { sources } = model.problem;
  let best: LinearSolution | undefined;
  const explore = (columns: readonly LinearColumn[]): void => {
    const solved = solver.solve({ columns, rows: model.rows });
    if (solved.status !== 'optimal' || (best !== undefined && solved.objective >= best.objective - 1e-9)) return;
    const small = smallDose(solved.columnValue.subarray(0, sources.length), sources);
    if (small === undefined) { best = solved; return; }
    const least = sources[small]!.minimumDoseL!;
    const replaced = (column: LinearColumn) => columns.map((is, j) => (j === small ? column : is));
    const branches = [...(columns[small]!.upper < least ? [] : [replaced({ ...columns[small]!, lower: least })]), replaced({ ...columns[small]!, upper: 0 })];
    for (const branch of solved.columnValue[small]! > least / 2 ? branches : branches.reverse()) explore(branch);
  };
  explore(model.columns);
  return best;
}

/**
 * The dual bound, basin by basin, for the wider limits of `bounded`; for a basin that misses a limit, for the model's own
 * (prices at the edge of what is possible are so steep that a bound for wider limits would say nothing).
 */
function boundsByBasin(bounded: BlendModel, model: BlendModel, relaxed: LinearSolution): { total: number; perBasin: number[] } {
  const { basins, sources } = model.problem;
  const wide = dualParts(bounded, relaxed);
  const own = bounded === model ? wide : dualParts(model, relaxed);
  const missing = new Set([...model.slackOfRow].flatMap(([row, column]) => (relaxed.columnValue[column]! > MISS ? [model.meaningOfRow[row]!.basin] : [])));
  const parts = wide.map((part, b) => (missing.has(b) ? own[b]! : part));
  const firstAvailability = model.rows.length - sources.length;
  const priceOf = sources.map((_, s) => Math.min(0, relaxed.rowDual[firstAvailability + s]!));
  return {
    total: parts.reduce((sum, part) => sum + part, 0),
    perBasin: basins.map((_, b) => parts[b]! + priceOf.reduce((sum, price, s) => sum + price * relaxed.columnValue[model.firstColumn[b]! + s]!, 0)),
  };
}

const dualParts = (model: BlendModel, relaxed: LinearSolution): number[] => dualBoundParts(model, relaxed.rowDual, {
  ofRow: (row) => model.meaningOfRow[row]!.basin, ofColumn: (column) => model.basinOfColumn[column]!, count: model.problem.basins.length + 1,
});

function readBasin(model: BlendModel, basin: BlendBasin, b: number, columnValue: Float64Array, lowerBound: number): BasinBlend {
  const { sources, dischargeCostPerL } = model.problem;
  const at = model.firstColumn[b]!;
  const drawL = sources.map((_, s) => clean(columnValue[at + s]!, model.columns[at + s]!.upper));
  const drainL = clean(columnValue[at + sources.length]!, basin.volumeL);
  return { id: basin.id, drawL, drainL, ...mixBasin(model.problem, basin, drawL, drainL), cost: drawL.reduce((sum, litres, s) => sum + litres * sources[s]!.costPerL, drainL * dischargeCostPerL), lowerBound };
}

/** The solver may leave a hard limit by its tolerance; an answer never does. */
const clean = (litres: number, most: number): number => (litres < 1e-7 ? 0 : Math.min(litres, most));

/** What is in a basin after draining and adding: volumes and amounts add up. */
export function mixBasin(problem: BlendProblem, basin: BlendBasin, drawL: readonly number[], drainL: number): { volumeL: number; mmolPerL: Amounts } {
  const keptL = basin.volumeL - drainL;
  const volumeL = drawL.reduce((sum, litres) => sum + litres, keptL);
  const amounts: Record<string, number> = {};
  const put = (composition: Amounts, litres: number) => { for (const name in composition) amounts[name] = (amounts[name] ?? 0) + composition[name]! * litres; };
  put(basin.mmolPerL, keptL);
  drawL.forEach((litres, s) => { if (litres > 0) put(problem.sources[s]!.mmolPerL, litres); });
  if (!(volumeL > 0)) return { volumeL: 0, mmolPerL: {} };
  for (const name in amounts) amounts[name]! /= volumeL;
  return { volumeL, mmolPerL: amounts };
}

/** Limits that the mixture misses by more than the solver's tolerance. */
export function findViolations(basin: BlendBasin, mixed: { readonly volumeL: number; readonly mmolPerL: Amounts }, tolerance = 10 * MISS): Violation[] {
  const [low, high] = basin.volumeBandL;
  const volume = { name: 'volume', unit: 'L', low, high, reached: mixed.volumeL, scale: Math.max(1, high) };
  // An empty basin has no concentrations to miss.
  const limits = mixed.volumeL > tolerance * volume.scale ? basin.limits : [];
  const reached = [...limits.map((limit) => ({ ...limit, reached: limitValue(limit, mixed.mmolPerL), scale: limitScale(limit) })), volume];
  return reached.flatMap(({ name, unit, low, high, reached: value, scale }): Violation[] => {
    const room = tolerance * scale;
    if (low !== undefined && value < low - room) return [{ basin: basin.id, limit: name, side: 'low', allowed: low, reached: value, unit }];
    if (high !== undefined && value > high + room) return [{ basin: basin.id, limit: name, side: 'high', allowed: high, reached: value, unit }];
    return [];
  });
}

/** A row's dual times the change of the row for one unit of its limit: the volume of the mixture, over the row's scale. */
function readBinding(model: BlendModel, relaxed: LinearSolution, basins: readonly BasinBlend[]): BindingLimit[] {
  return model.meaningOfRow.flatMap((meaning, row): BindingLimit[] => {
    if (meaning.side === 'balance') return [];
    const dual = Math.abs(relaxed.rowDual[row]!);
    if (dual < 1e-9) return [];
    const perUnit = meaning.side === 'available' || meaning.name === 'volume' ? dual / meaning.scale : (dual * basins[meaning.basin]!.volumeL) / meaning.scale;
    if (perUnit < 1e-9) return [];
    return [{ ...(meaning.side === 'available' ? {} : { basin: basins[meaning.basin]!.id }), limit: meaning.name, side: meaning.side, at: meaning.at, unit: meaning.unit, worthPerUnit: perUnit }];
  });
}
