import type { LinearColumn, LinearModel, LinearRow } from '../solver/linearModel.ts';
import type { SowingProblem, SowingSource } from './sowingProblem.ts';

/** The programme with the meaning of its columns and rows. */
export interface SowingModel {
  readonly model: LinearModel;
  /** Column of the number of final basins of an option, by option index. */
  readonly basinsColumn: readonly number[];
  /** Columns of plants cut: source (options, then standing), cut index, column. */
  readonly cutColumns: readonly { readonly source: number; readonly cut: number; readonly column: number }[];
  /** Column of units short, by demand index. */
  readonly shortColumn: readonly number[];
  /** Whole basins of earlier stages, where they are counted one by one. */
  readonly stageColumns: readonly { readonly option: number; readonly stage: number; readonly column: number }[];
  /** Rows of capacity by place and block, and of limits. */
  readonly capacityRow: ReadonlyMap<string, number>;
  readonly limitRow: ReadonlyMap<string, number>;
  readonly demandRow: readonly number[];
  /** Part of every plan's cost: what lots that stand cost from now on if nothing of them is cut, less the clearing of what is sold. */
  readonly fixedCost: number;
}

export const capacityKey = (place: string, block: number): string => `${place}/${block}`;

/**
 * Least cost over the horizon:
 *   basins of each option (whole), plants cut of each source in each block, units short of each demand;
 *   cut plants of a source <= its plants; units of the plants cut + short >= demand;
 *   basins occupied in a block <= basins, where a final basin is free again once it is cut; work and energy of a week <= limit.
 * Options sown before `wholeStagesUntilDay` also count the basins of their earlier stages whole; later ones count them in
 * parts, which the plan that is made next week puts right. `whole: false` gives the linear relaxation.
 */
export function buildSowingModel(problem: SowingProblem, settings: { readonly whole: boolean; readonly wholeStagesUntilDay: number; readonly fixed?: ReadonlyMap<number, number> }): SowingModel {
  const columns: LinearColumn[] = [];
  const addColumn = (column: LinearColumn): number => columns.push(column) - 1;
  const capacity = new Map<string, [number, number][]>();
  const limits = new Map<string, [number, number][]>();
  const capacityUsed = new Map<string, number>();
  const limitUsed = new Map<string, number>();
  const onCapacity = (key: string, column: number, amount: number) => { if (amount !== 0) append(capacity, key, column, amount); };
  const domain = settings.whole ? { domain: 'integer' as const } : {};

  const basinsColumn = problem.options.map((option, i) => {
    const fixed = settings.fixed?.get(i);
    return addColumn({ cost: option.costPerBasin + problem.wasteCostPerPlant[option.crop]! * option.plantsPerBasin, lower: fixed ?? 0, upper: fixed ?? option.mostBasins, ...domain });
  });
  const stageColumns: { option: number; stage: number; column: number }[] = [];
  const rows: LinearRow[] = [];
  problem.options.forEach((option, i) => {
    const column = basinsColumn[i]!;
    option.stages.forEach((stage, s) => {
      const whole = settings.whole && option.sowDay < settings.wholeStagesUntilDay && !Number.isInteger(stage.basinsPerFinal);
      const stageColumn = whole ? addColumn({ cost: 0, lower: 0, upper: Math.ceil(option.mostBasins * stage.basinsPerFinal), domain: 'integer' }) : column;
      if (whole) {
        stageColumns.push({ option: i, stage: s, column: stageColumn });
        rows.push({ lower: 0, upper: Infinity, entries: [[stageColumn, 1], [column, -stage.basinsPerFinal]] });
      }
      eachBlockShare(problem, stage.fromDay, stage.toDay, (block, share) => onCapacity(capacityKey(stage.place, block), stageColumn, share * (whole ? 1 : stage.basinsPerFinal)));
    });
    for (const [limit, amount] of Object.entries(option.takes)) append(limits, limit, column, amount);
  });

  const sources: readonly SowingSource[] = [...problem.options, ...problem.standing];
  const cutColumns: { source: number; cut: number; column: number }[] = [];
  const suppliers = new Map<string, [number, number][]>();
  sources.forEach((source, i) => {
    const option = i < problem.options.length ? basinsColumn[i]! : undefined;
    const standing = option === undefined ? problem.standing[i - problem.options.length]! : undefined;
    const lastDay = source.cuts.length === 0 ? source.finalFromDay : problem.blocks[source.cuts.at(-1)!.block]!.toDay + 1;
    const most = (option === undefined ? standing!.basins : problem.options[i]!.mostBasins) * source.plantsPerBasin;
    const own: [number, number][] = [];
    source.cuts.forEach((cut, k) => {
      const freed = source.cuts.slice(k + 1).reduce((sum, later) => sum + (source.basinCostByBlock[later.block] ?? 0), 0);
      const column = addColumn({ cost: cut.costPerPlant - freed / source.plantsPerBasin, lower: 0, upper: most });
      cutColumns.push({ source: i, cut: k, column });
      own.push([column, 1]);
      append(suppliers, `${source.crop}/${cut.block}`, column, cut.unitsPerPlant);
      for (const later of source.cuts.slice(k + 1)) onCapacity(capacityKey(source.place, later.block), column, -1 / source.plantsPerBasin);
      for (const [limit, amount] of Object.entries(cut.takesPerPlant)) append(limits, limit, column, amount);
    });
    if (option === undefined) {
      rows.push({ lower: -Infinity, upper: standing!.basins * source.plantsPerBasin, entries: own });
      for (const stage of source.stages) eachBlockShare(problem, stage.fromDay, stage.toDay, (block, share) => addTo(capacityUsed, capacityKey(stage.place, block), share * stage.basinsPerFinal * standing!.basins));
      eachBlockShare(problem, source.finalFromDay, lastDay, (block, share) => addTo(capacityUsed, capacityKey(source.place, block), share * standing!.basins));
      for (const [limit, amount] of Object.entries(source.takes)) addTo(limitUsed, limit, amount * standing!.basins);
    } else {
      rows.push({ lower: -Infinity, upper: 0, entries: [...own, [option, -source.plantsPerBasin]] });
      eachBlockShare(problem, source.finalFromDay, lastDay, (block, share) => onCapacity(capacityKey(source.place, block), option, share));
    }
  });

  const shortColumn = problem.demand.map(({ crop, orderedUnits, expectedUnits }) => addColumn({ cost: problem.shortCostPerUnit[crop]! + problem.wasteCostPerUnit[crop]!, lower: 0, upper: orderedUnits + expectedUnits }));
  const demandRow = problem.demand.map(({ crop, block, orderedUnits, expectedUnits }, i) =>
    rows.push({ lower: orderedUnits + expectedUnits, upper: Infinity, entries: [...(suppliers.get(`${crop}/${block}`) ?? []), [shortColumn[i]!, 1]] }) - 1);

  const capacityRow = new Map<string, number>();
  for (const place of problem.places) {
    for (const block of problem.blocks.keys()) {
      const key = capacityKey(place.id, block);
      const entries = merge(capacity.get(key) ?? []);
      if (entries.length === 0) continue;
      // What stands already cannot be planned away: where it alone exceeds the limit, nothing may be added.
      const used = capacityUsed.get(key) ?? 0;
      capacityRow.set(key, rows.push({ lower: -Infinity, upper: Math.max(place.usableBasins, used) - used, entries }) - 1);
    }
  }
  const limitRow = new Map<string, number>();
  for (const { id, amount } of problem.limits) {
    const entries = merge(limits.get(id) ?? []);
    const used = limitUsed.get(id) ?? 0;
    if (entries.length > 0) limitRow.set(id, rows.push({ lower: -Infinity, upper: Math.max(amount, used) - used, entries }) - 1);
  }
  const sold = problem.demand.reduce((sum, { crop, orderedUnits, expectedUnits }) => sum + problem.wasteCostPerUnit[crop]! * (orderedUnits + expectedUnits), 0);
  const fixedCost = -sold + problem.standing.reduce((sum, { basins, costPerBasin, plantsPerBasin, crop }) => sum + basins * (costPerBasin + problem.wasteCostPerPlant[crop]! * plantsPerBasin), 0);
  return { fixedCost, model: { columns, rows }, basinsColumn, cutColumns, shortColumn, stageColumns, capacityRow, limitRow, demandRow };
}

/** Share of each block's days that lie in [fromDay, toDay). */
export function eachBlockShare(problem: Pick<SowingProblem, 'blocks'>, fromDay: number, toDay: number, visit: (block: number, share: number) => void): void {
  problem.blocks.forEach((block, i) => {
    const days = Math.min(toDay, block.toDay + 1) - Math.max(fromDay, block.fromDay);
    if (days > 0) visit(i, days / (block.toDay + 1 - block.fromDay));
  });
}

function append(map: Map<string, [number, number][]>, key: string, column: number, amount: number): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [[column, amount]]); else list.push([column, amount]);
}

const addTo = (map: Map<string, number>, key: string, amount: number): void => void map.set(key, (map.get(key) ?? 0) + amount);

/** A column at most once in a row. */
function merge(entries: readonly [number, number][]): [number, number][] {
  const sums = new Map<number, number>();
  for (const [column, amount] of entries) sums.set(column, (sums.get(column) ?? 0) + amount);
  return [...sums].filter(([, amount]) => Math.abs(amount) > 1e-12);
}
