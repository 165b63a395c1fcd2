import { basinAreaM2, basinLeastL } from '../greenhouse/basinGeometry.ts';
import type { Reading } from '../greenhouse/journalEvent.ts';
import type { GreenhouseFile } from '../greenhouse/schema/greenhouseFile.ts';
import type { Floor, GreenhouseState } from '../greenhouse/state.ts';
import { scaleComposition } from '../science/chemistry/composition.ts';
import { accepted, type Outcome } from '../science/refusal.ts';
import type { ShiftDay } from './day/shiftDay.ts';
import type { LotExpectation } from './lots/forecastLots.ts';
import type { OrderOutlook } from './morningPlan.ts';
import { expectedLossL, type BasinView } from './needs/basinView.ts';
import { findNeeds, type FoundNeeds } from './needs/findNeeds.ts';
import { lotSupply, type LotSupply } from './orders/lotSupply.ts';
import { openLines, outlookOrders } from './orders/outlookOrders.ts';
import type { PlanSettings } from './planMorning.ts';
import { planSchedule } from './schedule/planSchedule.ts';
import type { Schedule } from './schedule/schedule.ts';
import type { LinearSolver } from './solver/linearModel.ts';
import { buildProblem, type BuiltProblem } from './visits/buildProblem.ts';
import type { DraftVisit } from './visits/draftVisit.ts';
import { draftVisits } from './visits/draftVisits.ts';
import { groupVisits, type VisitGroup } from './visits/groupVisits.ts';
import { routeDrains, type DrainRoute } from './water/drainRoutes.ts';
import type { Feed, FeedRequest } from './water/feed.ts';
import { uptakeComposition } from './water/feedLimits.ts';
import { feedViolations } from './water/feedViolations.ts';
import { mixFeeds } from './water/mixFeeds.ts';
import { readSourceWaters, type SourceWaters } from './water/sourceWaters.ts';
import { waterFigures } from './water/waterFigures.ts';

export interface DayQuestion {
  readonly state: GreenhouseState;
  readonly file: GreenhouseFile;
  readonly floor: Floor;
  readonly day: ShiftDay;
  readonly lots: readonly LotExpectation[];
  readonly basins: readonly BasinView[];
  readonly readings: readonly Reading[];
  readonly solver: LinearSolver;
  readonly settings: PlanSettings;
  readonly tell: (share: number, what: string) => void;
}

/** Everything that was decided for the day, before it is put into words. */
export interface DayDecision {
  readonly found: FoundNeeds;
  readonly orders: readonly OrderOutlook[];
  readonly sources: SourceWaters;
  readonly feeds: readonly Feed[];
  readonly drains: readonly DrainRoute[];
  readonly drafts: readonly DraftVisit[];
  readonly built: BuiltProblem;
  readonly schedule: Schedule;
}

/** Needs, orders, feeds, visits and their schedule. */
export function decideDay(question: DayQuestion): Outcome<DayDecision> {
  const { state, file, floor, day, lots, basins, solver, settings, tell } = question;
  const supplies = new Map(lots.flatMap((lot): [string, LotSupply][] => { const supply = lotSupply(lot, settings.seed, settings.members); return supply === undefined ? [] : [[lot.view.lot, supply]]; }));
  tell(0.6, 'orders');
  const orders = outlookOrders(state, day.date, [...supplies.values()], settings.members, 'orders');
  const found = findNeeds({ state, file, day, lots, basins, supplies, lines: openLines(state, day.date) });
  const groups = groupVisits(found.needs, file.washAfterHarvest);

  tell(0.65, 'feeds');
  const views = new Map(basins.map((view) => [view.basin.id, view]));
  const sources = readSourceWaters(state, question.readings, day.atMs);
  const limitKg = Math.min(...file.vehicles.map(({ maximumLoadKg }) => maximumLoadKg));
  const mixed = mixFeeds(feedRequests(groups, views, state, limitKg, day), sources.usable, file.prices.dischargePerM3 / 1000, solver);
  if (!mixed.ok) return mixed;
  const feeds = mixed.value;

  tell(0.72, 'visits and their times');
  const nodeOfBerth = new Map(floor.berths.map(({ id, node }) => [id, node]));
  const startNode = (basin: string): string => nodeOfBerth.get(views.get(basin)!.basin.berth) ?? '';
  const drafts = draftVisits(withoutNeedlessFillings(groups, feeds), views, new Map(feeds.map((feed) => [feed.request.basin.id, feed])), startNode, () => []);
  const built = buildProblem(drafts, file, floor, day, limitKg);
  const schedule = planSchedule(built.problem, {
    seed: settings.seed, iterations: settings.iterations, onProgress: ({ tried, iterations }) => tell(0.72 + 0.22 * (tried / Math.max(1, iterations)), `schedule, ${tried} of ${iterations} changes tried`),
  });
  return accepted({ found, orders, sources, feeds, drains: routeDrains(feeds, sources.usable, strictestSalts(state)), drafts, built, schedule });
}

/** A feed has to last so long (common practice, no source). */
const LASTS_DAYS = 7;
/** What young plants transpire in their first week in a basin, L/(m2 d) (common practice, no source). */
const YOUNG_LOSS_L_PER_M2_D = 0.8;

/** One request for each basin that has a filling among its stops; an empty target that holds good water already needs none. */
function feedRequests(groups: readonly VisitGroup[], views: ReadonlyMap<string, BasinView>, state: GreenhouseState, maximumLoadKg: number, day: ShiftDay): FeedRequest[] {
  return groups.filter(({ kinds }) => kinds.includes('filling')).flatMap((group): FeedRequest[] => {
    const view = views.get(group.basin)!;
    const { basin } = view;
    const crop = group.needs.find(({ move }) => move !== undefined)?.move?.crop ?? basin.planting?.crop;
    const card = crop === undefined ? undefined : state.crops[crop];
    if (card === undefined) return [];
    const isTarget = basin.planting === undefined;
    const present = view.water.known ? { volumeL: view.water.solution.volumeL, mmolPerL: view.water.solution.mmolPerL } : { volumeL: 0, mmolPerL: {} };
    const litres = isTarget ? LASTS_DAYS * YOUNG_LOSS_L_PER_M2_D * basinAreaM2(basin.type) : expectedLossL(view, day.atMs, day.atMs + LASTS_DAYS * 86_400_000);
    const factor = view.water.known && !isTarget ? view.water.solution.uptakeFactor : 1;
    if (isTarget && present.volumeL >= basinLeastL(basin.type)) {
      const good = feedViolations({ basin, card }, { ...present, ...waterFigures(present.mmolPerL) }, [0, Infinity]);
      if (good.length === 0) return [];
    }
    return [{ basin, card, present, maximumLoadKg, uptake: { litres, mmolPerL: scaleComposition(uptakeComposition(card), factor) } }];
  });
}

function withoutNeedlessFillings(groups: readonly VisitGroup[], feeds: readonly Feed[]): VisitGroup[] {
  const fed = new Set(feeds.map(({ request }) => request.basin.id));
  return groups.map((group) => (fed.has(group.basin) ? group : { ...group, kinds: group.kinds.filter((kind) => kind !== 'filling') })).filter(({ kinds }) => kinds.length > 0);
}

function strictestSalts(state: GreenhouseState): { sodiumMmolPerL: number; chlorideMmolPerL: number } {
  const cards = Object.values(state.crops);
  return { sodiumMmolPerL: Math.min(...cards.map(({ water }) => water.sodiumMaxMmolPerL)), chlorideMmolPerL: Math.min(...cards.map(({ water }) => water.chlorideMaxMmolPerL)) };
}
