import type { LinearColumn, LinearModel, LinearRow } from '../solver/linearModel.ts';
import type { Amounts, BlendBasin, BlendProblem, QualityLimit } from './blendProblem.ts';

/** Where the parts of a blend stand in its linear model, so that answers can be read back. */
export interface BlendModel extends LinearModel {
  readonly problem: BlendProblem;
  /** Draw of source s for basin b: column b x (sources + 1) + s; drain: the last of the block. */
  readonly blockWidth: number;
  /** Basin index a row belongs to; undefined for a source's availability. */
  readonly limitOfRow: readonly RowMeaning[];
  readonly slackOfRow: ReadonlyMap<number, number>;
}

export interface RowMeaning {
  readonly basin: number | undefined;
  readonly name: string;
  readonly side: 'low' | 'high' | 'available';
  readonly at: number;
  readonly unit: string;
  /** The row is the plain inequality divided by this. */
  readonly scale: number;
}

/** `hard`: limits hold. `elastic`: each limit of a basin may be missed at cost 1 a share, everything else is free. */
export type BlendMode = { readonly kind: 'hard' } | { readonly kind: 'elastic' } | { readonly kind: 'missed-by'; readonly shares: ReadonlyMap<number, number> };

/** Missing the volume is worse than missing a concentration by the same share. */
const VOLUME_WEIGHT = 100;

/** Value of a limit's left side in a solution. */
export function limitValue(limit: QualityLimit, mmolPerL: Amounts): number {
  let value = limit.constant;
  for (const name in limit.weights) value += limit.weights[name]! * (mmolPerL[name] ?? 0);
  return value;
}

/**
 * The mass balance of mixing is linear in litres once each limit is multiplied by the volume of the mixture:
 * sum over sources of (value of source - limit) x litres + (value of basin - limit) x (volume - drained) >= 0.
 */
export function buildBlendModel(problem: BlendProblem, mode: BlendMode): BlendModel {
  const blockWidth = problem.sources.length + 1;
  const columns: LinearColumn[] = problem.basins.flatMap((basin) => basinColumns(problem, basin, mode));
  const rows: LinearRow[] = [];
  const limitOfRow: RowMeaning[] = [];
  const slackOfRow = new Map<number, number>();
  const add = (row: LinearRow, meaning: RowMeaning, weight = 1) => {
    if (mode.kind !== 'hard' && meaning.basin !== undefined) {
      const share = mode.kind === 'elastic' ? 10 : mode.shares.get(rows.length) ?? 0;
      if (share > 0) {
        slackOfRow.set(rows.length, columns.length);
        columns.push({ cost: mode.kind === 'elastic' ? weight : 0, lower: 0, upper: share });
        rows.push({ ...row, entries: [...row.entries, [columns.length - 1, meaning.side === 'low' ? 1 : -1]] });
        limitOfRow.push(meaning);
        return;
      }
    }
    rows.push(row);
    limitOfRow.push(meaning);
  };
  problem.basins.forEach((basin, b) => addBasinRows(problem, basin, b, b * blockWidth, add));
  problem.sources.forEach((source, s) => add(
    { lower: -Infinity, upper: source.availableL, entries: problem.basins.map((_, b) => [b * blockWidth + s, 1] as const) },
    { basin: undefined, name: source.id, side: 'available', at: source.availableL, unit: 'L', scale: 1 },
  ));
  return { problem, columns, rows, blockWidth, limitOfRow, slackOfRow };
}

function basinColumns(problem: BlendProblem, basin: BlendBasin, mode: BlendMode): LinearColumn[] {
  const priced = mode.kind !== 'elastic';
  const draws = problem.sources.map((source): LinearColumn => ({
    cost: priced ? source.costPerL : 0,
    lower: 0,
    upper: Math.max(0, Math.min(source.availableL, source.perBasinMaxL ?? Infinity, basin.volumeBandL[1])),
  }));
  return [...draws, { cost: priced ? problem.dischargeCostPerL : 0, lower: 0, upper: basin.volumeL }];
}

type AddRow = (row: LinearRow, meaning: RowMeaning, weight?: number) => void;

function addBasinRows(problem: BlendProblem, basin: BlendBasin, b: number, firstColumn: number, add: AddRow): void {
  const drain = firstColumn + problem.sources.length;
  const [least, most] = basin.volumeBandL;
  const scale = Math.max(most, 1);
  const volume = (sign: number) => [...problem.sources.map((_, s) => [firstColumn + s, sign / scale] as const), [drain, -sign / scale] as const];
  add({ lower: (least - basin.volumeL) / scale, upper: Infinity, entries: volume(1) }, { basin: b, name: 'volume', side: 'low', at: least, unit: 'L', scale }, VOLUME_WEIGHT);
  add({ lower: -Infinity, upper: (most - basin.volumeL) / scale, entries: volume(1) }, { basin: b, name: 'volume', side: 'high', at: most, unit: 'L', scale }, VOLUME_WEIGHT);
  for (const limit of basin.limits) {
    const values = problem.sources.map((source) => limitValue(limit, source.mmolPerL));
    const own = limitValue(limit, basin.mmolPerL);
    const width = limitScale(limit) * scale;
    const entries = (at: number) => [...values.map((value, s) => [firstColumn + s, (value - at) / width] as const), [drain, (at - own) / width] as const];
    const meaning = { basin: b, name: limit.name, unit: limit.unit, scale: width };
    if (limit.low !== undefined) add({ lower: ((limit.low - own) * basin.volumeL) / width, upper: Infinity, entries: entries(limit.low) }, { ...meaning, side: 'low', at: limit.low });
    if (limit.high !== undefined) add({ lower: -Infinity, upper: ((limit.high - own) * basin.volumeL) / width, entries: entries(limit.high) }, { ...meaning, side: 'high', at: limit.high });
  }
}

/** Size of a limit, to which misses are compared; 1 where the limit is zero (below a nanomole a litre). */
export function limitScale(limit: { readonly low?: number; readonly high?: number }): number {
  const size = Math.max(Math.abs(limit.high ?? 0), Math.abs(limit.low ?? 0));
  return size < 1e-6 ? 1 : size;
}
