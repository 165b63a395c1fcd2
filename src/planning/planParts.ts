import type { StopPin } from '../greenhouse/events.ts';
import type { GreenhouseFile } from '../greenhouse/schema/greenhouseFile.ts';
import type { GreenhouseState } from '../greenhouse/state.ts';
import type { BayClimates } from './climate/bayClimates.ts';
import type { ShiftDay } from './day/shiftDay.ts';
import type { DayDecision } from './decideDay.ts';
import type { LotExpectation } from './lots/forecastLots.ts';
import type { BasinView } from './needs/basinView.ts';
import type { PlanSettings } from './planSettings.ts';
import type { LinearSolver } from './solver/linearModel.ts';

/** Everything of a day that the plan is written from. */
export interface PlanParts {
  readonly state: GreenhouseState;
  readonly file: GreenhouseFile;
  readonly day: ShiftDay;
  readonly lots: readonly LotExpectation[];
  readonly basins: readonly BasinView[];
  readonly climates: BayClimates;
  readonly decided: DayDecision;
  readonly solver: LinearSolver;
  readonly settings: PlanSettings;
  readonly pins: readonly StopPin[];
}
