import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { OpenLine } from '../orders/outlookOrders.ts';
import type { ExpectedOrders } from './expectedOrders.ts';
import type { GrowingLot } from './growingLot.ts';
import type { SeasonGrowth } from './seasonGrowth.ts';
import type { SowingCalendar } from './sowingCalendar.ts';
import type { SowingHouse } from './sowingHouse.ts';
import type { SowingPlace } from './sowingProblem.ts';

export interface StandingLot extends GrowingLot { readonly basins: number }

/** All that the sowing decision rests on, before it becomes numbers for the solver. */
export interface SowingQuestion {
  readonly house: SowingHouse;
  readonly calendar: SowingCalendar;
  readonly cards: readonly CropCard[];
  /** How a lot of a crop sown on a day grows with its last stages in a glass place; undefined where that cannot be said. */
  readonly growth: (card: CropCard, glass: SowingPlace, sowDate: string) => SeasonGrowth | undefined;
  readonly standing: readonly StandingLot[];
  readonly lines: readonly OpenLine[];
  readonly expected: ExpectedOrders;
}
