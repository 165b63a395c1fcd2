import type { GreenhouseFile } from '../../src/greenhouse/schema/greenhouseFile.ts';
import type { GreenhouseState } from '../../src/greenhouse/state.ts';
import type { MorningPlan, PlannedStop } from '../../src/planning/morningPlan.ts';

/**
 * Checks a plan against the greenhouse from its printed times alone, with none of the planner's own code: capacities,
 * breaks, vehicles, ways, order of stops, windows, litres. Every fault in words; empty when the plan can be carried out.
 */
export function verifyPlan(plan: MorningPlan, state: GreenhouseState): string[] {
  const file = state.file!;
  return [...checkStations(plan, file), ...checkVehicles(plan, state), ...checkBasins(plan, state), ...checkFeeds(plan, file), ...checkMoves(plan)];
}

const s = (instant: string): number => Date.parse(instant) / 1000;
interface Span { readonly from: number; readonly to: number; readonly what: string }

/** Most spans that are open at once. */
function mostAtOnce(spans: readonly Span[]): number {
  const edges = spans.flatMap(({ from, to }) => [{ at: from, step: 1 }, { at: to, step: -1 }]).sort((a, b) => a.at - b.at || a.step - b.step);
  let open = 0, most = 0;
  for (const { step } of edges) { open += step; most = Math.max(most, open); }
  return most;
}

function checkStations(plan: MorningPlan, file: GreenhouseFile): string[] {
  const day = (clock: string) => localSeconds(plan, clock);
  return file.stations.flatMap((station) => {
    const stops = plan.visits.flatMap(({ visit, stops: all }) => all.filter((stop) => stop.station === station.id && stop.result === undefined).map((stop) => ({ from: s(stop.startAt), to: s(stop.endAt), what: `${visit} at ${station.id}`, stop })));
    const faults = mostAtOnce(stops) > station.places ? [`${station.id} works on more than ${station.places} basins at once`] : [];
    for (const { from, to, what } of stops) {
      if (from < s(plan.shift.startAt) || to > s(plan.shift.endAt)) faults.push(`${what} is outside the shift`);
      for (const pause of file.shift.breaks) if (from < day(pause.to) && to > day(pause.from)) faults.push(`${what} is within the break`);
    }
    for (const { stop, what } of stops) if (stop.kind !== station.kind) faults.push(`${what}: ${stop.kind} at a ${station.kind} station`);
    return faults;
  });
}

/** The demo stands in a zone without summer time in November: local clock as UTC. Other tests give their own shift. */
const localSeconds = (plan: MorningPlan, clock: string): number => s(plan.shift.startAt) + (minutes(clock) - minutes('06:00')) * 60;
const minutes = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));

/** Floyd & Warshall over the whole floor: slow and plain. */
function waysBetween(state: GreenhouseState): (from: string, to: string) => number {
  const floor = state.floor!;
  const ids = Object.keys(floor.nodes);
  const at = new Map(ids.map((id, i) => [id, i]));
  const metres = ids.map((_, i) => ids.map((__, j) => (i === j ? 0 : Infinity)));
  for (const { from, to, lengthM, oneWay } of floor.edges) {
    metres[at.get(from)!]![at.get(to)!] = Math.min(lengthM, metres[at.get(from)!]![at.get(to)!]!);
    if (!oneWay) metres[at.get(to)!]![at.get(from)!] = Math.min(lengthM, metres[at.get(to)!]![at.get(from)!]!);
  }
  for (let k = 0; k < ids.length; k++) for (let i = 0; i < ids.length; i++) for (let j = 0; j < ids.length; j++) {
    const way = metres[i]![k]! + metres[k]![j]!;
    if (way < metres[i]![j]!) metres[i]![j] = way;
  }
  return (from, to) => metres[at.get(from)!]![at.get(to)!]!;
}

function checkVehicles(plan: MorningPlan, state: GreenhouseState): string[] {
  const way = waysBetween(state);
  const nowS = Math.max(s(plan.at), s(plan.shift.startAt));
  return state.file!.vehicles.flatMap((vehicle) => {
    const trips = plan.visits.flatMap(({ visit, trips: all }) => all.filter((trip) => trip.vehicle === vehicle.id).map((trip) => ({ visit, ...trip }))).sort((a, b) => s(a.pickAt) - s(b.pickAt));
    const faults: string[] = [];
    let place = vehicle.home;
    let freeAt = nowS;
    for (const trip of trips) {
      const name = `${vehicle.id} with ${trip.visit} from ${trip.from} to ${trip.to}`;
      if (trip.emptyFrom !== place) faults.push(`${name}: comes from ${trip.emptyFrom}, stands at ${place}`);
      if (s(trip.emptyDepartAt) < freeAt - 0.001) faults.push(`${name}: sets off before it is free`);
      if (s(trip.pickAt) - s(trip.emptyDepartAt) < way(place, trip.from) / vehicle.speedEmptyMS - 0.001) faults.push(`${name}: too fast on its way to the basin`);
      if (s(trip.departAt) - s(trip.pickAt) < vehicle.pickS) faults.push(`${name}: lifts too fast`);
      if (s(trip.arriveAt) - s(trip.departAt) < way(trip.from, trip.to) / vehicle.speedLoadedMS + vehicle.dropS - 0.001) faults.push(`${name}: too fast with the basin`);
      place = trip.to;
      freeAt = s(trip.arriveAt);
    }
    if (freeAt > s(plan.shift.endAt)) faults.push(`${vehicle.id} drives after the shift`);
    return faults;
  });
}

function checkBasins(plan: MorningPlan, state: GreenhouseState): string[] {
  const file = state.file!;
  const nodeOfStation = new Map(file.stations.map(({ id, node }) => [id, node]));
  const nodeOfBerth = new Map(state.floor!.berths.map(({ id, node }) => [id, node]));
  const mostKg = Math.min(...file.vehicles.map(({ maximumLoadKg }) => maximumLoadKg));
  const seen = new Set<string>();
  return plan.visits.flatMap((visit) => {
    const open = visit.stops.filter(({ result }) => result === undefined);
    const faults: string[] = seen.has(visit.basin) ? [`${visit.basin} goes out twice`] : [];
    seen.add(visit.basin);
    if (visit.trips.length !== open.length + 1) faults.push(`${visit.visit} has ${visit.trips.length} trips for ${open.length} stops`);
    open.forEach((stop, i) => {
      const before = visit.trips[i]!, after = visit.trips[i + 1]!;
      if (before.to !== nodeOfStation.get(stop.station) || after.from !== before.to) faults.push(`${visit.visit}: trip ${i} does not lead to ${stop.station}`);
      if (s(before.arriveAt) > s(stop.startAt) || s(stop.endAt) > s(after.pickAt)) faults.push(`${visit.visit}: work at ${stop.station} while on the way`);
    });
    if (visit.trips.at(-1)?.to !== nodeOfBerth.get(visit.toBerth)) faults.push(`${visit.visit} does not end at ${visit.toBerth}`);
    if (visit.weightKg > mostKg) faults.push(`${visit.visit} weighs ${visit.weightKg} kg`);
    return [...faults, ...checkWindow(visit.visit, visit.stops, visit.approved.stops, plan, state)];
  });
}

/** Whatever is cut for an order that leaves today is cut before it leaves. */
function checkWindow(visit: string, stops: readonly PlannedStop[], approved: MorningPlan['visits'][number]['approved']['stops'], plan: MorningPlan, state: GreenhouseState): string[] {
  return approved.flatMap(({ stop, effect }) => {
    if (effect.kind !== 'harvest') return [];
    const today = effect.orders.some(({ order, line }) => state.orders[`${order}/${line}`]!.due <= plan.date);
    const endAt = stops.find((is) => is.stop === stop)!.endAt;
    return today && s(endAt) > localSeconds(plan, state.file!.orderPickHour) ? [`${visit} is cut after its order has left`] : [];
  });
}

/** Plants are lifted out of their basin before they are set into another, and none is lost. */
function checkMoves(plan: MorningPlan): string[] {
  const stops = plan.visits.flatMap(({ visit, basin, stops: all, approved }) => approved.stops.flatMap(({ stop, effect }) => (effect.kind === 'transplanting' ? [{ visit, basin, effect, at: all.find((is) => is.stop === stop)! }] : [])));
  const sources = stops.filter(({ effect }) => effect.fromBasin === effect.toBasin);
  return sources.flatMap((source) => {
    const targets = stops.filter(({ effect, basin }) => effect.fromBasin === source.basin && basin !== source.basin);
    const plants = targets.reduce((sum, { effect }) => sum + effect.plants, 0);
    return [
      ...(plants === source.effect.plants ? [] : [`${source.basin}: ${source.effect.plants} plants are lifted and ${plants} planted`]),
      ...targets.filter(({ at }) => s(at.startAt) < s(source.at.endAt)).map(({ visit }) => `${visit} plants before they are lifted`),
    ];
  });
}

/** Litres and amounts of each ticket, hard limits, and what all of them take from each source. */
function checkFeeds(plan: MorningPlan, file: GreenhouseFile): string[] {
  const taken = new Map<string, number>();
  const faults = plan.feeds.flatMap((feed) => {
    const added = feed.draws.reduce((sum, { litres }) => sum + litres, 0);
    const own: string[] = [];
    if (Math.abs(feed.before.volumeL - feed.drainL + added - feed.after.volumeL) > 0.11) own.push(`${feed.ticket}: litres do not add up`);
    for (const draw of feed.draws) {
      const { perBasinMaxL = Infinity, pumpMinimumL } = file.sources.find(({ id }) => id === draw.source)!;
      if (draw.litres > perBasinMaxL || draw.litres < pumpMinimumL) own.push(`${feed.ticket}: ${draw.litres} L of ${draw.source}`);
      taken.set(draw.source, (taken.get(draw.source) ?? 0) + draw.litres);
    }
    if (feed.status === 'within bands') {
      for (const [ion, [low, high]] of Object.entries(feed.bandMmolPerL)) {
        const is = (feed.after.mmolPerL as Record<string, number>)[ion] ?? 0;
        if (is < low - 1e-3 * high || is > high * 1.001) own.push(`${feed.ticket}: ${ion} ${is} outside ${low} to ${high}`);
      }
    }
    return own;
  });
  return [...faults, ...file.sources.flatMap(({ id, availableL }) => ((taken.get(id) ?? 0) > availableL + 1e-6 ? [`${id}: ${taken.get(id)} L of ${availableL} L`] : []))];
}
