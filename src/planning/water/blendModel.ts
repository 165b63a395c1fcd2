import type { LinearColumn, LinearModel, LinearRow } from '../solver/linearModel.ts';
import type { Amounts, BlendBasin, BlendProblem, QualityLimit } from './blendProblem.ts';

/** Where the parts of a blend stand in its linear model, so that answers can be read back. */
export interface BlendModel extends LinearModel {
  readonly problem: BlendProblem;
  /** First column of each basin: its draws in the order of the sources, what is drained, its volume. */
  readonly firstColumn: readonly number[];
  /** Basin that a column or row belongs to; number of basins for what joins them. */
  readonly basinOfColumn: readonly number[];
  readonly meaningOfRow: readonly RowMeaning[];
  readonly slackOfRow: ReadonlyMap<number, number>;
}

export interface RowMeaning {
  readonly basin: number;
  readonly name: string;
  readonly side: 'low' | 'high' | 'available' | 'balance';
  readonly at: number;
  readonly unit: string;
  /** The row is the plain inequality divided by this. */
  readonly scale: number;
}

/** `hard`: limits hold. `elastic`: each limit of a basin may be missed at its weight a share, everything else is free. */
export type BlendMode = { readonly kind: 'hard' } | { readonly kind: 'elastic' } | { readonly kind: 'missed-by'; readonly shares: ReadonlyMap<number, number> };

/** Missing the volume is worse than missing a concentration by the same share. */
const VOLUME_WEIGHT = 100;
/** Most that a limit may be missed by, in shares of itself: more than any water misses one (500 mmol/L of sodium where none is allowed). */
const MOST_MISSED = 1e5;

/** Value of a limit's left side in a solution. */
export function limitValue(limit: QualityLimit, mmolPerL: Amounts): number {
  let value = limit.constant;
  for (const name in limit.weights) value += limit.weights[name]! * (mmolPerL[name] ?? 0);
  return value;
}

/** Size of a limit, to which misses are compared; 1 where the limit is zero (below a nanomole a litre). */
export function limitScale(limit: { readonly low?: number; readonly high?: number; readonly scale?: number }): number {
  if (limit.scale !== undefined) return limit.scale;
  const size = Math.max(Math.abs(limit.high ?? 0), Math.abs(limit.low ?? 0));
  return size < 1e-6 ? 1 : size;
}

/**
 * Mixing is linear in litres and amounts: volume = kept + added; amount behind a limit = sum of value x litres; and the
 * limit says low x volume <= amount <= high x volume. The volume is a column of its own, which keeps the rows short: a
 * stock that lacks an ion does not appear in that ion's row.
 */
export function buildBlendModel(problem: BlendProblem, mode: BlendMode): BlendModel {
  const draft: Draft = { problem, mode, columns: [], rows: [], firstColumn: [], basinOfColumn: [], meaningOfRow: [], slackOfRow: new Map() };
  problem.basins.forEach((basin, b) => addBasin(draft, basin, b));
  problem.sources.forEach((source, s) => addRow(
    draft, { lower: -Infinity, upper: source.availableL, entries: draft.firstColumn.map((first) => [first + s, 1] as const) },
    { basin: problem.basins.length, name: source.id, side: 'available', at: source.availableL, unit: 'L', scale: 1 },
  ));
  return draft;
}

interface Draft extends BlendModel {
  readonly mode: BlendMode;
  readonly columns: LinearColumn[];
  readonly rows: LinearRow[];
  readonly firstColumn: number[];
  readonly basinOfColumn: number[];
  readonly meaningOfRow: RowMeaning[];
  readonly slackOfRow: Map<number, number>;
}

function addColumn(draft: Draft, basin: number, column: LinearColumn): number {
  draft.basinOfColumn.push(basin);
  return draft.columns.push(column) - 1;
}

function addRow(draft: Draft, row: LinearRow, meaning: RowMeaning, weight = 1): void {
  const share = missableShare(draft, meaning);
  draft.meaningOfRow.push(meaning);
  if (share === 0) { draft.rows.push(row); return; }
  draft.slackOfRow.set(draft.rows.length, draft.columns.length);
  const slack = addColumn(draft, meaning.basin, { cost: draft.mode.kind === 'elastic' ? weight : 0, lower: 0, upper: share });
  draft.rows.push({ ...row, entries: [...row.entries, [slack, meaning.side === 'low' ? 1 : -1]] });
}

function missableShare({ mode, rows }: Draft, { side }: RowMeaning): number {
  if (mode.kind === 'hard' || (side !== 'low' && side !== 'high')) return 0;
  return mode.kind === 'elastic' ? MOST_MISSED : mode.shares.get(rows.length) ?? 0;
}

function addBasin(draft: Draft, basin: BlendBasin, b: number): void {
  const { sources, dischargeCostPerL } = draft.problem;
  const [least, most] = basin.volumeBandL;
  const fullL = Math.max(most, 1);
  // While the misses are minimised, litres are free.
  const price = (costPerL: number): number => (draft.mode.kind === 'elastic' ? 0 : costPerL);
  const first = draft.columns.length;
  draft.firstColumn.push(first);
  for (const source of sources) {
    const upper = basin.without?.has(source.id) === true ? 0 : Math.max(0, Math.min(source.availableL, source.perBasinMaxL ?? Infinity, most));
    addColumn(draft, b, { cost: price(source.costPerL), lower: 0, upper });
  }
  addColumn(draft, b, { cost: price(dischargeCostPerL), lower: 0, upper: basin.volumeL });
  // In shares of the full volume: what is kept, and what is added.
  const volume = addColumn(draft, b, { cost: 0, lower: 0, upper: Math.max(most, basin.volumeL) / fullL });
  const kept = basin.volumeL / fullL;
  addRow(draft, { lower: kept, upper: kept, entries: [[volume, 1], ...sources.map((_, s) => [first + s, -1 / fullL] as const), [first + sources.length, 1 / fullL]] },
    { basin: b, name: 'volume', side: 'balance', at: 0, unit: 'L', scale: fullL });
  addRow(draft, { lower: least / fullL, upper: Infinity, entries: [[volume, 1]] }, { basin: b, name: 'volume', side: 'low', at: least, unit: 'L', scale: fullL }, VOLUME_WEIGHT);
  addRow(draft, { lower: -Infinity, upper: most / fullL, entries: [[volume, 1]] }, { basin: b, name: 'volume', side: 'high', at: most, unit: 'L', scale: fullL }, VOLUME_WEIGHT);
  addDilution(draft, b, { first, volume, fullL });
  for (const limit of basin.limits) addLimit(draft, basin, b, limit, { first, volume, fullL });
}

/** Concentrates together are at most a share of the volume; no mix misses this. */
function addDilution(draft: Draft, b: number, { first, volume, fullL }: { readonly first: number; readonly volume: number; readonly fullL: number }): void {
  const concentrates = draft.problem.sources.flatMap(({ dilutedToShare }, s) => (dilutedToShare === undefined ? [] : [[s, dilutedToShare] as const]));
  if (concentrates.length === 0) return;
  addRow(draft, { lower: -Infinity, upper: 0, entries: [[volume, -concentrates[0]![1]], ...concentrates.map(([s]) => [first + s, 1 / fullL] as const)] },
    { basin: b, name: 'dilution', side: 'balance', at: 0, unit: 'L', scale: fullL });
}

function addLimit(draft: Draft, basin: BlendBasin, b: number, limit: QualityLimit, at: { readonly first: number; readonly volume: number; readonly fullL: number }): void {
  const { sources } = draft.problem;
  const scale = limitScale(limit);
  const width = scale * at.fullL;
  const values = sources.map((source) => limitValue(limit, source.mmolPerL));
  const own = limitValue(limit, basin.mmolPerL);
  const kept = (own * basin.volumeL) / width;
  const amount = [...values.flatMap((value, s) => (value === 0 ? [] : [[at.first + s, value / width] as const])), ...(own === 0 ? [] : [[at.first + sources.length, -own / width] as const])];
  const against = (share: number): (readonly [number, number])[] => (share === 0 ? amount : [...amount, [at.volume, -share]]);
  const meaning = { basin: b, name: limit.name, unit: limit.unit, scale: width };
  const { low, high, lowShift = 0, highShift = 0 } = limit;
  // No mix of waters that have none less than nothing is below nothing.
  const isHeldAnyway = low === 0 && lowShift <= 0 && Math.min(own, ...values) >= 0;
  if (low !== undefined && !isHeldAnyway) addRow(draft, { lower: lowShift / width - kept, upper: Infinity, entries: against(low / scale) }, { ...meaning, side: 'low', at: low }, limit.lowWeight);
  if (high !== undefined) addRow(draft, { lower: -Infinity, upper: highShift / width - kept, entries: against(high / scale) }, { ...meaning, side: 'high', at: high }, limit.highWeight);
}
