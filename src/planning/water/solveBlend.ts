import { accepted, refused, type Outcome } from '../../science/refusal.ts';
import { dualBoundParts } from '../solver/dualBound.ts';
import type { LinearModel, LinearSolution, LinearSolver } from '../solver/linearModel.ts';
import { buildBlendModel, limitScale, limitValue, type BlendModel } from './blendModel.ts';
import type { Amounts, BasinBlend, BindingLimit, BlendAnswer, BlendBasin, BlendProblem, Violation } from './blendProblem.ts';

/** Shares below this are rounding of the solver, not a miss. */
const MISS = 1e-6;

/**
 * The cheapest mix for all basins at once, as a linear programme solved to its proven optimum; mixed-integer where a
 * pump's least dose binds. Where no mix holds every limit, the one with the least sum of relative misses, and the
 * cheapest of those. Every row is checked again here, in litres and mmol.
 */
export function solveBlend(problem: BlendProblem, solver: LinearSolver): Outcome<BlendAnswer> {
  const hard = buildBlendModel(problem, { kind: 'hard' });
  const solved = solver.solve(hard);
  if (solved.status === 'optimal') return finishBlend(hard, solved, solver, 'optimal');
  return solveNearest(problem, solver);
}

function solveNearest(problem: BlendProblem, solver: LinearSolver): Outcome<BlendAnswer> {
  const elastic = buildBlendModel(problem, { kind: 'elastic' });
  const least = solver.solve(elastic);
  if (least.status !== 'optimal') return notSolved(least.status);
  const shares = new Map([...elastic.slackOfRow].map(([row, column]) => [row, missShare(least.columnValue[column]!)] as const));
  const fixed = buildBlendModel(problem, { kind: 'missed-by', shares });
  const cheapest = solver.solve(fixed);
  if (cheapest.status !== 'optimal') return notSolved(cheapest.status);
  return finishBlend(fixed, cheapest, solver, 'infeasible');
}

/** A miss that is allowed again when the cost is minimised, with room for the solver's own tolerance. */
const missShare = (share: number): number => (share > MISS / 10 ? share + MISS / 10 : MISS / 10);

const notSolved = (status: string): Outcome<never> => refused([{
  code: 'not-converged', path: 'blend', value: status, message: `The blend was not solved: the solver says ${status}.`, severity: 'error',
}]);

function finishBlend(model: BlendModel, relaxed: LinearSolution, solver: LinearSolver, status: BlendAnswer['status']): Outcome<BlendAnswer> {
  const solved = keepLeastDoses(model, relaxed, solver);
  if (solved === undefined) return notSolved('no mix with these pumps');
  const bounds = boundsByBasin(model, relaxed);
  const basins = model.problem.basins.map((basin, b) => readBasin(model, basin, b, solved.columnValue, bounds.perBasin[b]!));
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
 * Doses between zero and a pump's least are made semicontinuous, only those that came out so, until none is left.
 * As each round relaxes the full mixed-integer model, the answer is its optimum.
 */
function keepLeastDoses(model: BlendModel, first: LinearSolution, solver: LinearSolver): LinearSolution | undefined {
  const least = (column: number): number => {
    const inBlock = column % model.blockWidth;
    return column < model.problem.basins.length * model.blockWidth ? model.problem.sources[inBlock]?.minimumDoseL ?? 0 : 0;
  };
  const columns = [...model.columns];
  let solved = first;
  for (let round = 0; round < 8; round++) {
    const tooSmall = columns.flatMap((column, j) => (column.domain === undefined && solved.columnValue[j]! > 1e-7 && solved.columnValue[j]! < least(j) - 1e-6 ? [j] : []));
    if (tooSmall.length === 0) return solved;
    for (const j of tooSmall) columns[j] = { ...columns[j]!, lower: Math.min(least(j), columns[j]!.upper), upper: columns[j]!.upper < least(j) ? 0 : columns[j]!.upper, domain: 'semicontinuous' };
    solved = solver.solve(withFlooredColumns({ columns, rows: model.rows }));
    if (solved.status !== 'optimal') return undefined;
  }
  return undefined;
}

/** A source whose hard limit lies below its least dose cannot be used at all. */
function withFlooredColumns(model: LinearModel): LinearModel {
  return { rows: model.rows, columns: model.columns.map((column) => (column.upper < column.lower ? { ...column, lower: 0, upper: 0, domain: 'continuous' as const } : column)) };
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
