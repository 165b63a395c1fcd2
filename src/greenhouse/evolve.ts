import type { ApprovedPlan, ApprovedVisit, EventBodies, GreenhouseEvent, StopEffect } from './events.ts';
import { basinsOf } from './basinsOf.ts';
import { expandFloor } from './expandFloor.ts';
import type { ScanMeasured } from './scanEvents.ts';
import { scanNote } from './scanNote.ts';
import type { LotRow, SowingRow } from './schema/tableRows.ts';
import { closeAccount, fillBasin, washBasin } from './moveWater.ts';
import type { BasinState, GreenhouseState } from './state.ts';
import { EMPTY_BOOK } from './waterBook.ts';

export const EMPTY_STATE: GreenhouseState = {
  sequence: 0, floorSequence: 0, file: undefined, floor: undefined, crops: {}, products: {}, weather: undefined, orders: {}, delivered: {},
  basins: {}, trays: {}, samples: [], analyses: [], water: EMPTY_BOOK, approved: undefined, outcomes: {}, decisions: [],
};

/** What the journal adds up to after one more event that corrects nothing (corrections need foldEvents). */
export function evolve(state: GreenhouseState, event: GreenhouseEvent): GreenhouseState {
  return inOrder({ ...applyEvent(state, event), ...placeOf(state, event) });
}

/**
 * Folds a whole journal from its first event. A correction takes effect at the place of the event that it corrects, so that
 * what followed stands on the right fact; of a chain of corrections the last one counts. `corrects` always names an earlier event.
 */
export function foldEvents(events: readonly GreenhouseEvent[]): GreenhouseState {
  const latest = new Map<string, GreenhouseEvent>();
  for (let i = events.length - 1; i >= 0; i -= 1) {
    const event = events[i]!;
    if (event.corrects !== undefined && !latest.has(event.corrects)) latest.set(event.corrects, latest.get(event.id) ?? event);
  }
  let state = EMPTY_STATE;
  for (const event of events) {
    state = event.corrects === undefined ? { ...applyEvent(state, latest.get(event.id) ?? event), ...placeOf(state, event) } : { ...state, ...placeOf(state, event) };
  }
  return inOrder(state);
}

/** Scans and scores leave what a plan of the day stands on. */
const placeOf = ({ floorSequence }: GreenhouseState, { kind, sequence }: GreenhouseEvent) =>
  ({ sequence, floorSequence: kind === 'scan-measured' || kind === 'scan-refused' || kind === 'plants-scored' ? floorSequence : sequence });

/** Keys sorted once at the end: sorting at every event made long journals slow. */
const inOrder = (state: GreenhouseState): GreenhouseState =>
  ({ ...state, crops: sorted(state.crops), products: sorted(state.products), orders: sorted(state.orders), trays: sorted(state.trays), delivered: sorted(state.delivered), outcomes: sorted(state.outcomes) });

function applyEvent(state: GreenhouseState, event: GreenhouseEvent): GreenhouseState {
  switch (event.kind) {
    case 'greenhouse-described': return describeGreenhouse(state, event.body);
    case 'crop-described': return { ...state, crops: { ...state.crops, [event.body.card.id]: event.body.card } };
    case 'products-described': return { ...state, products: Object.fromEntries(event.body.file.products.map((product) => [product.id, product])) };
    case 'weather-given': return { ...state, weather: event.body };
    case 'order-placed': return { ...state, orders: { ...state.orders, [orderKey(event.body.line)]: event.body.line } };
    case 'order-withdrawn': return { ...state, orders: without(state.orders, orderKey(event.body)) };
    case 'lot-sown': return sow(state, event.body.row);
    case 'sowing-withdrawn': return { ...state, trays: without(state.trays, event.body.lot) };
    case 'lot-placed': return placeLot({ ...state, trays: without(state.trays, event.body.row.lot) }, event.body.row);
    case 'lot-cleared': return changeBasin(state, event.body.basin, (basin) => (basin.planting?.lot === event.body.lot ? { ...basin, planting: undefined } : basin));
    case 'analysis-recorded': return { ...state, analyses: [...state.analyses, event.body.row] };
    case 'sample-taken': return { ...state, samples: [...state.samples, event.body.row] };
    case 'plan-approved': return { ...state, approved: event.body.plan };
    case 'stop-done': return finishStop(state, event.body, event);
    case 'stop-failed': return noteOutcome(state, event.body, { result: 'failed', at: event.happenedAt, by: event.body.by, reason: event.body.reason, event: event.id });
    case 'stop-corrected': return correctStop(state, event.body, event);
    case 'action-decided': return { ...state, decisions: [...state.decisions, { ...event.body, at: event.happenedAt }] };
    case 'scan-measured': return noteScan(state, event.body, event.sequence);
    case 'scan-refused': case 'plants-scored': return state;
  }
}

/** A lot that stands in a basin has left its trays. */
function sow(state: GreenhouseState, row: SowingRow): GreenhouseState {
  return Object.values(state.basins).some(({ planting }) => planting?.lot === row.lot) ? state : { ...state, trays: { ...state.trays, [row.lot]: row } };
}

function placeLot(state: GreenhouseState, row: LotRow): GreenhouseState {
  const imagedAt = row.imaged === undefined ? undefined : `${row.imaged}T12:00:00.000Z`;
  return changeBasin(state, row.basin, (basin) => ({ ...basin, planting: row, imagedAt: latest(basin.imagedAt, imagedAt) }));
}

const latest = (a: string | undefined, b: string | undefined): string | undefined => (a === undefined || (b !== undefined && b > a) ? b : a);

function noteScan(state: GreenhouseState, body: ScanMeasured, sequence: number): GreenhouseState {
  const note = scanNote(sequence, body);
  return changeBasin(state, body.basin, (basin) => ({
    ...basin, imagedAt: latest(basin.imagedAt, body.takenAt), scans: [...basin.scans.filter(({ scan }) => scan !== note.scan), note].sort((a, b) => (a.takenAt < b.takenAt ? -1 : a.takenAt > b.takenAt ? 1 : 0)),
  }));
}

/** Basins that are described again keep what is known of them; new ones start empty at the berths of their bay, in order. */
function describeGreenhouse(state: GreenhouseState, { file }: EventBodies['greenhouse-described']): GreenhouseState {
  const floor = expandFloor(file.floor);
  const nextBerth = new Map<string, number>();
  const basins: Record<string, BasinState> = {};
  const inBay = (bay: string) => floor.berths.filter((berth) => berth.bay === bay);
  for (const { id, type, bay } of basinsOf(file)) {
    const number = nextBerth.get(bay) ?? 0;
    nextBerth.set(bay, number + 1);
    const known = state.basins[id];
    basins[id] = known === undefined
      ? { id, type, bay, berth: inBay(bay)[number]?.id ?? '', planting: undefined, filled: undefined, imagedAt: undefined, scans: [], washedAt: undefined, needsWash: false }
      : { ...known, type };
  }
  return { ...state, file, floor, basins };
}

/** Stands at the place of the wrong mark, which was never applied. */
function correctStop(state: GreenhouseState, { now, reason, ...stop }: EventBodies['stop-corrected'], event: Pick<GreenhouseEvent, 'id' | 'happenedAt'>): GreenhouseState {
  if (now === 'done') return finishStop(state, stop, event);
  if (now === 'failed') return noteOutcome(state, stop, { result: 'failed', at: event.happenedAt, by: stop.by, reason, event: event.id });
  return { ...state, reopened: { ...state.reopened, [outcomeKey(stop)]: event.id } };
}

function finishStop(state: GreenhouseState, body: EventBodies['stop-done'], { id, happenedAt: at }: Pick<GreenhouseEvent, 'id' | 'happenedAt'>): GreenhouseState {
  const marked = noteOutcome(state, body, { result: 'done', at, by: body.by, event: id });
  const visit = visitOf(state.approved, body.planId, body.visit);
  const stop = visit?.stops.find((each) => each.stop === body.stop);
  if (visit === undefined || stop === undefined) return marked;
  const closed = stop.effect.kind === 'imaging' ? marked : closeAccount(marked, visit);
  const changed = applyEffect(closed, visit.basin, stop.effect, body, at);
  const isLast = visit.stops.every((each) => each.stop <= body.stop);
  return isLast ? moveBasin(changed, visit.basin, visit.toBerth) : changed;
}

function applyEffect(state: GreenhouseState, basin: string, effect: StopEffect, body: EventBodies['stop-done'], at: string): GreenhouseState {
  switch (effect.kind) {
    case 'filling': return fillBasin(state, basin, effect, body.actual?.volumeL, at);
    case 'imaging': return changeBasin(state, basin, (is) => ({ ...is, imagedAt: at }));
    case 'washing': return washBasin(state, basin, effect.drainTo, at);
    case 'transplanting': return transplant(state, effect, body.actual?.plants ?? effect.plants, at);
    case 'harvest': return harvest(state, basin, effect);
  }
}

/**
 * Plants leave one basin and stand in another. The source's own stop (from and to are the same basin) lifts all of its plants
 * out: afterwards it is empty and to be washed. The target's stop sets its part of them.
 */
function transplant(state: GreenhouseState, effect: Extract<StopEffect, { kind: 'transplanting' }>, plants: number, at: string): GreenhouseState {
  if (effect.fromBasin === effect.toBasin) return changeBasin(state, effect.toBasin, (is) => ({ ...is, planting: undefined, needsWash: true }));
  const { lot, crop, sown, stage, toBasin } = effect;
  const left = effect.fromBasin === undefined ? takeFromTrays(state, lot, effect.plants) : state;
  return changeBasin(left, toBasin, (is) => ({ ...is, planting: { lot, crop, basin: toBasin, stage, sown, placed: at.slice(0, 10), plants } }));
}

/** As many as were planned for the basin have left their trays, however many came up. */
function takeFromTrays(state: GreenhouseState, lot: string, plants: number): GreenhouseState {
  const row = state.trays[lot];
  if (row === undefined) return state;
  return { ...state, trays: row.plants > plants ? { ...state.trays, [lot]: { ...row, plants: row.plants - plants } } : without(state.trays, lot) };
}

function harvest(state: GreenhouseState, basin: string, effect: Extract<StopEffect, { kind: 'harvest' }>): GreenhouseState {
  const delivered = { ...state.delivered };
  for (const each of effect.orders) delivered[orderKey(each)] = (delivered[orderKey(each)] ?? 0) + each.units;
  return changeBasin({ ...state, delivered }, basin, (is) => ({ ...is, planting: undefined, needsWash: true }));
}

function moveBasin(state: GreenhouseState, basin: string, berth: string): GreenhouseState {
  const bay = state.floor?.berths.find((each) => each.id === berth)?.bay;
  return changeBasin(state, basin, (is) => ({ ...is, berth, bay: bay ?? is.bay }));
}

function changeBasin(state: GreenhouseState, id: string, change: (basin: BasinState) => BasinState): GreenhouseState {
  const basin = state.basins[id];
  return basin === undefined ? state : { ...state, basins: { ...state.basins, [id]: change(basin) } };
}

function noteOutcome(state: GreenhouseState, body: { planId: string; visit: string; stop: number }, outcome: GreenhouseState['outcomes'][string]): GreenhouseState {
  return { ...state, outcomes: { ...state.outcomes, [outcomeKey(body)]: outcome } };
}

const visitOf = (plan: ApprovedPlan | undefined, planId: string, visit: string): ApprovedVisit | undefined =>
  (plan?.planId === planId ? plan.visits.find((each) => each.visit === visit) : undefined);

export const orderKey = (line: { readonly order: string; readonly line: number }): string => `${line.order}/${line.line}`;
export const outcomeKey = (stop: { readonly planId: string; readonly visit: string; readonly stop: number }): string => `${stop.planId}/${stop.visit}/${stop.stop}`;

const sorted = <T>(record: Readonly<Record<string, T>>): Record<string, T> => Object.fromEntries(Object.entries(record).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
const without = <T>(record: Readonly<Record<string, T>>, key: string): Record<string, T> => Object.fromEntries(Object.entries(record).filter(([name]) => name !== key));
