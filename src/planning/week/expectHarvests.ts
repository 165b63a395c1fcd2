import type { GreenhouseState } from '../../greenhouse/state.ts';
import { decisionsInForce } from '../../greenhouse/decisionInForce.ts';
import { addDays, daysBetween } from '../day/shiftDay.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import { cutDecision } from '../orders/cutDecision.ts';
import { lotSupply } from '../orders/lotSupply.ts';
import { openLines } from '../orders/outlookOrders.ts';
import type { DraftVisit } from '../visits/draftVisit.ts';
import { WEEK_DAYS } from './expectedVisit.ts';

/** When a basin is cut, and between which days it could be. */
export interface ExpectedHarvest { readonly day: number; readonly earliest: number; readonly latest: number; readonly why: string }

export interface HarvestQuestion {
  readonly state: GreenhouseState;
  readonly date: string;
  readonly lots: readonly LotExpectation[];
  /** Visits of the day's plan: what they cut is gone, and serves its orders. */
  readonly today: readonly DraftVisit[];
}

interface Stand {
  readonly basin: string;
  readonly lot: LotExpectation;
  readonly readyDay: number;
  /** The day after which it is past its best, counted from today, and the date on which it is; none within the forecast: Infinity. */
  readonly lastDay: number;
  readonly pastOn: string;
  readonly unitsOn: (date: string) => number;
  left: number | undefined;
  cut: ExpectedHarvest | undefined;
}

/**
 * Cuts of the next two weeks in the middle future, by basin: for open orders from the oldest lots that are ready by the day
 * on which they leave, whole basins; what nobody ordered is cut before it grows past its best. A cut may come earlier as far
 * as the lot is ready and the crop keeps.
 */
export function expectHarvests({ state, date, lots, today }: HarvestQuestion): Map<string, ExpectedHarvest> {
  const gone = new Set(today.flatMap(({ view, stops }) => (stops.some(({ kind }) => kind === 'harvest') ? [view.basin.id] : [])));
  const stands = finishing(lots, state, date).filter(({ basin }) => !gone.has(basin));
  for (const line of openLines(state, date, servedToday(today))) {
    const leaves = daysBetween(date, line.leaves);
    if (leaves < 1 || leaves >= WEEK_DAYS) continue;
    let open = line.openUnits;
    for (const stand of stands.filter(({ lot }) => lot.view.card.id === line.card.id)) {
      if (open <= 1e-9) break;
      open -= take(stand, open, { leaves, date: line.leaves, today: date, key: `${line.line.order}/${line.line.line}` });
    }
  }
  return new Map(stands.flatMap((stand): [string, ExpectedHarvest][] => { const cut = stand.cut ?? beforeOvergrown(stand); return cut === undefined ? [] : [[stand.basin, cut]]; }));
}

function finishing(lots: readonly LotExpectation[], state: GreenhouseState, date: string): Stand[] {
  const decided = decisionsInForce(state);
  return lots.flatMap((lot): Stand[] => {
    const { view, forecast } = lot;
    const supply = lotSupply(lot, 0, 1);
    if (supply === undefined || view.stageIndex + 1 < view.card.stages.length) return [];
    const ready = forecast!.dates.find((is) => is.date >= date && is.readyShare >= view.card.harvest.readyShare)?.date;
    const held = cutDecision(decided.get(view.lot)).holdUntil ?? '';
    const pastOn = forecast!.dates.find((is) => is.date >= date && is.date >= held && is.freshG.p50 > view.card.harvest.latestFreshG)?.date ?? '';
    const lastDay = pastOn === '' ? Infinity : Math.max(1, daysBetween(date, pastOn) - 1);
    return view.basins.map(({ id, planting }) => ({
      basin: id, lot, lastDay, pastOn, readyDay: ready === undefined ? Infinity : daysBetween(date, ready),
      unitsOn: (on) => planting!.plants * supply.unitsPerPlant(on, -1), left: undefined, cut: undefined,
    }));
  }).sort((a, b) => order(a.lot.view.sown, b.lot.view.sown) || order(a.basin, b.basin));
}

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

interface Leaving { readonly leaves: number; readonly date: string; readonly today: string; readonly key: string }

/**
 * Units that a basin gives to an order: of those cut already what is over and still keeps, else it is cut for it where it is ready,
 * and before it grows past its best where that still keeps.
 */
function take(stand: Stand, open: number, { leaves, date, today, key }: Leaving): number {
  const keeps = Math.floor(stand.lot.view.card.harvest.keepsDays);
  if (stand.cut === undefined) {
    const day = Math.min(leaves, stand.lastDay);
    if (stand.readyDay > day || leaves > day + keeps) return 0;
    stand.left = Math.floor(stand.unitsOn(day === leaves ? date : addDays(today, day)) + 1e-9);
    stand.cut = { day, earliest: Math.max(1, stand.readyDay, leaves - keeps), latest: day, why: `${stand.lot.view.lot} for ${key}, leaves ${date}` };
  } else if (leaves > stand.cut.day + keeps) return 0;
  const units = Math.min(open, stand.left!);
  stand.left = stand.left! - units;
  // What is cut serves a later order too only while it keeps: it cannot be cut earlier than that.
  if (units > 0) stand.cut = { ...stand.cut, earliest: Math.min(stand.cut.day, Math.max(stand.cut.earliest, leaves - keeps)) };
  return units;
}

function beforeOvergrown({ lot: { view }, readyDay, lastDay, pastOn }: Stand): ExpectedHarvest | undefined {
  if (lastDay >= WEEK_DAYS) return undefined;
  return { day: lastDay, earliest: Math.min(lastDay, Math.max(1, readyDay)), latest: lastDay, why: `${view.lot} passes ${view.card.harvest.latestFreshG} g on ${pastOn}; no order waits for it` };
}

function servedToday(today: readonly DraftVisit[]): Map<string, number> {
  const units = new Map<string, number>();
  for (const { effect } of today.flatMap(({ stops }) => stops)) {
    if (effect.kind !== 'harvest') continue;
    for (const each of effect.orders) { const key = `${each.order}/${each.line}`; units.set(key, (units.get(key) ?? 0) + each.units); }
  }
  return units;
}
