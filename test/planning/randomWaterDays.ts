import { basinFullL } from '../../src/greenhouse/basinGeometry.ts';
import { evolve } from '../../src/greenhouse/evolve.ts';
import type { ApprovedVisit, GreenhouseEvent, StopEffect } from '../../src/greenhouse/events.ts';
import type { Reading } from '../../src/greenhouse/journalEvent.ts';
import type { AnalysisRow } from '../../src/greenhouse/schema/tableRows.ts';
import type { BasinState, GreenhouseState } from '../../src/greenhouse/state.ts';
import type { BasinView } from '../../src/planning/needs/basinView.ts';
import type { LinearSolver } from '../../src/planning/solver/linearModel.ts';
import { accountOf } from '../../src/planning/visits/accountOf.ts';
import { fillingStop } from '../../src/planning/visits/draftVisits.ts';
import { estimateSolution } from '../../src/planning/water/estimateSolution.ts';
import type { FeedRequest } from '../../src/planning/water/feed.ts';
import { targetComposition, uptakeComposition } from '../../src/planning/water/feedLimits.ts';
import { mixFeeds } from '../../src/planning/water/mixFeeds.ts';
import { readSourceWaters, type SourceWaters } from '../../src/planning/water/sourceWaters.ts';
import { startRandom, type RandomStream } from '../../src/science/seededRandom.ts';

const DAY_MS = 86_400_000;

/** A morning: what is on record, and what estimates and trackers make of it. */
export interface WaterMorning {
  readonly atMs: number;
  readonly state: GreenhouseState;
  readonly basins: readonly BasinView[];
  readonly sources: SourceWaters;
}

/**
 * Days of a greenhouse by the real rules: every morning the waters are estimated from random readings, some basins are
 * filled (mixed by the programme, or litres of a random ticket), drained into tanks or to discharge, harvested and washed,
 * and their plants moved; stops fail, meters differ from tickets, probes are wrong, laboratories analyse.
 */
export function randomWaterDays(start: GreenhouseState, startMs: number, days: number, seed: number, solver: LinearSolver): WaterMorning[] {
  const random = startRandom(seed);
  const rates = new Map(Object.keys(start.basins).map((id) => [id, 2 + 14 * random.uniform()]));
  const mornings: WaterMorning[] = [];
  const readings: Reading[] = [];
  let state = start;
  for (let day = 0; day < days; day++) {
    const atMs = startMs + day * DAY_MS;
    state = observe(state, readings, atMs, random);
    const morning = lookAt(state, readings, rates, atMs);
    mornings.push(morning);
    state = work(morning, day, random, solver);
  }
  return mornings;
}

function lookAt(state: GreenhouseState, readings: readonly Reading[], rates: ReadonlyMap<string, number>, atMs: number): WaterMorning {
  const basins = Object.values(state.basins).map((basin): BasinView => {
    const card = basin.planting === undefined ? undefined : state.crops[basin.planting.crop];
    const litresBetween = (from: number, to: number) => (basin.planting === undefined ? 0 : (rates.get(basin.id)! * (to - from)) / DAY_MS);
    const water = estimateSolution({
      basin, readings: readings.filter(({ place }) => place === `basin:${basin.id}`), analyses: state.analyses.filter(({ place }) => place === `basin:${basin.id}`),
      uptakeMmolPerL: card && uptakeComposition(card), likelyMmolPerL: card && targetComposition(card), litresBetween, atMs,
    });
    return { basin, card, lot: undefined, water, litresBetween };
  });
  return { atMs, state, basins, sources: readSourceWaters(state, readings, atMs, atMs - DAY_MS / 4) };
}

/** Levels, conductivities and pH of some basins and of the tanks, one in ten quite wrong; now and then an analysis. */
function observe(state: GreenhouseState, readings: Reading[], atMs: number, random: RandomStream): GreenhouseState {
  const at = new Date(atMs - 3_600_000).toISOString();
  const off = () => (random.uniform() < 0.1 ? 0.5 + random.uniform() : 1 + 0.03 * (random.uniform() - 0.5));
  for (const basin of Object.values(state.basins)) {
    const place = `basin:${basin.id}`;
    if (random.uniform() < 0.6) readings.push({ at, place, quantity: 'volumeL', value: 480 * off(), sd: 5 });
    if (random.uniform() < 0.6) readings.push({ at, place, quantity: 'ecMsPerCm25', value: 1.5 * off(), sd: 0.03 });
    if (random.uniform() < 0.3) readings.push({ at, place, quantity: 'pH', value: 5.5 + random.uniform(), sd: 0.1 });
  }
  if (random.uniform() < 0.7) readings.push({ at, place: 'tank:return-1', quantity: 'volumeL', value: 5000 * off(), sd: 60 });
  if (random.uniform() < 0.4) readings.push({ at, place: 'tank:return-1', quantity: 'ecMsPerCm25', value: 1.4 * off(), sd: 0.05 });
  const rows = [...(random.uniform() < 0.3 ? ['tank:return-1'] : []), ...Object.keys(state.basins).filter(() => random.uniform() < 0.05).map((id) => `basin:${id}`)];
  return rows.reduce((now, place) => record(now, at, { kind: 'analysis-recorded', body: { row: analysis(place, at, random) } }), state);
}

const analysis = (place: string, at: string, random: RandomStream): AnalysisRow => ({
  analysis: `L-${at}`, at, place, potassiumMmolPerL: 3 + 3 * random.uniform(), calciumMmolPerL: 1.5 + random.uniform(), magnesiumMmolPerL: 0.5 + 0.5 * random.uniform(), sodiumMmolPerL: 2 * random.uniform(),
  nitrateMmolPerL: 6 + 3 * random.uniform(), chlorideMmolPerL: 2 * random.uniform(), sulfateMmolPerL: 0.5 + random.uniform(), phosphateMmolPerL: 0.4 + random.uniform(), bicarbonateMmolPerL: 0.2, ironUmolPerL: 15,
});

type Body = { [K in GreenhouseEvent['kind']]: { kind: K; body: Extract<GreenhouseEvent, { kind: K }>['body'] } }[GreenhouseEvent['kind']];

const record = (state: GreenhouseState, at: string, event: Body): GreenhouseState =>
  evolve(state, { ...event, happenedAt: at, recordedBy: 'test', id: '', sequence: state.sequence + 1, recordedAt: at, previousHash: '', hash: '' } as GreenhouseEvent);

/** Approves a plan of random visits and marks its stops. */
function work(morning: WaterMorning, day: number, random: RandomStream, solver: LinearSolver): GreenhouseState {
  const planId = `day-${day}`;
  const visits = planVisits(morning, random, solver);
  const at = new Date(morning.atMs).toISOString();
  let state = record(morning.state, at, { kind: 'plan-approved', body: { plan: { planId, at, approvedBy: 'test', upToSequence: morning.state.sequence, visits } } });
  let minutes = 30;
  for (const { visit, stops } of visits) {
    for (const { stop, effect } of stops) {
      const doneAt = new Date(morning.atMs + (minutes += 7) * 60_000).toISOString();
      if (random.uniform() < 0.08) { state = record(state, doneAt, { kind: 'stop-failed', body: { planId, visit, stop, by: 'test', reason: 'pump stopped' } }); break; }
      const actual = effect.kind === 'filling' && random.uniform() < 0.3 ? { actual: { volumeL: effect.resultVolumeL * (0.97 + 0.05 * random.uniform()) } } : {};
      state = record(state, doneAt, { kind: 'stop-done', body: { planId, visit, stop, by: 'test', ...actual } });
    }
  }
  return state;
}

function planVisits(morning: WaterMorning, random: RandomStream, solver: LinearSolver): ApprovedVisit[] {
  const chosen = morning.basins.map((view) => ({ view, die: random.uniform() }));
  const requests = chosen.filter(({ die, view }) => die < 0.4 && view.card !== undefined).map(({ view, die }) => requestOf(view, die < 0.25, morning, random));
  const mixed = mixFeeds(requests, morning.sources.usable, 0.003, solver);
  if (!mixed.ok) throw new Error(JSON.stringify(mixed.refusals));
  const fillings = mixed.value.map((feed): ApprovedVisit => visitOf(morning, feed.request.basin, [fillingStop(feed, feed.request.fixed?.drainTo ?? tankOrNone(random)).effect]));
  const rest = chosen.filter(({ view }) => !requests.some(({ basin }) => basin.id === view.basin.id));
  const cuts = rest.filter(({ die, view }) => die > 0.85 && view.basin.planting !== undefined).map(({ view: { basin } }) => visitOf(morning, basin, [
    { kind: 'harvest', lot: basin.planting!.lot, plants: basin.planting!.plants, orders: [] }, { kind: 'washing', ...into(tankOrNone(random)) }]));
  const sources = rest.filter(({ die, view }) => die > 0.7 && die <= 0.85 && view.basin.planting !== undefined);
  const targets = rest.filter(({ view }) => view.basin.planting === undefined && !view.basin.needsWash);
  const moves = sources.slice(0, targets.length).flatMap(({ view: { basin } }, i) => {
    const { lot, crop, sown, stage, plants } = basin.planting!;
    const move = (toBasin: string): StopEffect => ({ kind: 'transplanting', lot, fromBasin: basin.id, toBasin, stage, plants, crop, sown });
    return [visitOf(morning, basin, [move(basin.id), { kind: 'washing', ...into(tankOrNone(random)) }]), visitOf(morning, targets[i]!.view.basin, [{ kind: 'imaging' }, move(targets[i]!.view.basin.id)])];
  });
  return [...fillings, ...cuts, ...moves];
}

const tankOrNone = (random: RandomStream): string | undefined => (random.uniform() < 0.6 ? 'return-1' : undefined);
const into = (drainTo: string | undefined) => (drainTo === undefined ? {} : { drainTo });

/** Left to the programme, or with the litres of a ticket: any of the sources, half of what is there drained. */
function requestOf({ basin, card, water }: BasinView, isTicket: boolean, { sources }: WaterMorning, random: RandomStream): FeedRequest {
  const present = water.known ? { volumeL: water.solution.volumeL, mmolPerL: water.solution.mmolPerL } : { volumeL: 0, mmolPerL: {} };
  const request = { basin, card: card!, present, maximumLoadKg: 800, uptake: { litres: 0, mmolPerL: {} } };
  if (!isTicket) return request;
  const drainL = present.volumeL * random.uniform() * 0.5;
  const room = basinFullL(basin.type) - present.volumeL + drainL;
  const drawL = Object.fromEntries(sources.usable.map(({ source }) => [source.id, source.kind === 'fresh' || source.kind === 'return' ? 0.2 * Math.max(0, room) * random.uniform() : 0.5 * random.uniform()]));
  return { ...request, fixed: { drainL, drawL, ...into(tankOrNone(random)) } };
}

const visitOf = ({ basins, atMs }: WaterMorning, basin: BasinState, effects: readonly StopEffect[]): ApprovedVisit => ({
  visit: `V-${basin.id}`, basin: basin.id, fromBerth: basin.berth, toBerth: basin.berth, ...accountOf(basins.find((view) => view.basin.id === basin.id)!.water, atMs),
  stops: effects.map((effect, stop) => ({ stop, kind: effect.kind, station: effect.kind, startAt: '', endAt: '', effect })),
});
