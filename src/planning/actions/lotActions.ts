/** What could be done about lots that are off target, as the plan carries it. Money is in the greenhouse currency. */
import type { ActionId, ActionInterval, ActionOrder } from '../../greenhouse/actionEvents.ts';

export interface ActionPlan {
  readonly sentence: string;
  /** Lots off target with what could be done, the most at stake first. */
  readonly lots: readonly LotActions[];
  /** Off target too, with less at stake: not worked out. */
  readonly notWorkedOut: readonly { readonly lot: string; readonly reason: string }[];
  /** More light for all lots off target of a bay together, where there are several. */
  readonly bayLights: readonly BayLight[];
  /** What to look at next, the most worth knowing first; only looks that are worth more than they cost. */
  readonly looks: readonly LookWorth[];
  readonly why: string;
}

/** One step more light in a bay, for every lot off target there. It is decided on the page of one of them. */
export interface BayLight {
  readonly bay: string;
  readonly title: string;
  readonly lots: readonly string[];
  readonly meanGain: number;
  readonly gain: ActionInterval;
  readonly chanceBetter: number;
  readonly electricityKWh: ActionInterval;
  readonly sentence: string;
}

export interface LotActions {
  readonly lot: string;
  readonly crop: string;
  /** Why it is off target, worst first. */
  readonly reasons: readonly string[];
  /** Best first; `none` is one of them. */
  readonly candidates: readonly ActionCandidate[];
  readonly notPossible: readonly { readonly title: string; readonly reason: string }[];
  readonly looks: readonly LookWorth[];
  readonly sentence: string;
  readonly why: string;
}

export interface ActionCandidate {
  readonly action: ActionId;
  readonly title: string;
  /** What is done, when, for how long. */
  readonly doing: string;
  /** Why no effect on growth is claimed; absent where the growth model or the calendar says one. */
  readonly noEffectClaimed?: string;
  /** What the figures leave out. */
  readonly leftOut: readonly string[];
  readonly readyDate?: { readonly early: string; readonly likely: string; readonly late: string };
  /** Days by which the lot is ready sooner than with nothing done; absent where either is never ready within the forecast. */
  readonly daysSooner?: ActionInterval;
  /** Units above market weight on a day, of this lot. */
  readonly unitsOn: { readonly date: string; readonly unit: string; readonly units: ActionInterval };
  /** Order lines whose chance it changes, or that are at risk. */
  readonly orders: readonly ActionOrderChance[];
  /** Money gained against doing nothing, over the futures: mean, and interval. */
  readonly meanGain: number;
  readonly gain: ActionInterval;
  /** Share of futures in which it is better than doing nothing. */
  readonly chanceBetter: number;
  /** Money it costs (below zero: saves) against doing nothing, by what for. */
  readonly costs: Readonly<Record<ActionCost, ActionInterval>>;
  readonly electricityKWh: ActionInterval;
  readonly kgCo2e: ActionInterval;
  readonly order: ActionOrder;
}

export const ACTION_COSTS = ['shortage', 'electricity', 'fertiliser', 'work', 'waste', 'basins'] as const;
export type ActionCost = (typeof ACTION_COSTS)[number];

export interface ActionOrderChance {
  readonly order: string;
  readonly line: number;
  readonly customer: string;
  readonly due: string;
  readonly units: number;
  readonly unit: string;
  /** Chance that the line is filled in full on its day; low and high for the number of futures looked at. */
  readonly chance: number;
  readonly low: number;
  readonly high: number;
  readonly chanceWithNothingDone: number;
}

/** A look at a lot before deciding. */
export interface LookWorth {
  readonly lot: string;
  readonly look: 'sample' | 'scan';
  readonly title: string;
  /** Expected gain of deciding after it less that of deciding now: never below zero. */
  readonly worth: number;
  readonly cost: number;
  /** Chance that it changes what is decided. */
  readonly chanceItChanges: number;
  readonly sentence: string;
}
