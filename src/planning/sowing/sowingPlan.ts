/** The sowing plan: plain JSON, rounded for people where it says so; the same inputs give the same plan bit for bit. */

export interface SowingPlan {
  readonly greenhouse: string;
  readonly name: string;
  /** First day of the plan. */
  readonly date: string;
  readonly weeks: number;
  readonly currency: string;
  readonly serviceLevel: number;
  /** One plain sentence that sums it up. */
  readonly sentence: string;
  readonly sowings: readonly Sowing[];
  readonly capacity: readonly PlaceByWeek[];
  readonly limits: readonly LimitByWeek[];
  readonly crops: readonly CropByWeek[];
  readonly worth: readonly Worth[];
  readonly proof: SowingProof;
  /** What was assumed and what could not be planned, in words. */
  readonly notes: readonly string[];
}

/** One line of the sow list. */
export interface Sowing {
  readonly sowDate: string;
  readonly crop: string;
  readonly cropTitle: string;
  readonly seeds: number;
  readonly trays: number;
  /** Plants that come into the last basins. */
  readonly plants: number;
  /** Basins of each stage in turn. */
  readonly basins: readonly { readonly stage: string; readonly place: string; readonly basins: number; readonly from: string }[];
  readonly harvestFrom: string;
  readonly harvestTo: string;
  readonly unit: string;
  /** Units expected, and units that are there with the chance that the service level asks for. */
  readonly meanUnits: number;
  readonly sureUnits: number;
  /** Units that the plan cuts for known orders, and for orders still expected. */
  readonly orders: readonly { readonly order: string; readonly line: number; readonly customer: string; readonly due: string; readonly units: number }[];
  readonly forExpectedUnits: number;
}

export interface WeekFigure { readonly from: string; readonly to: string }

export interface PlaceByWeek {
  readonly place: string;
  readonly title: string;
  readonly kind: 'nursery' | 'glass';
  readonly basins: number;
  readonly usableBasins: number;
  readonly basinM2: number;
  /** Mean basins of the week taken by lots that stand already and by lots to be sown. */
  readonly weeks: readonly (WeekFigure & { readonly standing: number; readonly sown: number; readonly binds: boolean })[];
}

export interface LimitByWeek {
  readonly title: string;
  readonly unit: string;
  readonly weeks: readonly (WeekFigure & { readonly used: number; readonly limit: number; readonly binds: boolean })[];
}

export interface CropByWeek {
  readonly crop: string;
  readonly title: string;
  readonly unit: string;
  readonly weeks: readonly (WeekFigure & { readonly orderedUnits: number; readonly expectedUnits: number; readonly coveredUnits: number; readonly shortUnits: number })[];
}

/** What one more of something would save over the horizon. */
export interface Worth {
  readonly what: 'basin' | 'nursery-m2' | 'lamp-hour' | 'work-hour';
  readonly title: string;
  /** Money over the whole horizon, rounded to a cent. */
  readonly saves: number;
  readonly sentence: string;
}

export interface SowingProof {
  readonly cost: number;
  /** No plan under these assumptions costs less. */
  readonly bound: number;
  readonly gapPct: number;
  readonly solver: string;
  readonly columns: number;
  readonly rows: number;
  readonly wholeNumbers: number;
}
