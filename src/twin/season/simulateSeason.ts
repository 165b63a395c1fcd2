import { seedFor, startRandom } from '../../science/seededRandom.ts';
import type { LinearSolver } from '../../planning/solver/linearModel.ts';
import { weekdayOf } from '../../planning/sowing/sowingCalendar.ts';
import { addDays, dayNumber } from '../demo/demoCalendar.ts';
import { DEMO_CROPS } from '../demo/demoCrops.ts';
import { inventOrders } from '../demo/demoOrders.ts';
import { CalendarRule } from './calendarRule.ts';
import { SeasonFloor, type SeasonCount } from './seasonFloor.ts';
import { freshG, sowLot } from './seasonLot.ts';
import { SeasonPlanner, type PlannerSettings } from './seasonPlanner.ts';
import type { SeasonSowing } from './seasonSowing.ts';
import { seasonLight } from './seasonWeather.ts';
import type { SeasonHouse } from './seasonHouse.ts';

export interface SeasonRun {
  readonly seed: number;
  /** The first Monday, with an empty house. Orders count from `warmUpWeeks` later. */
  readonly startDate: string;
  readonly warmUpWeeks: number;
  readonly weeks: number;
  /** Orders relative to what the demo's sowing rhythm yields. */
  readonly level: number;
  /** Share by which they rise above and fall below that, once in half a year. */
  readonly swing: number;
  /** Days ahead that orders are known. */
  readonly knownDays: number;
  readonly policy: { readonly kind: 'plan'; readonly settings: PlannerSettings } | { readonly kind: 'calendar'; readonly margin: number };
}

/** Orders of so many weeks before the start, from which the planner learns what to expect. */
const HISTORY_WEEKS = 8;
/** Lots are weighed weekly; spread of a mean of six plants (invented). */
const WEIGHING_LOG_SD = 0.07;
const LEAST_WEIGHED_DAYS = 21;
/** A year of weather is invented for each seed; dates fall into this year of it. */
const WEATHER_YEAR = 2026;

/** One season, day by day. Pure: the same run gives the same count. */
export function simulateSeason(house: SeasonHouse, run: SeasonRun, solver: LinearSolver): SeasonCount {
  const { cards, nursery, glass, bays } = house;
  const { file } = house.sowingHouse;
  const sowingHouse = { ...house.sowingHouse, file: { ...file, sowing: { ...file.sowing, ordersKnownDays: run.knownDays } } };
  const days = (run.warmUpWeeks + run.weeks) * 7;
  const countFrom = addDays(run.startDate, run.warmUpWeeks * 7);
  const orders = inventOrders(seedFor(run.seed, 'season'), addDays(run.startDate, -7 * HISTORY_WEEKS), days + 7 * HISTORY_WEEKS + 84, levelOf(run));
  const counted = orders.filter(({ due }) => due >= countFrom && due < addDays(run.startDate, days));
  const light = { nursery: seasonLight(seedFor(run.seed, 'weather'), bays.nursery, WEATHER_YEAR), glass: seasonLight(seedFor(run.seed, 'weather'), bays.glass, WEATHER_YEAR) };
  const floor = new SeasonFloor(nursery, glass, sowingHouse.file.sowing.turnaroundDays);
  const planner = run.policy.kind === 'plan' ? new SeasonPlanner(sowingHouse, cards, house.curveOf, solver, run.policy.settings) : undefined;
  const rule = run.policy.kind === 'calendar' ? new CalendarRule(sowingHouse, cards, counted, run.weeks, run.policy.margin) : undefined;
  const random = startRandom(seedFor(run.seed, 'weighings'));
  let thisWeek: readonly SeasonSowing[] = [];
  let number = 0;
  for (let day = 0; day < days; day++) {
    const date = addDays(run.startDate, day);
    if (planner !== undefined && day % 7 === 0) {
      for (const lot of floor.lots) if (lot.stage >= 0 && addDays(lot.sowDate, LEAST_WEIGHED_DAYS) <= date) planner.learn(lot, date, freshG(lot) * Math.exp(WEIGHING_LOG_SD * random.normal()));
      thisWeek = planner.planWeek(date, floor.lots, orders.filter(({ due }) => due < addDays(date, run.knownDays)));
    }
    const sowings = planner !== undefined ? thisWeek.filter(({ sowDate }) => sowDate === date) : sowingHouse.file.sowing.weekdays.includes(weekdayOf(date)) ? rule!.sow(date) : [];
    for (const sowing of sowings) floor.lots.push(sowLot(run.seed, cards.find(({ id }) => id === sowing.crop)!, DEMO_CROPS.find(({ id }) => id === sowing.crop)!, sowing, ++number));
    floor.live(date, orders.filter(({ due }) => due === date), { nursery: light.nursery(date), glass: light.glass(date) }, countFrom);
  }
  return floor.count;
}

const HALF_YEAR_DAYS = 182;

function levelOf({ startDate, warmUpWeeks, level, swing }: SeasonRun): (date: string) => number {
  const from = dayNumber(startDate) + 7 * warmUpWeeks;
  return (date) => level * (1 + swing * Math.sin((2 * Math.PI * (dayNumber(date) - from)) / HALF_YEAR_DAYS));
}
