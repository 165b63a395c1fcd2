/** What every growth model offers: a table of parameters, a small state, an hourly step, and what a grower wants to know of it. */

/** One parameter of a model: everything a card, a form, a check and the documentation page need. */
export interface GrowthParameter {
  readonly symbol: string;
  readonly name: string;
  /** UCUM code. */
  readonly unit: string;
  readonly default: number;
  readonly min: number;
  readonly max: number;
  readonly meaning: string;
  readonly source: string;
}
export type ParameterTable = readonly GrowthParameter[];

/** Parameters that differ from the table's defaults, by symbol. */
export type ParameterOverrides = Readonly<Record<string, number>>;

/** Air at the crop during one hour. */
export interface ClimateHour {
  readonly airC: number;
  readonly co2Ppm: number;
  /** Photosynthetic photons above the crop, mean over the hour. */
  readonly ppfdUmolM2S: number;
}

/** Air at the crop, hour by hour; entry i stands for the hour that begins i hours after `startUtcHour`. */
export interface HourlyClimate {
  /** Hours since 1970-01-01T00:00Z. */
  readonly startUtcHour: number;
  /** Local standard time minus UTC, hours. */
  readonly utcOffsetH: number;
  readonly airC: Float64Array;
  readonly co2Ppm: Float64Array;
  readonly ppfdUmolM2S: Float64Array;
}

/** Plants as they are when a state begins. */
export interface InitialPlants {
  /** Dry shoot mass of one plant, g. */
  readonly shootDryGPerPlant: number;
  readonly plantsPerM2: number;
}

/** Where a model may be used: outside it still runs, but a forecast flags it. */
export interface ValidRanges {
  readonly airC: readonly [number, number];
  readonly co2Ppm: readonly [number, number];
  readonly ppfdUmolM2S: readonly [number, number];
  readonly plantsPerM2: readonly [number, number];
  readonly source: string;
}

/** One state variable: what it is, and whether an observation may correct it (masses and areas, by a factor) or not (clocks, memories). */
export interface StateVariable {
  readonly name: string;
  /** UCUM code. */
  readonly unit: string;
  readonly corrected: boolean;
}

/** Many plants' states side by side: `states[s][m]` is state variable s of member m. Rate multipliers are 1 for the model as published. */
export interface MemberColumns {
  readonly members: number;
  readonly states: readonly Float64Array[];
  /** Multiplies the light-driven (assimilating) rate. */
  readonly assimilation: Float64Array;
  /** Multiplies the rate at which assimilates become structure (or, in a descriptive model, the early relative growth rate). */
  readonly expansion: Float64Array;
}

/** A growth model with its parameters settled. States are per square metre of basin; nothing is kept outside the state. */
export interface GrowthModel {
  readonly id: string;
  readonly title: string;
  readonly source: string;
  readonly parameters: ParameterTable;
  /** Settled values in the order of `parameters`. */
  readonly values: Float64Array;
  readonly stateVariables: readonly StateVariable[];
  readonly valid: ValidRanges;
  /** Whether a passing disturbance of growth acts on expansion too: where assimilation has no say while plants are young. */
  readonly disturbsExpansion: boolean;
  createState(initial: InitialPlants): Float64Array;
  /** Moves the state forward in place by stepS seconds (0 to 3600) of this climate. */
  step(state: Float64Array, hour: ClimateHour, stepS: number): void;
  shootDryGPerM2(state: Float64Array): number;
  /** Dry mass of ripe fruit, part of the shoot; only models of fruiting crops have it. */
  ripeFruitDryGPerM2?(state: Float64Array): number;
  /** One-sided leaf area per floor area, m2/m2. */
  leafAreaIndex(state: Float64Array): number;
  /** Share of the light that the canopy catches, 0 to 1. */
  groundCover(state: Float64Array): number;
  /** Rescales per-area states in place when plants are moved to another density; mass per plant stays. */
  respace(state: Float64Array, fromPlantsPerM2: number, toPlantsPerM2: number): void;
  /** As `step` by whole hours [fromHour, toHour) of the arrays, for all members at once, without allocation. */
  advanceMembers(members: MemberColumns, climate: HourlyClimate, fromHour: number, toHour: number): void;
}
