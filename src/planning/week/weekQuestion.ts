import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { Floor, GreenhouseState } from '../../greenhouse/state.ts';
import type { ShiftDay } from '../day/shiftDay.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import type { BasinView } from '../needs/basinView.ts';
import type { DraftVisit } from '../visits/draftVisit.ts';

/** What the two weeks are looked at from. */
export interface WeekQuestion {
  readonly state: GreenhouseState;
  readonly file: GreenhouseFile;
  readonly floor: Floor;
  readonly day: ShiftDay;
  readonly lots: readonly LotExpectation[];
  readonly basins: readonly BasinView[];
  /** Visits that the plan of the day makes. */
  readonly today: readonly DraftVisit[];
  /** Minutes that vehicles are busy in that plan. */
  readonly todayVehicleMin: number;
}
