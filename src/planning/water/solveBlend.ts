import { accepted, refused, type Outcome } from '../../science/refusal.ts';
import { dualBoundParts } from '../solver/dualBound.ts';
import type { LinearColumn, LinearSolution, LinearSolver } from '../solver/linearModel.ts';
import { buildBlendModel, limitScale, limitValue, type BlendMode, type BlendModel } from './blendModel.ts';
import type { Amounts, BasinBlend, BindingLimit, BlendAnswer, BlendBasin, BlendProblem, Violation } from './blendProblem.ts';

/** Shares below this are rounding of the solver, not a miss. */
const MISS = 1e-6;

/**
 * The cheapest mix for all basins at once, as a linear programme solved to its proven optimum; mixed-integer where a
 * pump's least dose binds. Where no mix holds every limit, the one with the least sum of relative misses, and the
 * cheapest of those. The lower bound is for `bounded`: the same problem with its true limits where `problem` has them
 * narrowed (any dual vector gives a bound).
 */
export function solveBlend(problem: BlendProblem, solver: LinearSolver, bounded: BlendProblem = problem): Outcome<BlendAnswer> {
  const hard = buildBlendModel(problem, { kind: 'hard' });
  const solved = solver.solve(hard);
  if (solved.status === 'optimal') return finishBlend(hard, solved, solver, 'optimal', bounded === problem ? hard : buildBlendModel(bounded, { kind: 'hard' }));
  return solveNearest(problem, solver, bounded);
}

function solveNearest(problem: BlendProblem, solver: LinearSolver, bounded: BlendProblem): Outcome<BlendAnswer> {
  const elastic = buildBlendModel(problem, { kind: 'elastic' });
  const least = solver.solve(elastic);
  if (least.status !== 'optimal') return notSolved(least.status);
  const shares = new Map([...elastic.slackOfRow].map(([row, column]) => [row, missShare(least.columnValue[column]!)] as const));
  const fixed = buildBlendModel(problem, { kind: 'missed-by', shares });
  const cheapest = solver.solve(fixed);
  if (cheapest.status !== 'optimal') return notSolved(cheapest.status);
  return finishBlend(fixed, cheapest, solver, 'infeasible', bounded === problem ? fixed : buildBlendModel(bounded, { kind: 'missed-by', shares }));
}

/** A miss that is allowed again when the cost is minimised, with room for the solver's own tolerance. */
const missShare = (share: number): number => (share > MISS / 10 ? share + MISS / 10 : MISS / 10);

const notSolved = (status: string): Outcome<never> => refused([{
  code: 'not-converged', path: 'blend', value: status, message: `The blend was not solved: the solver says ${status}.`, severity: 'error',
}]);

function finishBlend(model: BlendModel, relaxed: LinearSolution, solver: LinearSolver, status: BlendAnswer['status'], bounded: BlendModel): Outcome<BlendAnswer> {
  const columnValue = keepLeastDoses(model, relaxed, solver);
  if (columnValue === undefined) return notSolved('no mix with these pumps');
  const bounds = boundsByBasin(bounded, relaxed);
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
 * Doses between zero and a pump's least: each such basin is mixed again by itself as a mixed-integer programme, with
 * what the others leave of each source. Where no source is scarce that is the optimum; where one is, the lower bound
 * says how far from it at most.
 */
function keepLeastDoses(model: BlendModel, relaxed: LinearSolution, solver: LinearSolver): Float64Array | undefined {
  const { basins, sources } = model.problem;
  const columnValue = Float64Array.from(relaxed.columnValue);
  const isTooSmall = (b: number): boolean => sources.some(({ minimumDoseL = 0 }, s) => {
    const litres = columnValue[b * model.blockWidth + s]!;
    return litres > 1e-7 && litres < minimumDoseL - 1e-7;
  });
  for (let b = 0; b < basins.length; b++) {
    if (!isTooSmall(b)) continue;
    const again = mixAlone(model, b, columnValue, solver);
    if (again === undefined) return undefined;
    columnValue.set(again, b * model.blockWidth);
  }
  return columnValue;
}

/** The draws and the drain of one basin, all others' fixed. */
function mixAlone(model: BlendModel, b: number, columnValue: Float64Array, solver: LinearSolver): Float64Array | undefined {
  const { problem, blockWidth } = model;
  const others = (s: number) => problem.basins.reduce((sum, _, other) => sum + (other === b ? 0 : columnValue[other * blockWidth + s]!), 0);
  const alone: BlendProblem = {
    dischargeCostPerL: problem.dischargeCostPerL,
    basins: [problem.basins[b]!],
    sources: problem.sources.map((source, s) => ({ ...source, availableL: Math.max(0, source.availableL - others(s)) })),
  };
  const solve = (mode: BlendMode) => {
    const built = buildBlendModel(alone, mode);
    return { built, solved: solver.solve({ rows: built.rows, columns: built.columns.map((column, j) => withLeastDose(column, alone.sources[j]?.minimumDoseL ?? 0)) }) };
  };
  const hard = solve({ kind: 'hard' });
  if (hard.solved.status === 'optimal') return hard.solved.columnValue.slice(0, blockWidth);
  const elastic = solve({ kind: 'elastic' });
  if (elastic.solved.status !== 'optimal') return undefined;
  const shares = new Map([...elastic.built.slackOfRow].map(([row, column]) => [row, missShare(elastic.solved.columnValue[column]!)] as const));
  const cheapest = solve({ kind: 'missed-by', shares }).solved;
  return (cheapest.status === 'optimal' ? cheapest : elastic.solved).columnValue.slice(0, blockWidth);
}

/** A source whose hard limit lies below its least dose cannot be used at all. */
function withLeastDose(column: LinearColumn, leastL: number): LinearColumn {
  if (leastL <= 0) return column;
  return column.upper < leastL ? { ...column, upper: 0 } : { ...column, lower: leastL, domain: 'semicontinuous' };
}

function boundsByBasin(model: BlendModel, relaxed: LinearSolution): { total: number; perBasin: number[] } {
  const { basins, sources } = model.problem;
  const blocked = basins.length * model.blockWidth;
  const ofSlack = new Map([...model.slackOfRow].map(([row, column]) => [column, model.limitOfRow[row]!.basin ?? basins.length]));
  const parts = dualBoundParts(model, relaxed.rowDual, {
    ofRow: (row) => model.limitOfRow[row]!.basin ?? basins.length,
    ofColumn: (column) => (column < blocked ? Math.floor(column / model.blockWidth) : ofSlack.get(column)!),
    count: basins.length + 1,
  });
  const firstAvailability = model.rows.length - sources.length;
  const priceOf = sources.map((_, s) => Math.min(0, relaxed.rowDual[firstAvailability + s]!));
  return {
    total: parts.reduce((sum, part) => sum + part, 0),
    perBasin: basins.map((_, b) => parts[b]! + priceOf.reduce((sum, price, s) => sum + price * relaxed.columnValue[b * model.blockWidth + s]!, 0)),
  };
}

function readBasin(model: BlendModel, basin: BlendBasin, b: number, columnValue: Float64Array, lowerBound: number): BasinBlend {
  const { sources, dischargeCostPerL } = model.problem;
  const at = b * model.blockWidth;
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
  return model.limitOfRow.flatMap((meaning, row): BindingLimit[] => {
    const dual = Math.abs(relaxed.rowDual[row]!);
    if (dual < 1e-9) return [];
    const perUnit = meaning.basin === undefined || meaning.name === 'volume' ? dual / meaning.scale : (dual * basins[meaning.basin]!.volumeL) / meaning.scale;
    if (perUnit < 1e-9) return [];
    return [{ ...(meaning.basin === undefined ? {} : { basin: basins[meaning.basin]!.id }), limit: meaning.name, side: meaning.side, at: meaning.at, unit: meaning.unit, worthPerUnit: perUnit }];
  });
}
