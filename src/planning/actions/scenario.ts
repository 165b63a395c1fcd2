import type { ActionId, ActionOrder } from '../../greenhouse/actionEvents.ts';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { BayClimates } from '../climate/bayClimates.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import type { LotView } from '../lots/lotViews.ts';
import type { BasinView } from '../needs/basinView.ts';

/** One thing that could be done with a lot, as the simulation takes it. */
export interface Scenario {
  readonly action: ActionId;
  readonly title: string;
  readonly doing: string;
  readonly order: ActionOrder;
  readonly noEffectClaimed?: string;
  readonly leftOut: readonly string[];
  /** How it grows from tomorrow on; absent: as it does now. */
  readonly growth?: { readonly climates: BayClimates; readonly view: LotView };
  /** Plants that stand until they are cut. */
  readonly plants: number;
  /** Cut on this day whatever it weighs; cut for its weight not before this day. */
  readonly cutOn?: string;
  readonly holdUntil?: string;
  /** Electricity on each day from tomorrow on until the lot is gone, kWh; and once, now. */
  readonly kWhByDay?: readonly number[];
  readonly kWhNow?: number;
  readonly workH?: number;
  readonly fertiliserCost?: number;
  readonly fertiliserKgCo2e?: number;
  /** Plants thrown away now. */
  readonly plantsOut?: number;
  /** Basins that it takes more than now, each day until the planned end of the stage. */
  readonly moreBasinDays?: number;
}

export interface ScenarioQuestion {
  readonly state: GreenhouseState;
  readonly file: GreenhouseFile;
  readonly date: string;
  readonly climates: BayClimates;
  /** Climates with other lamps are the same for every lot of a bay: kept by bay and light. */
  readonly lit: Map<string, BayClimates>;
  readonly lot: LotExpectation;
  /** Its basins with what is known of their water. */
  readonly basins: readonly BasinView[];
  /** Days ahead that its forecast covers. */
  readonly days: number;
}

export interface Scenarios {
  readonly possible: readonly Scenario[];
  readonly notPossible: readonly { readonly title: string; readonly reason: string }[];
}

export const possible = (...scenarios: Scenario[]): Scenarios => ({ possible: scenarios, notPossible: [] });
export const notPossible = (title: string, reason: string): Scenarios => ({ possible: [], notPossible: [{ title, reason }] });

/** The bay in which the lot's present stage stands. */
export const ownBay = (view: LotView): string => view.basins.find(({ planting }) => planting?.stage === view.stage.id)?.bay ?? view.basins[0]!.bay;
