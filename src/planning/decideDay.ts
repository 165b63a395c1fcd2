import type { StopPin } from '../greenhouse/events.ts';
import type { Reading } from '../greenhouse/journalEvent.ts';
import { decisionsInForce } from '../greenhouse/decisionInForce.ts';
import type { GreenhouseFile } from '../greenhouse/schema/greenhouseFile.ts';
import type { Floor, GreenhouseState } from '../greenhouse/state.ts';
import { accepted, refused, type Outcome, type Refusal } from '../science/refusal.ts';
import type { ActionPlan } from './actions/lotActions.ts';
import { planActions } from './actions/planActions.ts';
import type { BayClimates } from './climate/bayClimates.ts';
import { clockMs, type ShiftDay } from './day/shiftDay.ts';
import type { LotExpectation } from './lots/forecastLots.ts';
import type { OrderOutlook } from './morningPlan.ts';
import type { BasinView } from './needs/basinView.ts';
import { carriedRequests, feedRequests } from './needs/feedRequests.ts';
import { findNeeds, type FoundNeeds } from './needs/findNeeds.ts';
import { cutDecision } from './orders/cutDecision.ts';
import { lotSupply, type LotSupply } from './orders/lotSupply.ts';
import { openLines, outlookOrders } from './orders/outlookOrders.ts';
import type { PlanSettings } from './planSettings.ts';
import { checkScheduleProblem } from './schedule/checkScheduleProblem.ts';
import { readPins } from './edit/readPins.ts';
import { pinSchedule } from './schedule/pinSchedule.ts';
import { planSchedule } from './schedule/planSchedule.ts';
import { replanSchedule } from './schedule/replanSchedule.ts';
import type { Schedule } from './schedule/schedule.ts';
import type { ScheduleProblem } from './schedule/scheduleProblem.ts';
import { validateSchedule } from './schedule/validateSchedule.ts';
import type { LinearSolver } from './solver/linearModel.ts';
import { buildProblem, type BuiltProblem } from './visits/buildProblem.ts';
import { carryVisits, type CarryPlaces } from './visits/carryVisits.ts';
import type { DraftVisit } from './visits/draftVisit.ts';
import { draftVisits, type DrainTo } from './visits/draftVisits.ts';
import { groupVisits, type VisitGroup } from './visits/groupVisits.ts';
import { seedlingsUnderWay } from './visits/seedlingsUnderWay.ts';
import { readShiftSoFar, type ShiftSoFar } from './visits/shiftSoFar.ts';
import { toldSchedule } from './visits/toldSchedule.ts';
import type { Feed } from './water/feed.ts';
import { mixFeeds } from './water/mixFeeds.ts';
import { expectedFeeds } from './water/returned/expectedFeeds.ts';
import { returnBatches } from './water/returned/returnBatches.ts';
import { returnTanks } from './water/returned/returnTanks.ts';
import { routeReturns, type ReturnRouting } from './water/returned/routeReturns.ts';
import { readSourceWaters, type SourceWaters } from './water/sourceWaters.ts';

export interface DayQuestion {
  readonly state: GreenhouseState;
  readonly file: GreenhouseFile;
  readonly floor: Floor;
  readonly day: ShiftDay;
  readonly lots: readonly LotExpectation[];
  readonly basins: readonly BasinView[];
  readonly climates: BayClimates;
  readonly readings: readonly Reading[];
  readonly solver: LinearSolver;
  readonly settings: PlanSettings;
  readonly pins: readonly StopPin[];
  readonly tell: (share: number, what: string) => void;
}

/** Everything that was decided for the day, before it is put into words. */
export interface DayDecision {
  readonly found: FoundNeeds;
  readonly orders: readonly OrderOutlook[];
  /** What could be done about lots off target. */
  readonly actions: ActionPlan;
  readonly sources: SourceWaters;
  readonly feeds: readonly Feed[];
  /** Where the solution goes that leaves basins today. */
  readonly returned: ReturnRouting;
  readonly drafts: readonly DraftVisit[];
  readonly built: BuiltProblem;
  readonly schedule: Schedule;
  /** What has become of a plan that was approved for this shift. */
  readonly soFar: ShiftSoFar | undefined;
}

/**
 * Needs, orders, feeds, visits and their schedule. Where a plan of this shift was approved, its visits go on as approved
 * and keep their order as far as possible; what failed and what is new is planned around them.
 */
export function decideDay(question: DayQuestion): Outcome<DayDecision> {
  const { state, file, day, lots, basins, settings, tell } = question;
  const soFar = readShiftSoFar(state, file, day);
  const decided = decisionsInForce(state);
  const isDiscarded = (lot: string): boolean => decided.get(lot)?.order.do === 'discard';
  const supplies = new Map(lots.filter(({ view }) => !isDiscarded(view.lot)).flatMap((lot): [string, LotSupply][] => { const supply = lotSupply(lot, settings.seed, settings.members, cutDecision(decided.get(lot.view.lot))); return supply === undefined ? [] : [[lot.view.lot, supply]]; }));
  tell(0.6, 'orders');
  const orders = outlookOrders(state, day.date, [...supplies.values()], settings.members, 'orders');
  tell(0.61, 'what could be done about lots off target');
  const actions = planActions({ state, file, date: day.date, climates: question.climates, lots, basins, supplies, orders, seed: settings.seed, futures: settings.members });
  const found = findNeeds({
    state, file, day, lots, basins, supplies, lines: openLines(state, day.date, promisedUnits(soFar)),
    settled: new Set(soFar?.carried.map(({ visit }) => visit.basin)), homeless: soFar?.homeless ?? [], seedlingsUnderWay: seedlingsUnderWay(soFar),
    decided, worthScanning: new Map(actions.looks.filter(({ look }) => look === 'scan').map(({ lot, worth }) => [lot, `knowing more of ${lot} before deciding on it is worth ${worth.toFixed(2)} ${file.prices.currency}`])),
    stranded: new Set(soFar?.failures.map(({ visit }) => visit.basin)),
  });
  const groups = groupVisits(found.needs, file.washAfterHarvest);

  tell(0.65, 'feeds');
  const views = new Map(basins.map((view) => [view.basin.id, view]));
  const sources = readSourceWaters(state, question.readings, day.atMs, clockMs(day.date, '00:00', day.timeZone));
  const maximumLoadKg = Math.min(...file.vehicles.map((vehicle) => vehicle.maximumLoadKg));
  const setting = { state, day, maximumLoadKg, views };
  const mixed = mixFeeds([...carriedRequests(soFar?.carried ?? [], setting), ...feedRequests(groups, setting)], sources.usable, file.prices.dischargePerM3 / 1000, question.solver);
  if (!mixed.ok) return mixed;
  const feeds = mixed.value;

  tell(0.7, 'returned solution');
  const returned = routeDay(question, feeds, groups, soFar, sources, views);

  tell(0.72, 'visits and their times');
  const drainTo = new Map(returned.routes.flatMap(({ basin, to }): [string, string][] => (to === undefined ? [] : [[basin, to]])));
  const drafts = draftDay(question, soFar, withoutNeedlessFillings(groups, feeds), views, new Map(feeds.map((feed) => [feed.request.basin.id, feed])), drainTo);
  const built = buildProblem(drafts, file, question.floor, day, maximumLoadKg);
  const wrong = checkScheduleProblem(built.problem);
  if (wrong.length > 0) return refused(wrong);
  const laid = layDay(question, built, drafts, soFar);
  if (!laid.ok) return laid;
  return accepted({ found, orders, actions, sources, feeds, returned, drafts, built: { ...built, problem: laid.value.problem }, schedule: laid.value.schedule, soFar });
}

/** The schedule without the pins, then the one around them; neither leaves before the validator has gone over it. */
function layDay(question: DayQuestion, built: BuiltProblem, drafts: readonly DraftVisit[], soFar: ShiftSoFar | undefined): Outcome<{ readonly problem: ScheduleProblem; readonly schedule: Schedule }> {
  const schedule = scheduleDay(question, built, drafts, soFar);
  const pins = readPins(question.pins, drafts, built, question.day);
  if (!pins.ok) return pins;
  if (pins.value.length === 0) return accepted(demandValid(built.problem, schedule));
  const around = pinSchedule(built.problem, schedule, pins.value, { seed: question.settings.seed, iterations: question.settings.iterations });
  if (around.failed.length === 0) return accepted(demandValid(around.problem, around.schedule));
  return refused(around.failed.map(({ visit }): Refusal => {
    const left = around.schedule.leftOut.find((is) => is.visit === visit);
    return { code: 'infeasible', severity: 'error', path: `pins.${visit}`, value: visit, message: `No plan was found in which basin ${left?.basin ?? visit} is served there and then. ${left?.reason ?? ''} Choose another time or station.` };
  }));
}

function demandValid(problem: ScheduleProblem, schedule: Schedule): { problem: ScheduleProblem; schedule: Schedule } {
  const broken = validateSchedule(problem, schedule);
  if (broken.length > 0) throw new Error(`a schedule breaks its own rules: ${broken.slice(0, 3).map(({ sentence }) => sentence).join(' ')}`);
  return { problem, schedule };
}

/** Today's batches over tanks and discharge, with the coming days' feeds in view. */
function routeDay({ state, file, day, basins, solver }: DayQuestion, feeds: readonly Feed[], groups: readonly VisitGroup[], soFar: ShiftSoFar | undefined, sources: SourceWaters, views: ReadonlyMap<string, BasinView>): ReturnRouting {
  const batches = returnBatches(feeds, groups, soFar?.carried ?? [], views);
  const servedToday = new Set([...feeds.map(({ request }) => request.basin.id), ...batches.map(({ basin }) => basin)]);
  return routeReturns({
    batches, tanks: returnTanks(sources, feeds),
    others: sources.usable.filter(({ source }) => source.kind === 'fresh' || source.kind === 'stock'),
    feeds: expectedFeeds(basins, servedToday, day.atMs),
    strictest: strictestSalts(state), dischargeCostPerL: file.prices.dischargePerM3 / 1000, discharge: file.discharge, currency: file.prices.currency,
  }, solver);
}

/** What is left of approved visits, then the new ones; a basin that failed begins where it stands. */
function draftDay({ state, file, floor, day }: DayQuestion, soFar: ShiftSoFar | undefined, groups: readonly VisitGroup[], views: ReadonlyMap<string, BasinView>, feeds: ReadonlyMap<string, Feed>, drainTo: DrainTo): DraftVisit[] {
  const nodeOfBerth = new Map(floor.berths.map(({ id, node }) => [id, node]));
  const nodeOfStation = new Map(file.stations.map(({ id, node }) => [id, node]));
  const failures = soFar?.failures ?? [];
  const failedAt = (basin: string) => failures.filter(({ visit }) => visit.basin === basin).map(({ stop }) => stop.station);
  const startNode = (basin: string): string => nodeOfStation.get(failedAt(basin).at(-1) ?? '') ?? nodeOfBerth.get(views.get(basin)!.basin.berth) ?? '';
  const places: CarryPlaces = {
    nodeOfBerth: (id) => nodeOfBerth.get(id) ?? '', nodeOfStation: (id) => nodeOfStation.get(id) ?? '',
    endByMs: (orders) => (orders.some(({ order, line }) => (state.orders[`${order}/${line}`]?.due ?? '9999') <= day.date) ? day.pickMs : undefined),
  };
  return [...(soFar === undefined ? [] : carryVisits(soFar, views, feeds, places)), ...draftVisits(groups, views, feeds, drainTo, startNode, failedAt)];
}

function scheduleDay({ settings, day, tell }: DayQuestion, built: BuiltProblem, drafts: readonly DraftVisit[], soFar: ShiftSoFar | undefined): Schedule {
  const options = {
    seed: settings.seed, iterations: settings.iterations,
    onProgress: ({ tried, iterations }: { tried: number; iterations: number }) => tell(0.72 + 0.22 * (tried / Math.max(1, iterations)), `schedule, ${tried} of ${iterations} changes tried`),
  };
  return soFar === undefined ? planSchedule(built.problem, options) : replanSchedule(built.problem, toldSchedule(drafts, built, day), options);
}

/** Units of each order line that carried harvests are for. */
function promisedUnits(soFar: ShiftSoFar | undefined): Map<string, number> {
  const promised = new Map<string, number>();
  for (const { remaining } of soFar?.carried ?? []) {
    for (const { effect } of remaining) {
      if (effect.kind === 'harvest') for (const { order, line, units } of effect.orders) promised.set(`${order}/${line}`, (promised.get(`${order}/${line}`) ?? 0) + units);
    }
  }
  return promised;
}

function withoutNeedlessFillings(groups: readonly VisitGroup[], feeds: readonly Feed[]): VisitGroup[] {
  const fed = new Set(feeds.map(({ request }) => request.basin.id));
  return groups.map((group) => (fed.has(group.basin) ? group : { ...group, kinds: group.kinds.filter((kind) => kind !== 'filling') })).filter(({ kinds }) => kinds.length > 0);
}

function strictestSalts(state: GreenhouseState): { sodiumMmolPerL: number; chlorideMmolPerL: number } {
  const cards = Object.values(state.crops);
  return { sodiumMmolPerL: Math.min(...cards.map(({ water }) => water.sodiumMaxMmolPerL)), chlorideMmolPerL: Math.min(...cards.map(({ water }) => water.chlorideMaxMmolPerL)) };
}
