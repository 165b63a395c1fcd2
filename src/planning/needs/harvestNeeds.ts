import type { BasinState } from '../../greenhouse/state.ts';
import type { DecidedAction } from '../../greenhouse/state.ts';
import type { Decisions } from './decidedNeeds.ts';
import { addDays, type ShiftDay } from '../day/shiftDay.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import type { LotSupply } from '../orders/lotSupply.ts';
import type { OpenLine } from '../orders/outlookOrders.ts';
import { countOf, listOf, shown } from '../words/plainWords.ts';
import type { HarvestChoice, NeedDraft } from './needDraft.ts';

/** A lot that is nearly ready serves an order that leaves today sooner than none does (common practice, no source). */
const NEARLY_READY_SHARE = 0.5;

interface Stand { readonly basin: BasinState; readonly expectation: LotExpectation; readonly supply: LotSupply; left: number; readonly orders: { order: string; line: number; units: number; leaves: string; title: string }[] }

/**
 * Basins to cut today: for orders that leave today and tomorrow, from the oldest lots that are ready, basin by basin;
 * whole basins, what is over serves the next orders within the days that the crop keeps. Lots grown past their best are
 * cut whatever is ordered. Ready basins that nobody waits for yet are named but not asked for.
 */
export function harvestNeeds(expectations: readonly LotExpectation[], supplies: ReadonlyMap<string, LotSupply>, lines: readonly OpenLine[], day: ShiftDay, settled: ReadonlySet<string> = new Set(), decided: Decisions = new Map()): NeedDraft[] {
  const stands = finishingStands(expectations, supplies, day.date).filter(({ basin }) => !settled.has(basin.id));
  for (const line of lines) serve(line, stands, day);
  return stands.flatMap((stand) => toNeed(stand, day, decided.get(stand.expectation.view.lot)) ?? []);
}

function finishingStands(expectations: readonly LotExpectation[], supplies: ReadonlyMap<string, LotSupply>, date: string): Stand[] {
  return expectations.flatMap((expectation): Stand[] => {
    const { view } = expectation;
    const supply = supplies.get(view.lot);
    if (supply === undefined || view.stageIndex + 1 < view.card.stages.length) return [];
    return view.basins.map((basin) => ({ basin, expectation, supply, left: Math.floor(basin.planting!.plants * supply.unitsPerPlant(date, -1) + 1e-9), orders: [] }));
  }).sort((a, b) => (a.expectation.view.sown < b.expectation.view.sown ? -1 : a.expectation.view.sown > b.expectation.view.sown ? 1 : a.basin.id < b.basin.id ? -1 : 1));
}

const today = (expectation: LotExpectation, date: string) => expectation.forecast?.dates.find((is) => is.date === date);

function isReady(stand: Stand, date: string): boolean {
  return (today(stand.expectation, date)?.readyShare ?? 0) >= stand.expectation.view.card.harvest.readyShare;
}

/** Basins already opened first, then ready ones; nearly ready ones only for what leaves today. */
function serve({ line, card, openUnits, leaves }: OpenLine, stands: readonly Stand[], day: ShiftDay): void {
  const lastDay = addDays(day.date, Math.floor(card.harvest.keepsDays));
  if (leaves > lastDay) return;
  const leavesToday = leaves <= day.date;
  const opensNew = leaves <= addDays(day.date, 1);
  const ofCrop = stands.filter((stand) => stand.expectation.view.card.id === card.id && stand.left > 0);
  const opened = ofCrop.filter((stand) => stand.orders.length > 0);
  const ready = ofCrop.filter((stand) => stand.orders.length === 0 && isReady(stand, day.date));
  const nearly = ofCrop.filter((stand) => stand.orders.length === 0 && !isReady(stand, day.date) && (today(stand.expectation, day.date)?.readyShare ?? 0) >= NEARLY_READY_SHARE);
  let open = openUnits;
  for (const stand of [...opened, ...(opensNew ? ready : []), ...(leavesToday ? nearly : [])]) {
    if (open <= 1e-9) return;
    const units = Math.min(open, stand.left);
    stand.left -= units;
    stand.orders.push({ order: line.order, line: line.line, units, leaves, title: card.title });
    open -= units;
  }
}

function toNeed(stand: Stand, day: ShiftDay, decided: DecidedAction | undefined): NeedDraft | undefined {
  const { expectation: { view }, basin } = stand;
  const forecast = today(stand.expectation, day.date);
  if (forecast === undefined) return undefined;
  const meanG = forecast.freshG.p50;
  const isHeld = decided?.order.do === 'hold' && decided.order.until > day.date;
  const overgrown = meanG > view.card.harvest.latestFreshG && !isHeld;
  const cutNow = decided?.order.do === 'cut' && decided.order.on <= day.date;
  const ready = isReady(stand, day.date);
  if (!overgrown && !ready && !cutNow && stand.orders.length === 0) return undefined;
  const leavesToday = stand.orders.some(({ leaves }) => leaves <= day.date);
  const choice: HarvestChoice = { lot: view.lot, plants: basin.planting!.plants, orders: stand.orders.map(({ order, line, units }) => ({ order, line, units })), freshG: meanG };
  return {
    basin: basin.id, kind: 'harvest', why: 'harvest-plan', harvest: choice,
    urgency: overgrown || cutNow || leavesToday ? 'must' : stand.orders.length > 0 ? 'should' : 'may',
    reason: `${harvestReason(stand, meanG, forecast.readyShare, overgrown)}${cutNow ? `; ${decided.by} decided to cut all of it on ${decided.order.do === 'cut' ? decided.order.on : ''}` : ''}`,
    ...(leavesToday ? { dueDate: day.date, endByMs: day.pickMs } : stand.orders.length > 0 ? { dueDate: stand.orders[0]!.leaves } : {}),
  };
}

function harvestReason(stand: Stand, meanG: number, readyShare: number, overgrown: boolean): string {
  const { view } = stand.expectation;
  const state = `${view.lot} weighs ${shown(meanG, 0)} g a plant, ${shown(100 * readyShare, 0)} % ready`;
  const above = overgrown ? `, above ${shown(view.card.harvest.latestFreshG, 0)} g` : '';
  if (stand.orders.length === 0) return `${state}${above}; no order waits for it`;
  const units = stand.orders.reduce((sum, order) => sum + order.units, 0);
  const byDay = [...new Set(stand.orders.map(({ leaves }) => leaves))].sort();
  return `${state}${above}; ${countOf(units, view.card.soldBy)} for ${stand.orders.length} order ${stand.orders.length === 1 ? 'line' : 'lines'} leaving ${listOf(byDay)}`;
}
