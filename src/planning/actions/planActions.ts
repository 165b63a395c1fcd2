import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { BayClimates } from '../climate/bayClimates.ts';
import { daysBetween } from '../day/shiftDay.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import type { OrderOutlook } from '../morningPlan.ts';
import type { BasinView } from '../needs/basinView.ts';
import { futureScores, type LotSupply } from '../orders/lotSupply.ts';
import { groupByCrop, openLines, type OpenLine } from '../orders/outlookOrders.ts';
import { countOf, shown } from '../words/plainWords.ts';
import { bayLights, type LitLot } from './bayLight.ts';
import { candidateOf, linesShown, type Grown } from './candidateOf.ts';
import { tabulateUnits, type UnitTable } from './fillOrders.ts';
import { futureLot } from './futureLot.ts';
import { growScenarios } from './growScenarios.ts';
import { looksAtLot } from './looksAtLot.ts';
import type { ActionCandidate, ActionPlan, LotActions } from './lotActions.ts';
import { findOffTarget, type OffTarget } from './offTarget.ts';
import { ownBay } from './scenario.ts';
import { scenariosOf } from './scenarios.ts';
import { priceOf, weighScenario, type House, type Market } from './weighScenario.ts';

export interface ActionQuestion {
  readonly state: GreenhouseState;
  readonly file: GreenhouseFile;
  readonly date: string;
  readonly climates: BayClimates;
  readonly lots: readonly LotExpectation[];
  readonly basins: readonly BasinView[];
  readonly supplies: ReadonlyMap<string, LotSupply>;
  readonly orders: readonly OrderOutlook[];
  readonly seed: number;
  /** Futures of the orders. */
  readonly futures: number;
}

/** Lots that are worked out in one plan, the most at stake first: a second of computing (own choice). */
const MOST_LOTS = 8;

/**
 * What could be done about every lot off target: each candidate grown to harvest by the lot's own ensemble, its orders served
 * in every future beside all other lots, what that costs, best first by the expected gain against doing nothing; and what to
 * look at next. People decide. Pure: the same inputs give the same answer bit for bit.
 */
export function planActions(question: ActionQuestion): ActionPlan {
  const off = findOffTarget({ ...question, prices: (crop) => pricesOf(question, crop) });
  const lit = new Map<string, BayClimates>();
  const markets = new Map<string, CropMarket>();
  const litLots: LitLot[] = [];
  const lots = off.slice(0, MOST_LOTS).flatMap((each) => workOut(each, question, { lit, markets, litLots }) ?? []);
  const looks = lots.flatMap((lot) => lot.looks).filter(({ worth, cost }) => worth > cost).sort((a, b) => (b.worth - b.cost) - (a.worth - a.cost) || (a.lot < b.lot ? -1 : 1));
  const notWorkedOut = off.slice(MOST_LOTS).map(({ lot, reasons }) => ({ lot: lot.view.lot, reason: reasons[0]! }));
  return { lots, notWorkedOut, bayLights: bayLights(litLots, question.file, question.futures), looks, sentence: planWords(lots, notWorkedOut.length, question.file.prices.currency), why: 'actions' };
}

function pricesOf({ state, file }: ActionQuestion, crop: string): { shortPerUnit: number; wastePerUnit: number } {
  const card = state.crops[crop]!;
  const kgPerUnit = card.soldBy === 'kg' ? 1 : (card.harvest.readyFreshG * card.plantsPerUnit) / 1000;
  return { shortPerUnit: priceOf(card) * file.sowing.shortageFactor, wastePerUnit: kgPerUnit * file.sowing.wasteCostPerKg };
}

interface CropMarket { readonly lines: readonly OpenLine[]; readonly lots: readonly string[]; readonly tables: readonly UnitTable[] }

/** Lines and lots of a crop; what every lot could give to every line is worked out once. */
function marketOf({ state, date, supplies, futures }: ActionQuestion, crop: string, known: Map<string, CropMarket>): CropMarket {
  const kept = known.get(crop);
  if (kept !== undefined) return kept;
  const lines = openLines(state, date).filter(({ card }) => card.id === crop);
  const lots = groupByCrop([...supplies.values()]).get(crop) ?? [];
  const made = { lines, lots: lots.map(({ lot }) => lot), tables: lots.map((supply) => tabulateUnits((on, m) => supply.unitsOn(on, m), lines, futures)) };
  known.set(crop, made);
  return made;
}

/** What lots share: climates by bay and light, orders by crop; and what is asked of all of them together. */
interface KeptParts { readonly lit: Map<string, BayClimates>; readonly markets: Map<string, CropMarket>; readonly litLots: LitLot[] }

function workOut({ lot, reasons, lines: waiting }: OffTarget, question: ActionQuestion, { lit, markets, litLots }: KeptParts): LotActions | undefined {
  const { date, file, state, climates, seed, futures } = question;
  const { view, forecast } = lot;
  const days = forecast!.dates.filter((day) => day.date >= date).length;
  const { possible, notPossible } = scenariosOf({ state, file, date, climates, lit, lot, days, basins: question.basins.filter(({ basin }) => view.basins.some(({ id }) => id === basin.id)) });
  const grown = growScenarios(lot, possible);
  if (grown === undefined) return undefined;
  const { lines: all, lots, tables } = marketOf(question, view.card.id, markets);
  const last = forecast!.dates.at(-1)!.date;
  const within = all.filter(({ leaves }) => leaves <= last);
  const market: Market = { lines: within, futures, tables: tables.map((table) => table.subarray(0, within.length * futures)), own: lots.indexOf(view.lot) };
  const house: House = { file, card: view.card, view, date };
  const scored = possible.map((scenario, i): Grown => {
    const future = futureLot(lot, scenario, grown.days[i]!, seed, futures);
    return { lot: future, weighed: weighScenario(future, market, house) };
  });
  const nothing = scored[0]!;
  const light = scored.find((each) => each.lot.scenario.action === 'more-light');
  if (light !== undefined) litLots.push({ bay: ownBay(view), title: climates.byBay[ownBay(view)]!.bay.title, nothing, light, market, house });
  const decidingDate = within.find(({ line }) => waiting.includes(`${line.order}/${line.line}`))?.leaves ?? later(date, forecast!.readyDate.p50 ?? last);
  const shownLines = linesShown(scored, market, waiting);
  const candidates = scored.map((each) => candidateOf(each, nothing, market, house, decidingDate, shownLines)).sort(bestFirst);
  const claimed = scored.filter(({ lot: { scenario } }) => scenario.noEffectClaimed === undefined);
  const looks = looksAtLot({
    lot, file, scores: futureScores(view.lot, seed, futures), ensemble: { correlation: grown.correlationAfter(daysBetween(date, decidingDate)), todayLogSd: grown.todayLogSd },
    gains: claimed.map(({ weighed }) => weighed.total.map((total, m) => nothing.weighed.total[m]! - total)),
  });
  return { lot: view.lot, crop: view.card.id, reasons, candidates, notPossible, looks, sentence: lotWords(view.lot, candidates, file.prices.currency), why: 'actions' };
}

const later = (a: string, b: string): string => (a > b ? a : b);

/** By expected gain; of equals the one that does less. */
const bestFirst = (a: ActionCandidate, b: ActionCandidate): number => b.meanGain - a.meanGain || Number(b.action === 'none') - Number(a.action === 'none') || (a.action < b.action ? -1 : 1);

function lotWords(lot: string, candidates: readonly ActionCandidate[], currency: string): string {
  const best = candidates[0]!;
  if (best.action === 'none') return `${lot}: nothing that was worked out is expected to be better than doing nothing.`;
  return `${lot}: ${best.title[0]!.toLowerCase()}${best.title.slice(1)} is expected to gain ${shown(best.meanGain, 2)} ${currency} and is better than doing nothing in ${shown(100 * best.chanceBetter, 0)} % of futures.`;
}

function planWords(lots: readonly LotActions[], more: number, currency: string): string {
  if (lots.length === 0) return 'No lot is off target.';
  const helped = lots.filter(({ candidates }) => candidates[0]!.action !== 'none');
  const gain = helped.reduce((sum, { candidates }) => sum + candidates[0]!.meanGain, 0);
  return `${countOf(lots.length + more, 'lot')} off target; for ${helped.length} of the ${lots.length} worked out something is expected to be better than doing nothing, ${shown(gain, 0)} ${currency} in all where each is taken alone.`;
}
