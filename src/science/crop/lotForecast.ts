/** What goes into the forecast of a lot, and what comes out. Dates are local calendar dates, YYYY-MM-DD. */
import type { DryMatterCurve } from './dryMatter.ts';
import type { HourlyClimate, ParameterOverrides } from './growthModel.ts';
import type { GrowthPrior } from './growthPrior.ts';
import type { LotLesson } from './learnFromLots.ts';
import type { TipBurnLimits } from './tipBurn.ts';

/** What a crop card says about growth. */
export interface CropGrowth {
  readonly crop: string;
  /** Id of the growth model, for example `two-state-lettuce`. */
  readonly modelId: string;
  readonly parameters: ParameterOverrides;
  /** Dry shoot mass of one seedling at planting into a basin, g, and the spread of its logarithm between lots. */
  readonly seedlingDryG: number;
  readonly seedlingLogSd: number;
  /** Fresh mass above which a plant is ready, g. */
  readonly readyFreshG: number;
  /** A lot is ready when this share of its plants is. */
  readonly readyShare: number;
  readonly dryMatter: DryMatterCurve;
  /** Absent for crops that do not burn, or of which nobody knows when. */
  readonly tipBurn?: TipBurnLimits;
  /** Content of the dry shoot, mmol per g dry, by element; used for the nutrient demand. Absent: no demand is given. */
  readonly tissueMmolPerGDry?: Readonly<Record<string, number>>;
}

export interface DensityStep {
  /** From this day on (until the next entry). */
  readonly date: string;
  readonly plantsPerM2: number;
}

/** Plants cut and weighed on a day. freshG[i] and dryG[i] are the same plant; a plant not dried has no dryG entry. */
export interface PlantSample {
  readonly date: string;
  readonly plants: readonly { readonly freshG?: number; readonly dryG?: number }[];
}

/** A look at the lot's mean plant that kills none: a scan, a basin weighed, a harvest of part of the lot. */
export interface MeanObservation {
  readonly date: string;
  readonly quantity: 'freshG' | 'dryG' | 'leafAreaM2';
  /** Mean per plant. */
  readonly mean: number;
  /** Standard error of that mean relative to it, 0.005 to 2: what another look of the same kind would not repeat. */
  readonly relativeSd: number;
  /** Error that all looks of this instrument at the lot share (its calibration), relative, 0 to 2; learnt where samples tell. */
  readonly sharedRelativeSd?: number;
  /** Which looks share that error; `from` where absent. */
  readonly instrument?: string;
  /** Where it comes from, for the reader. */
  readonly from: string;
}

export interface LotForecastInput {
  readonly crop: CropGrowth;
  /** Inside climate from the planting day to the end of the horizon: what was measured, then the outlook. */
  readonly climate: HourlyClimate;
  readonly densities: readonly DensityStep[];
  readonly planting: string;
  readonly samples: readonly PlantSample[];
  readonly observations?: readonly MeanObservation[];
  /** Temperature around the roots, mean of the days when plants are large; absent where nobody measured it. */
  readonly rootC?: number;
  /** The last day whose samples may be used. */
  readonly at: string;
  readonly horizonDays: number;
  /** First day that is reported; `at` where absent. Days before `at` show what was believed on that day, not what is known since. */
  readonly reportFrom?: string;
  readonly seed: number;
  /** Members of the ensemble, 20 to 5000; 100 serve a morning plan, 200 a closer look. */
  readonly members: number;
  /** What is believed of the lot before it is looked at; `growthPriorOf` the crop where absent. */
  readonly prior?: GrowthPrior;
}

export interface Quantiles {
  readonly p05: number;
  readonly p25: number;
  readonly p50: number;
  readonly p75: number;
  readonly p95: number;
}

export interface DayForecast {
  readonly date: string;
  /** Mean shoot of the lot, per plant. */
  readonly dryG: Quantiles;
  readonly freshG: Quantiles;
  /** One plant drawn from the lot. */
  readonly plant: { readonly dryG: Quantiles; readonly freshG: Quantiles };
  /** Expected share of plants above the market fresh mass, 0 to 1. */
  readonly readyShare: number;
  /** Expected share of plants that can be sold: above the market mass and not tip-burnt. */
  readonly saleableShare: number;
  readonly plantsPerM2: number;
  /** Medians, for the transpiration and light models. */
  readonly leafAreaIndex: number;
  readonly groundCover: number;
}

/** Something is wrong with the crop, not merely uncertain. */
export interface GrowthAlarm {
  readonly name: 'growth-below-model' | 'growth-above-model' | 'outside-valid-range';
  readonly sentence: string;
  /** The figures behind the sentence. */
  readonly numbers: Readonly<Record<string, number>>;
}

export interface LotForecast {
  readonly dates: readonly DayForecast[];
  readonly alarms: readonly GrowthAlarm[];
  /** First day on which the wanted share of plants is ready: early, middle and late; absent where it lies beyond the horizon. */
  readonly readyDate: { readonly p05?: string; readonly p50?: string; readonly p95?: string };
  /** Taken up by the mean crop from `at` to the end of the horizon, mmol per m2 of basin by element; absent without tissue contents. */
  readonly nutrientMmolPerM2?: Readonly<Record<string, number>>;
  readonly basis: ForecastBasis;
}

/** What the forecast was computed from: the answer to "why". */
export interface ForecastBasis {
  readonly modelId: string;
  readonly modelSource: string;
  readonly members: number;
  readonly seed: number;
  readonly samplesUsed: readonly string[];
  readonly observationsUsed: readonly string[];
  /** What the lot taught up to `at`: logarithms of its rates relative to the model. `learnFromLots` passes it on to the next lot. */
  readonly learned: LotLesson;
  /** Spread of the logarithm of mass between the plants of the lot. */
  readonly plantLogSd: number;
}
