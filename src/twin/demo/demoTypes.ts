/** What the invented history of the demonstration greenhouse is made of. */

/** Plants of one lot in one basin as they truly are; the tables that the demo writes are noisy looks at this. */
export interface Stand {
  readonly lot: string;
  readonly crop: DemoCrop;
  readonly basin: string;
  readonly bay: string;
  readonly stage: string;
  /** Days since the first day of the history (negative before it). */
  readonly sownDay: number;
  /** Day on which the seedlings came into their first basin. */
  readonly startDay: number;
  readonly placedDay: number;
  readonly plants: number;
  /** The lot's own vigour: growth relative to the crop's mean. */
  readonly vigour: number;
}

export interface DemoStage {
  readonly id: string;
  readonly bay: 'nursery' | 'glass';
  readonly days: number;
  /** Basins that one lot fills in this stage, with the plants in each. */
  readonly plantsInBasins: readonly number[];
}

export interface DemoCrop {
  readonly id: string;
  /** Prefix of lot codes. */
  readonly code: string;
  readonly stages: readonly DemoStage[];
  /** Lots are sown every second day, on days with this remainder. */
  readonly evenDay: 0 | 1;
  /** Dry mass of a seedling that comes into its first basin. */
  readonly seedlingDryG: number;
  /** Dry mass per mole of light caught, g/mol, in this invented greenhouse. */
  readonly dryGPerMol: number;
  readonly leafM2PerG: number;
  readonly unitGrams: number;
  readonly plantsPerUnit: number;
  readonly lossShare: number;
}

/** Outdoor and inside climate of the invented year, hour by hour from the first of January. */
export interface DemoYear {
  readonly year: number;
  readonly airC: readonly number[];
  readonly rhPct: readonly number[];
  readonly globalWM2: readonly number[];
  readonly windMS: readonly number[];
}
