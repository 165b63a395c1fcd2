import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import { daysBetween } from '../day/shiftDay.ts';
import type { LotView } from '../lots/lotViews.ts';
import type { OpenLine } from '../orders/outlookOrders.ts';
import { fillOrders, tabulateUnits, type UnitTable } from './fillOrders.ts';
import type { FutureLot } from './futureLot.ts';
import type { ActionCost } from './lotActions.ts';

/** Orders of the lot's crop and what the other lots could give them. */
export interface Market {
  readonly lines: readonly OpenLine[];
  readonly futures: number;
  /** What each lot of the crop gives, in the order in which they are served; the lot's own place is filled in by scenario. */
  readonly tables: readonly UnitTable[];
  readonly own: number;
}

export interface House {
  readonly file: GreenhouseFile;
  readonly card: CropCard;
  readonly view: LotView;
  readonly date: string;
}

/** Money spent and what was used in each future under one scenario, absolute: differences are what counts. */
export interface Weighed {
  readonly costs: Readonly<Record<ActionCost, Float64Array>>;
  readonly total: Float64Array;
  readonly kWh: Float64Array;
  readonly short: Float64Array;
}

export const priceOf = (card: CropCard, line?: OpenLine): number => line?.line.pricePerUnit ?? card.sowing.pricePerUnit;

/** Serves the orders in every future and adds up what it costs: units short, electricity, fertiliser, work, waste, basins. */
export function weighScenario(lot: FutureLot, market: Market, house: House): Weighed {
  const { scenario } = lot;
  const { lines, futures, own } = market;
  const tables = market.tables.map((table, i) => (i === own ? tabulateUnits(lot.unitsOn, lines, futures) : table));
  const filled = fillOrders(lines, tables, own, futures);
  const { sowing, prices } = house.file;
  const array = (of: (m: number) => number): Float64Array => Float64Array.from({ length: futures }, (_, m) => of(m));
  const goneOn = array((m) => goneDay(lot, market, filled, m, house.date));
  const kWh = array((m) => (scenario.kWhNow ?? 0) + sumUntil(scenario.kWhByDay, goneOn[m]!));
  const costs = {
    shortage: array((m) => lines.reduce((sum, line, l) => sum + filled.short[l * futures + m]! * priceOf(house.card, line) * sowing.shortageFactor, 0)),
    electricity: kWh.map((each) => each * prices.electricityPerKWh),
    fertiliser: new Float64Array(futures).fill(scenario.fertiliserCost ?? 0),
    work: new Float64Array(futures).fill((scenario.workH ?? 0) * sowing.wagePerHour),
    waste: array((m) => wasteKg(lot, filled.taken[m]!, goneOn[m]!, m, house) * sowing.wasteCostPerKg),
    basins: array((m) => ((house.view.basins.length * goneOn[m]! + (scenario.moreBasinDays ?? 0)) * sowing.basinCostPerWeek) / 7),
  };
  return { costs, kWh, short: filled.short, total: array((m) => Object.values(costs).reduce((sum, of) => sum + of[m]!, 0)) };
}

/** Days from today until its basins are empty: when it is sold out, cut, or cleared; the end of the forecast where it still stands then. */
function goneDay(lot: FutureLot, { lines }: Market, { taken, lastLine }: ReturnType<typeof fillOrders>, m: number, date: string): number {
  if (lot.scenario.plants === 0) return 1;
  const cut = Math.min(lot.days.length - 1, lot.cutDay[m]!);
  const last = lastLine[m]!;
  if (last === -1) return cut;
  const leaves = lines[last]!.leaves;
  const isSoldOut = taken[m]! >= SOLD_OUT_SHARE * lot.unitsOn(leaves, m);
  return isSoldOut ? Math.min(cut, daysBetween(date, leaves)) : cut;
}

/** A lot of which so little is left is cleared (common practice, no source). */
const SOLD_OUT_SHARE = 0.95;

const sumUntil = (byDay: readonly number[] | undefined, days: number): number => (byDay ?? []).slice(0, Math.max(0, days)).reduce((sum, each) => sum + each, 0);

/** Plants thrown away now, and those that nobody bought when the lot is cleared; a lot that still stands at the end of its forecast may yet be sold. */
function wasteKg(lot: FutureLot, taken: number, goneOn: number, m: number, { card }: House): number {
  const { scenario, days } = lot;
  const outKg = ((scenario.plantsOut ?? 0) * lot.meanG(0, m)) / 1000;
  if (goneOn >= days.length - 1 || scenario.plants === 0) return outKg;
  const grams = lot.meanG(goneOn, m);
  const sold = card.soldBy === 'kg' ? (taken * 1000) / grams : taken * card.plantsPerUnit;
  return outKg + (Math.max(0, scenario.plants - sold) * grams) / 1000;
}
