import type { LinearModel } from '../solver/linearModel.ts';
import { eachBlockShare } from './eachBlockShare.ts';
import { ModelDraft } from './modelDraft.ts';
import type { SowingOption, SowingProblem, SowingSource } from './sowingProblem.ts';

/** The programme with the meaning of its columns and rows. */
export interface SowingModel {
  readonly model: LinearModel;
  /** Column of the number of final basins of an option, by option index. */
  readonly basinsColumn: readonly number[];
  /** Columns of plants cut: source (options, then standing), cut index, column. */
  readonly cutColumns: readonly CutColumn[];
  /** Columns of units short and of units missing in the buffer, by demand index. */
  readonly shortColumn: readonly number[];
  readonly thinColumn: readonly number[];
  /** Rows of capacity by place and block. */
  readonly capacityRow: ReadonlyMap<string, number>;
  /** Part of every plan's cost: what lots that stand cost from now on if nothing of them is cut, less the clearing of what is sold. */
  readonly fixedCost: number;
}

export interface SowingModelSettings {
  /** Basins in whole numbers; false gives the linear relaxation. */
  readonly whole: boolean;
  /** Options sown before this day count the basins of their earlier stages whole too; later ones in parts, which next week's plan puts right. */
  readonly wholeStagesUntilDay: number;
  /** Basins that are given, by option index. */
  readonly fixed?: readonly number[];
}

interface CutColumn { readonly source: number; readonly cut: number; readonly column: number }

export const capacityKey = (place: string, block: number): string => `${place}/${block}`;
const supplyKey = (crop: string, block: number): string => `supply ${crop}/${block}`;
const bufferKey = (crop: string, block: number): string => `buffer ${crop}/${block}`;

/**
 * Least cost over the horizon:
 *   basins of each option (whole), plants cut of each source in each block, units short and buffer missing of each demand;
 *   cut plants of a source <= its plants; units of the plants cut + short >= demand;
 *   units of the plants that can be cut at the end of a block and are not + buffer missing >= buffer;
 *   basins occupied in a block <= basins, where a final basin is free again once it is cut; work and energy of a week <= limit.
 */
export function buildSowingModel(problem: SowingProblem, settings: SowingModelSettings): SowingModel {
  const draft = new ModelDraft();
  const basinsColumn = problem.options.map((option, i) => addBasins(draft, problem, option, settings, settings.fixed?.[i]));
  const sources: readonly SowingSource[] = [...problem.options, ...problem.standing];
  const cutColumns = sources.flatMap((source, i): CutColumn[] => {
    const column = basinsColumn[i];
    const stands = column === undefined ? problem.standing[i - problem.options.length]!.basins : undefined;
    if (stands !== undefined) takeStanding(draft, problem, source, stands);
    else eachFinalShare(problem, source, (key, share) => draft.gather(key, column!, share));
    return addCuts(draft, source, column, stands ?? problem.options[i]!.mostBasins).map((cut, k) => ({ source: i, cut: k, column: cut }));
  });
  const { shortColumn, thinColumn } = addDemand(draft, problem);
  return { basinsColumn, cutColumns, shortColumn, thinColumn, capacityRow: addLimits(draft, problem), fixedCost: fixedCostOf(problem), model: draft.model() };
}

/** Final basins of an option with what they take before they are planted: basins of earlier stages, work, light. */
function addBasins(draft: ModelDraft, problem: SowingProblem, option: SowingOption, settings: SowingModelSettings, fixed: number | undefined): number {
  const domain = settings.whole ? { domain: 'integer' as const } : {};
  const column = draft.addColumn({ cost: option.costPerBasin + problem.wasteCostPerPlant[option.crop]! * option.plantsPerBasin, lower: fixed ?? 0, upper: fixed ?? option.mostBasins, ...domain });
  for (const stage of option.stages) {
    const whole = settings.whole && option.sowDay < settings.wholeStagesUntilDay && !Number.isInteger(stage.basinsPerFinal);
    const counted = whole ? draft.addColumn({ cost: 0, lower: 0, upper: Math.ceil(option.mostBasins * stage.basinsPerFinal), domain: 'integer' }) : column;
    if (whole) draft.addRow(0, Infinity, [[counted, 1], [column, -stage.basinsPerFinal]]);
    eachBlockShare(problem, stage.fromDay, stage.toDay, (block, share) => draft.gather(capacityKey(stage.place, block), counted, share * (whole ? 1 : stage.basinsPerFinal)));
  }
  for (const [limit, amount] of Object.entries(option.takes)) draft.gather(limit, column, amount);
  return column;
}

/** Days of the last stage up to the end of the last block in which the source may be cut. */
function eachFinalShare(problem: SowingProblem, source: SowingSource, visit: (key: string, share: number) => void): void {
  const lastDay = source.cuts.length === 0 ? source.finalFromDay : problem.blocks[source.cuts.at(-1)!.block]!.toDay + 1;
  eachBlockShare(problem, source.finalFromDay, lastDay, (block, share) => visit(capacityKey(source.place, block), share));
}

function takeStanding(draft: ModelDraft, problem: SowingProblem, source: SowingSource, basins: number): void {
  for (const stage of source.stages) eachBlockShare(problem, stage.fromDay, stage.toDay, (block, share) => draft.take(capacityKey(stage.place, block), share * stage.basinsPerFinal * basins));
  eachFinalShare(problem, source, (key, share) => draft.take(key, share * basins));
  for (const [limit, amount] of Object.entries(source.takes)) draft.take(limit, amount * basins);
}

/**
 * Plants cut of a source, block by block, within its plants. A plant cut frees its part of a basin in the later blocks; one
 * that is not cut counts in the buffer. `basinsColumn` is absent for a lot that stands, whose basins are `most`.
 */
function addCuts(draft: ModelDraft, source: SowingSource, basinsColumn: number | undefined, most: number): number[] {
  const { cuts, crop, place, plantsPerBasin } = source;
  const columns = cuts.map((cut, k) => {
    const later = cuts.slice(k + 1);
    const freed = later.reduce((sum, { block }) => sum + (source.basinCostByBlock[block] ?? 0), 0);
    const column = draft.addColumn({ cost: cut.costPerPlant - freed / plantsPerBasin, lower: 0, upper: most * plantsPerBasin });
    draft.gather(supplyKey(crop, cut.block), column, cut.unitsPerPlant);
    for (const each of later) draft.gather(capacityKey(place, each.block), column, -1 / plantsPerBasin);
    for (const each of cuts.slice(k)) draft.gather(bufferKey(crop, each.block), column, -each.unitsPerPlant * each.usableShare);
    for (const [limit, amount] of Object.entries(cut.takesPerPlant)) draft.gather(limit, column, amount);
    return column;
  });
  for (const { block, unitsPerPlant, usableShare } of cuts) {
    const units = unitsPerPlant * usableShare * plantsPerBasin;
    if (basinsColumn === undefined) draft.take(bufferKey(crop, block), units * most); else draft.gather(bufferKey(crop, block), basinsColumn, units);
  }
  const own = columns.map((column) => [column, 1] as const);
  if (basinsColumn === undefined) draft.addRow(-Infinity, most * plantsPerBasin, own); else draft.addRow(-Infinity, 0, [...own, [basinsColumn, -plantsPerBasin]]);
  return columns;
}

/** Demand and buffer of each crop and block, with what may be missing of either. */
function addDemand(draft: ModelDraft, problem: SowingProblem): Pick<SowingModel, 'shortColumn' | 'thinColumn'> {
  const shortColumn = problem.demand.map(({ crop, block, orderedUnits, expectedUnits }) => {
    const wanted = orderedUnits + expectedUnits;
    const column = draft.addColumn({ cost: problem.shortCostPerUnit[crop]! + problem.wasteCostPerUnit[crop]!, lower: 0, upper: wanted });
    draft.addRow(wanted, Infinity, [...draft.gathered(supplyKey(crop, block)), [column, 1]]);
    return column;
  });
  const thinColumn = problem.demand.map(({ crop, block, bufferUnits }) => {
    const column = draft.addColumn({ cost: problem.thinCostPerUnit[crop]!, lower: 0, upper: bufferUnits });
    const stands = draft.taken(bufferKey(crop, block));
    draft.addRow(bufferUnits - stands, Infinity, [...draft.gathered(bufferKey(crop, block)), [column, 1]]);
    return column;
  });
  return { shortColumn, thinColumn };
}

function addLimits(draft: ModelDraft, problem: SowingProblem): ReadonlyMap<string, number> {
  const rows = new Map<string, number>();
  for (const place of problem.places) {
    for (const block of problem.blocks.keys()) {
      const key = capacityKey(place.id, block);
      const row = draft.addLimit(key, place.usableBasins);
      if (row !== undefined) rows.set(key, row);
    }
  }
  for (const { id, amount } of problem.limits) draft.addLimit(id, amount);
  return rows;
}

function fixedCostOf({ demand, standing, wasteCostPerUnit, wasteCostPerPlant }: SowingProblem): number {
  const sold = demand.reduce((sum, { crop, orderedUnits, expectedUnits }) => sum + wasteCostPerUnit[crop]! * (orderedUnits + expectedUnits), 0);
  return standing.reduce((sum, { basins, costPerBasin, plantsPerBasin, crop }) => sum + basins * (costPerBasin + wasteCostPerPlant[crop]! * plantsPerBasin), 0) - sold;
}
