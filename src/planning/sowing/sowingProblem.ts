/**
 * The sowing decision as the solver takes it: plain numbers, days counted from the first day of the plan. Every chance has
 * become a number already: yields and orders are means, and what their spread asks for is a buffer of ready plants.
 */
export interface SowingProblem {
  /** Consecutive spans of days that deliveries and capacities are counted in. */
  readonly blocks: readonly SowingBlock[];
  /** Groups of bays of one kind and nearly one light. */
  readonly places: readonly SowingPlace[];
  /** Lots that may be sown. */
  readonly options: readonly SowingOption[];
  /** Lots that stand already. */
  readonly standing: readonly StandingSource[];
  readonly demand: readonly SowingDemand[];
  /** Weekly limits of work and energy; a limit that is absent does not bind. */
  readonly limits: readonly SowingLimit[];
  readonly shortCostPerUnit: Readonly<Record<string, number>>;
  /** What a unit missing in the buffer at the end of a block costs. */
  readonly thinCostPerUnit: Readonly<Record<string, number>>;
  /** Clearing a plant that is not sold, and the same for the plants that make a unit. */
  readonly wasteCostPerPlant: Readonly<Record<string, number>>;
  readonly wasteCostPerUnit: Readonly<Record<string, number>>;
}

export interface SowingBlock { readonly fromDay: number; readonly toDay: number; readonly week: number }

export interface SowingPlace {
  readonly id: string;
  readonly title: string;
  readonly kind: 'nursery' | 'glass';
  readonly bays: readonly string[];
  readonly basins: number;
  readonly basinM2: number;
  /** Basins that may be planned with: all, less a reserve. */
  readonly usableBasins: number;
}

/** What one lot takes and gives for each of its final basins. */
export interface SowingSource {
  readonly id: string;
  readonly crop: string;
  /** Place of the final basins. */
  readonly place: string;
  readonly plantsPerBasin: number;
  /** Stages before the last: basins for each final basin, from one day to (not including) another. */
  readonly stages: readonly SowingStage[];
  readonly finalFromDay: number;
  /** Blocks in which plants may be cut, one after the other. */
  readonly cuts: readonly SowingCut[];
  /** Money for each final basin whatever becomes of it: seed, moves, stages before the last, and the last until the end of its last block. */
  readonly costPerBasin: number;
  /** Money saved for each final basin that is empty in a block (water, light), by block. */
  readonly basinCostByBlock: Readonly<Record<number, number>>;
  /** Limit id -> what each final basin takes of it. */
  readonly takes: Readonly<Record<string, number>>;
}

export interface SowingStage { readonly place: string; readonly basinsPerFinal: number; readonly fromDay: number; readonly toDay: number }

export interface SowingCut {
  readonly block: number;
  /** Units sold for each plant. */
  readonly unitsPerPlant: number;
  /** Share of the plants that may be counted on in the buffer at the end of the block: chance that they are ready and not past their best. */
  readonly usableShare: number;
  /** Money and, by limit, work for each plant cut. */
  readonly costPerPlant: number;
  readonly takesPerPlant: Readonly<Record<string, number>>;
}

export interface SowingOption extends SowingSource { readonly sowDay: number; readonly mostBasins: number }
export interface StandingSource extends SowingSource { readonly basins: number; readonly lot: string }

export interface SowingDemand {
  readonly crop: string;
  readonly block: number;
  /** Units ordered, and units expected of orders that have not come yet. */
  readonly orderedUnits: number;
  readonly expectedUnits: number;
  /** Units that shall stand ready beyond those at the end of the block, against lots that are late or poor and orders that are large. */
  readonly bufferUnits: number;
}

export interface SowingLimit { readonly id: string; readonly title: string; readonly unit: string; readonly week: number; readonly amount: number }
