import { canonicalText } from '../greenhouse/canonicalText.ts';
import type { GreenhouseFile } from '../greenhouse/schema/greenhouseFile.ts';
import { sumDay } from '../records/sumDay.ts';
import { sha256 } from '../science/sha256.ts';
import type { BayClimates } from './climate/bayClimates.ts';
import { clockMs, addDays, toInstant, type ShiftDay } from './day/shiftDay.ts';
import type { DayDecision } from './decideDay.ts';
import type { FeedTicket, MorningPlan, PlannedVisit, ReturnPlan } from './morningPlan.ts';
import { basinOutlook } from './outlook/basinOutlook.ts';
import { dayCautions } from './outlook/dayCautions.ts';
import { figureSources } from './outlook/figureSources.ts';
import { findRisks } from './outlook/findRisks.ts';
import { lotOutlook } from './outlook/lotOutlook.ts';
import { seasonPicture } from './outlook/seasonPicture.ts';
import { summarise } from './outlook/summarise.ts';
import type { PlanParts } from './planParts.ts';
import type { DraftVisit } from './visits/draftVisit.ts';
import { readHistory } from './visits/readHistory.ts';
import { readTimeline, readVisits } from './visits/readVisits.ts';
import { describeVisit } from './visits/visitWords.ts';
import { feedTicket, roundTo, solutionView } from './water/feedTicket.ts';
import { plannedFlows } from './water/plannedFlows.ts';
import { tankOutlooks } from './water/tankOutlooks.ts';
import { waterAccount } from './water/waterAccount.ts';
import { weekLoads } from './week/weekLoads.ts';
import { countOf } from './words/plainWords.ts';


/** The day's decisions as the plan that people and pages read. Its identity is the hash of everything else in it. */
export function assemblePlan(parts: PlanParts): MorningPlan {
  const { state, file, day, lots, basins, climates, decided, solver, settings } = parts;
  const visits = readVisits(decided.schedule, decided.drafts, decided.built, day, file);
  const timeline = readTimeline(decided.schedule, decided.built, file, day);
  const feeds = ticketsOf(visits, parts);
  const leftOut = leftOutVisits(decided, file);
  const returns = returnsOf(visits, parts);
  const account = sumDay({
    feeds, drains: returns.routes, lampKWh: lampKWh(climates, day), vehicles: timeline.vehicles,
    carriedKg: visits.length === 0 ? 0 : visits.reduce((sum, visit) => sum + visit.weightKg, 0) / visits.length,
  }, file, state.products);
  const today = plannedFlows(visits.map(({ approved }) => approved), basins, day.atMs, day.endMs);
  const tanks = tankOutlooks(parts, today);
  const body: Omit<MorningPlan, 'planId' | 'sentence'> = {
    greenhouse: file.id, name: file.name, timeZone: day.timeZone, at: toInstant(day.atMs), date: day.date, upToSequence: state.sequence,
    shift: { startAt: toInstant(day.startMs), endAt: toInstant(day.endMs) },
    counts: {
      basins: basins.length, planted: basins.filter(({ basin }) => basin.planting !== undefined).length, visits: visits.length,
      mustVisits: visits.filter(({ urgency }) => urgency === 'must').length, leftOut: leftOut.length, stops: visits.reduce((sum, visit) => sum + visit.stops.length, 0),
    },
    needs: decided.found.needs.map(({ basin, kind, urgency, reason, dueDate, why }) => ({ basin, kind, urgency, reason, ...(dueDate === undefined ? {} : { dueDate }), why })),
    ...(parts.pins.length === 0 ? {} : { pins: parts.pins }), visits, ...(decided.soFar === undefined ? {} : { history: readHistory(decided.soFar, state) }), leftOut, timeline, feeds, returns,
    basins: basins.map((view) => basinOutlook(view, decided.found.needs.filter(({ basin }) => basin === view.basin.id), visits.filter(({ basin }) => basin === view.basin.id), day)),
    lots: lots.map((lot) => lotOutlook(lot, state, day.date)),
    orders: decided.orders, actions: decided.actions,
    risks: findRisks({ ...parts, leftOut, feeds, tanks }),
    account, tanks, waterAccount: waterAccount({ state, basins, tanks: decided.sources.tanks, atMs: day.atMs }, today, file), cautions: dayCautions(visits, feeds, new Map(decided.sources.usable.map(({ source, treatmentCautions = [] }) => [source.id, treatmentCautions]))),
    week: weekLoads({ state, file, floor: state.floor!, day, lots, basins, today: madeToday(decided, leftOut), todayVehicleMin: decided.schedule.trips.reduce((sum, trip) => sum + trip.arriveS - trip.emptyDepartS, 0) / 60 }),
    season: seasonPicture(climates, day.date),
    sources: figureSources({
      solver: solver.name, solverVersion: solver.version, weather: climates.weatherOrigin, members: settings.members, seed: settings.seed, iterations: settings.iterations,
      measured: Object.values(climates.byBay).map(({ bay, measuredShare }) => `${bay.title}: ${Math.round(100 * measuredShare)} % of the past hours measured`),
      models: [...new Set(lots.flatMap(({ forecast }) => (forecast === undefined ? [] : [forecast.basis.modelId])))].sort(), upToSequence: state.sequence,
    }),
  };
  const planId = sha256(canonicalText(body)).slice(0, 16);
  return { planId, sentence: summarise(body), ...body };
}

function ticketsOf(visits: readonly PlannedVisit[], { decided, basins, file }: PlanParts): FeedTicket[] {
  const byBasin = new Map(decided.feeds.map((feed) => [feed.request.basin.id, feed]));
  const views = new Map(basins.map((view) => [view.basin.id, view]));
  return visits.flatMap((visit): FeedTicket[] => {
    const feed = byBasin.get(visit.basin);
    if (visit.feedTicket === undefined || feed === undefined) return [];
    const { water } = views.get(visit.basin)!;
    return [feedTicket(feed, {
      ticket: visit.feedTicket, visit: visit.visit, currency: file.prices.currency,
      before: water.known && feed.request.present.volumeL > 0 ? solutionView(water.solution, water.solution.basis) : { volumeL: 0, mmolPerL: {}, ecMsPerCm25: 0, basis: 'empty and clean' },
    }, decided.returned.routes.find(({ basin }) => basin === visit.basin))];
  });
}

/** Where the solution goes that leaves basins on visits of this plan. */
function returnsOf(visits: readonly PlannedVisit[], { decided: { returned }, file }: PlanParts): ReturnPlan {
  const visitOf = new Map(visits.filter(({ stops }) => stops.some(({ kind }) => kind === 'filling' || kind === 'washing')).map(({ basin, visit }) => [basin, visit]));
  const routes = returned.routes.flatMap((route): ReturnPlan['routes'][number][] => {
    const visit = visitOf.get(route.basin);
    return visit === undefined ? [] : [{ ...route, visit, litres: roundTo(route.litres, 4) }];
  });
  const { currency } = file.prices;
  const sentence = returned.routes.length === 0 ? 'No solution leaves a basin today.'
    : `${countOf(returned.routes.length, 'batch')} of drained solution: with the feeds of the days ahead their ways cost ${returned.cost.toFixed(2)} ${currency}; no way to spread groups of like batches costs less than ${returned.lowerBound.toFixed(2)} ${currency}.`;
  return { routes, cost: roundTo(returned.cost, 5), costLowerBound: roundTo(returned.lowerBound, 5), sentence, why: 'returned' };
}

function leftOutVisits({ built, schedule, drafts }: DayDecision, file: GreenhouseFile): MorningPlan['leftOut'] {
  const byId = new Map(drafts.map((draft) => [draft.visit, draft]));
  return [
    ...built.impossible.map(({ draft, reason }) => ({ visit: draft.visit, basin: draft.view.basin.id, must: draft.urgency === 'must', what: describeVisit(draft, file), reason })),
    ...schedule.leftOut.map(({ visit, basin, must, reason }) => ({ visit, basin, must, what: describeVisit(byId.get(visit)!, file), reason })),
  ];
}

/** Drafts that the schedule has a place for. */
function madeToday({ drafts }: DayDecision, leftOut: MorningPlan['leftOut']): DraftVisit[] {
  const out = new Set(leftOut.map(({ visit }) => visit));
  return drafts.filter(({ visit }) => !out.has(visit));
}

/** Electricity of the lamps of all bays on the local day. */
function lampKWh(climates: BayClimates, day: ShiftDay): number {
  const hour = (date: string) => Math.round((clockMs(date, '00:00', day.timeZone) - climates.startMs) / 3_600_000);
  const [from, to] = [hour(day.date), hour(addDays(day.date, 1))];
  return Object.values(climates.byBay).reduce((sum, { bay, inside }) => sum + (inside.lampWhM2.subarray(from, to).reduce((wh, each) => wh + each, 0) * bay.floorM2) / 1000, 0);
}
