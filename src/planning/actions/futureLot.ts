import type { DayForecast } from '../../science/crop/lotForecast.ts';
import { shareAbove } from '../../science/crop/massQuantiles.ts';
import { daysBetween } from '../day/shiftDay.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import { growthOfCard } from '../lots/growthOfCard.ts';
import { futureScores, massAt } from '../orders/lotSupply.ts';
import type { Scenario } from './scenario.ts';

/** A lot under one scenario in every future: what it weighs, what could be cut of it, until when it stands. */
export interface FutureLot {
  readonly scenario: Scenario;
  readonly days: readonly DayForecast[];
  /** Grams of the mean plant on a day of the forecast, by its place in `days`. */
  meanG(day: number, future: number): number;
  /** First day, by its place, on which enough plants are ready to call the lot so; -1 where none is. */
  readonly readyDay: Int32Array;
  /** Day on which it is cut whether it is sold or not: of choice, or for its weight; the number of days where none is. */
  readonly cutDay: Int32Array;
  /** Units that could be sold on a date, cut that day or kept since it was cut. */
  unitsOn(date: string, future: number): number;
  /** The same without harvest: above market weight on a date. */
  readyUnitsOn(date: string, future: number): number;
}

/** As `lotSupply` has it, and besides: a lot that passes the weight above which quality falls is cut, and keeps only so long. */
export function futureLot({ view, forecast, input }: LotExpectation, scenario: Scenario, days: readonly DayForecast[], seed: number, futures: number): FutureLot {
  const { harvest, soldBy, plantsPerUnit } = view.card;
  const scores = futureScores(view.lot, seed, futures);
  const plantLogSd = Math.hypot(forecast!.basis.plantLogSd, growthOfCard(view.card).dryMatter.plantLogSd);
  const finishes = (scenario.order.do === 'move-apart' ? scenario.growth!.view : view).densities.at(-1)!.date;
  const mass = Float64Array.from({ length: days.length * futures }, (_, i) => massAt(days[Math.floor(i / futures)]!.freshG, scores[i % futures]!));
  const meanG = (day: number, future: number): number => mass[day * futures + future]!;
  const shareOn = (day: number, future: number): number => shareAbove(meanG(day, future), plantLogSd, harvest.readyFreshG);
  const placeOf = (date: string): number => Math.max(0, Math.min(days.length - 1, daysBetween(input.at, date)));
  const isLast = (day: number): boolean => days[day]!.date >= finishes;
  const firstDay = (future: number, is: (day: number, future: number) => boolean, from = 0): number => {
    for (let day = from; day < days.length; day++) if (is(day, future)) return day;
    return -1;
  };
  const held = scenario.holdUntil === undefined ? 0 : placeOf(scenario.holdUntil);
  const cutDay = Int32Array.from({ length: futures }, (_, m) => {
    if (scenario.cutOn !== undefined) return placeOf(scenario.cutOn);
    const heavy = firstDay(m, (day, future) => isLast(day) && meanG(day, future) > harvest.latestFreshG, held);
    return heavy === -1 ? days.length : heavy;
  });
  const readyUnits = (day: number, future: number): number => {
    if (!isLast(day) || scenario.plants === 0) return 0;
    const share = shareOn(day, future) * (1 - harvest.lossShare);
    return scenario.plants * (soldBy === 'kg' ? (share * meanG(day, future)) / 1000 : share / plantsPerUnit);
  };
  return {
    scenario, days, meanG, cutDay,
    readyDay: Int32Array.from({ length: futures }, (_, m) => firstDay(m, (day, future) => isLast(day) && shareOn(day, future) >= harvest.readyShare)),
    unitsOn(date, future) {
      const day = placeOf(date);
      const cut = cutDay[future]!;
      return day <= cut ? readyUnits(day, future) : day <= cut + Math.floor(harvest.keepsDays) ? readyUnits(cut, future) : 0;
    },
    readyUnitsOn: (date, future) => readyUnits(placeOf(date), future),
  };
}
