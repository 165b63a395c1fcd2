import { addDays } from '../day/shiftDay.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import type { OrderOutlook } from '../morningPlan.ts';
import type { LotSupply } from '../orders/lotSupply.ts';
import { countOf, shown } from '../words/plainWords.ts';

/** A lot that will not give what is asked of it, or more than that. */
export interface OffTarget {
  readonly lot: LotExpectation;
  readonly reasons: readonly string[];
  /** Order lines at risk that wait for it. */
  readonly lines: readonly string[];
  /** Money that is at stake, to put the worst first. */
  readonly stake: number;
}

/** Order lines so many days ahead can still be helped by what is done today (own choice). */
const ORDER_DAYS = 14;
/** A lot that is grown past its best within so many days, with this share of its units unsold, is ahead (own choice). */
const AHEAD_DAYS = 8;
const UNSOLD_SHARE = 0.15;
/** A lot serves a line when it gives so much of it (own choice). */
const SERVING_SHARE = 0.2;
/** Lots that are named for an order line that no lot serves. */
const NEAREST = 2;

export interface OffTargetQuestion {
  readonly date: string;
  readonly lots: readonly LotExpectation[];
  readonly supplies: ReadonlyMap<string, LotSupply>;
  readonly orders: readonly OrderOutlook[];
  readonly prices: (crop: string) => { readonly shortPerUnit: number; readonly wastePerUnit: number };
}

/** Lots behind or ahead of what their orders need, and lots that grow otherwise than their model: the most at stake first. */
export function findOffTarget(question: OffTargetQuestion): OffTarget[] {
  const atRisk = question.orders.filter(({ status, due }) => (status === 'at risk' || status === 'short') && due >= question.date && due <= addDays(question.date, ORDER_DAYS));
  const waiting = linesByLot(question, atRisk);
  return question.lots.flatMap((lot): OffTarget[] => {
    const { view, forecast } = lot;
    const supply = question.supplies.get(view.lot);
    if (forecast === undefined || supply === undefined) return [];
    const lines = waiting.get(view.lot) ?? [];
    const ahead = unsoldBeforeTooHeavy(question, lot, supply);
    const alarms = forecast.alarms.filter(({ name }) => name !== 'outside-valid-range');
    if (lines.length === 0 && ahead === undefined && alarms.length === 0) return [];
    const { shortPerUnit, wastePerUnit } = question.prices(view.card.id);
    return [{
      lot, lines: lines.map(({ order, line }) => `${order}/${line}`),
      stake: lines.reduce((sum, { expectedShortUnits }) => sum + expectedShortUnits * shortPerUnit, 0) + (ahead?.units ?? 0) * wastePerUnit,
      reasons: [...alarms.map(({ sentence }) => sentence), ...(lines.length === 0 ? [] : [behindWords(lot, lines)]), ...(ahead === undefined ? [] : [ahead.words])],
    }];
  }).sort((a, b) => b.stake - a.stake || (a.lot.view.lot < b.lot.view.lot ? -1 : 1));
}

/** Each line at risk belongs to the lots it is served from that are not ready by then; else to the lots nearest to being ready. */
function linesByLot({ lots, supplies }: OffTargetQuestion, atRisk: readonly OrderOutlook[]): Map<string, OrderOutlook[]> {
  const byLot = new Map<string, OrderOutlook[]>();
  for (const line of atRisk) {
    const shareOf = ({ forecast }: LotExpectation): number => forecast?.dates.find(({ date }) => date === line.due)?.readyShare ?? 0;
    const unready = lots.filter((lot) => lot.view.card.id === line.crop && supplies.has(lot.view.lot) && shareOf(lot) < lot.view.card.harvest.readyShare);
    const serving = unready.filter(({ view }) => line.lots.some(({ lot, units }) => lot === view.lot && units >= SERVING_SHARE * line.units));
    const nearest = [...unready].sort((a, b) => shareOf(b) - shareOf(a) || (a.view.lot < b.view.lot ? -1 : 1)).slice(0, NEAREST);
    for (const { view } of serving.length > 0 ? serving : nearest) byLot.set(view.lot, [...(byLot.get(view.lot) ?? []), line]);
  }
  return byLot;
}

function behindWords({ view, forecast }: LotExpectation, lines: readonly OrderOutlook[]): string {
  const first = lines.reduce((least, line) => (line.due < least.due ? line : least));
  const share = forecast?.dates.find(({ date }) => date === first.due)?.readyShare ?? 0;
  const short = lines.reduce((sum, { expectedShortUnits }) => sum + expectedShortUnits, 0);
  return `Behind: ${countOf(lines.length, 'order line')} at risk ${lines.length === 1 ? 'waits' : 'wait'} for it, ${countOf(Math.round(short), view.card.soldBy)} short in all; on ${first.due}, when the first leaves, ${shown(100 * share, 0)} % of its plants are expected above ${shown(view.card.harvest.readyFreshG, 0)} g.`;
}

/** Units that nobody takes before the mean plant passes the weight above which quality falls. */
function unsoldBeforeTooHeavy({ date, orders }: OffTargetQuestion, { view, forecast }: LotExpectation, supply: LotSupply): { units: number; words: string } | undefined {
  const { latestFreshG } = view.card.harvest;
  const tooHeavy = forecast!.dates.find((day) => day.date >= date && day.freshG.p50 > latestFreshG)?.date;
  if (tooHeavy === undefined || tooHeavy > addDays(date, AHEAD_DAYS)) return undefined;
  const units = supply.unitsOn(tooHeavy, -1);
  const sold = orders.filter(({ due }) => due <= addDays(tooHeavy, Math.floor(view.card.harvest.keepsDays))).reduce((sum, { lots }) => sum + (lots.find(({ lot }) => lot === view.lot)?.units ?? 0), 0);
  if (units - sold < UNSOLD_SHARE * units || units < 1) return undefined;
  return { units: units - sold, words: `Ahead: by ${tooHeavy} its mean plant passes ${shown(latestFreshG, 0)} g, above which quality falls, and ${countOf(Math.round(units - sold), view.card.soldBy)} are not ordered by then.` };
}
