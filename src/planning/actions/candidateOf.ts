import type { ActionInterval } from '../../greenhouse/actionEvents.ts';
import { quantilesOf } from '../../science/crop/massQuantiles.ts';
import { countOf } from '../words/plainWords.ts';
import { roundTo } from '../water/feedTicket.ts';
import type { FutureLot } from './futureLot.ts';
import { ACTION_COSTS, type ActionCandidate, type ActionCost, type ActionOrderChance } from './lotActions.ts';
import type { House, Market, Weighed } from './weighScenario.ts';

/** A gain below this, in currency, is none: figures are rounded to a hundredth. */
const NO_GAIN = 0.005;
/** Lines whose chance one candidate moves by so much are named in all, beside those that wait for the lot; so many at most. */
const MOVED_CHANCE = 0.05;
const MOST_LINES = 10;

export interface Grown { readonly lot: FutureLot; readonly weighed: Weighed }

/** The figures of one candidate against doing nothing, future by future. */
export function candidateOf({ lot, weighed }: Grown, nothing: Grown, market: Market, house: House, decidingDate: string, shownLines: readonly number[]): ActionCandidate {
  const { scenario } = lot;
  const { futures } = market;
  const array = (of: (m: number) => number): Float64Array => Float64Array.from({ length: futures }, (_, m) => of(m));
  const gains = array((m) => nothing.weighed.total[m]! - weighed.total[m]!);
  const kWh = array((m) => weighed.kWh[m]! - nothing.weighed.kWh[m]!);
  return {
    action: scenario.action, title: scenario.title, doing: scenario.action === 'discard' ? `${scenario.doing} ${ordersWithout(weighed, nothing.weighed, market)}` : scenario.doing, order: scenario.order, leftOut: scenario.leftOut,
    ...(scenario.noEffectClaimed === undefined ? {} : { noEffectClaimed: scenario.noEffectClaimed }),
    ...readyFigures(lot, nothing.lot, futures),
    unitsOn: { date: decidingDate, unit: house.card.soldBy, units: intervalOf(array((m) => lot.readyUnitsOn(decidingDate, m)), 1) },
    orders: scenario.noEffectClaimed === undefined ? orderChances(weighed, nothing.weighed, market, shownLines) : [],
    meanGain: rounded(gains.reduce((sum, each) => sum + each, 0) / futures, 2), gain: intervalOf(gains, 2),
    chanceBetter: gains.filter((gain) => gain > NO_GAIN).length / futures,
    costs: Object.fromEntries(ACTION_COSTS.map((name) => [name, intervalOf(array((m) => weighed.costs[name][m]! - nothing.weighed.costs[name][m]!), 2)])) as Record<ActionCost, ActionInterval>,
    electricityKWh: intervalOf(kWh, 1),
    kgCo2e: intervalOf(kWh.map((each) => each * house.file.prices.electricityKgCo2ePerKWh + (scenario.fertiliserKgCo2e ?? 0)), 2),
  };
}

function intervalOf(values: Float64Array, decimals: number): ActionInterval {
  const { p05, p50, p95 } = quantilesOf(values);
  return { low: rounded(p05, decimals), middle: rounded(p50, decimals), high: rounded(p95, decimals) };
}

/** Never minus nought. */
const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals)) + 0;

/** Dates where nineteen in twenty futures (for the late one) are ready within the forecast. */
function readyFigures(lot: FutureLot, nothing: FutureLot, futures: number): Pick<ActionCandidate, 'readyDate' | 'daysSooner'> {
  if (lot.scenario.plants === 0) return {};
  const ready = Array.from(lot.readyDay, (day) => (day === -1 ? Infinity : day)).sort((a, b) => a - b);
  const at = (share: number) => ready[Math.min(futures - 1, Math.floor(share * futures))]!;
  const dated = (day: number): string => lot.days[Math.min(lot.days.length - 1, day)]!.date;
  const both = Array.from({ length: futures }, (_, m) => m).filter((m) => lot.readyDay[m] !== -1 && nothing.readyDay[m] !== -1);
  return {
    ...(Number.isFinite(at(0.5)) ? { readyDate: { early: dated(at(0.05)), likely: dated(at(0.5)), late: dated(at(0.95)) } } : {}),
    ...(both.length < futures / 2 ? {} : { daysSooner: intervalOf(Float64Array.from(both, (m) => nothing.readyDay[m]! - lot.readyDay[m]!), 1) }),
  };
}

const filledShare = ({ short }: Weighed, l: number, futures: number): number => short.subarray(l * futures, (l + 1) * futures).filter((units) => units <= 1e-9).length / futures;

/** Places of the lines whose chances are shown: those that wait for the lot, and those that something short of discarding it moves. */
export function linesShown(scored: readonly Grown[], { lines, futures }: Market, waiting: readonly string[]): number[] {
  const kept = scored.filter(({ lot: { scenario } }) => scenario.noEffectClaimed === undefined && scenario.action !== 'discard');
  return lines.flatMap(({ key }, l) => {
    const chances = kept.map(({ weighed }) => filledShare(weighed, l, futures));
    return waiting.includes(key) || Math.max(...chances) - Math.min(...chances) >= MOVED_CHANCE ? [l] : [];
  }).slice(0, MOST_LINES);
}

/** What becomes of the known orders when the lot is gone. */
function ordersWithout(weighed: Weighed, nothing: Weighed, { lines, futures }: Market): string {
  const less = lines.filter((_, l) => filledShare(nothing, l, futures) - filledShare(weighed, l, futures) >= MOVED_CHANCE);
  const [first] = less;
  if (first === undefined) return 'No known order becomes less sure.';
  return `${countOf(less.length, 'order line')} ${less.length === 1 ? 'becomes' : 'become'} less sure, first that of ${first.line.customer} for ${first.leaves}.`;
}

function orderChances(weighed: Weighed, nothing: Weighed, { lines, futures }: Market, shownLines: readonly number[]): ActionOrderChance[] {
  return shownLines.map((l) => {
    const { line, openUnits, card } = lines[l]!;
    const chance = filledShare(weighed, l, futures);
    return {
      order: line.order, line: line.line, customer: line.customer, due: line.due, units: openUnits, unit: card.soldBy,
      chance: roundTo(chance, 3), ...wilson(chance, futures), chanceWithNothingDone: roundTo(filledShare(nothing, l, futures), 3),
    };
  });
}

const Z90 = 1.6449;

/** 90 % interval of a share of n futures (Wilson 1927, J. Am. Stat. Assoc. 22:209-212). */
function wilson(share: number, n: number): { low: number; high: number } {
  const middle = (share + Z90 ** 2 / (2 * n)) / (1 + Z90 ** 2 / n);
  const half = (Z90 / (1 + Z90 ** 2 / n)) * Math.sqrt((share * (1 - share)) / n + Z90 ** 2 / (4 * n * n));
  return { low: roundTo(Math.max(0, middle - half), 3), high: roundTo(Math.min(1, middle + half), 3) };
}
