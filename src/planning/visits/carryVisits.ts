import type { ApprovedStop } from '../../greenhouse/events.ts';
import type { StationKind } from '../../greenhouse/schema/greenhouseFile.ts';
import type { BasinView } from '../needs/basinView.ts';
import type { NeedDraft, TransplantMove } from '../needs/needDraft.ts';
import type { Feed } from '../water/feed.ts';
import type { DraftStop, DraftVisit } from './draftVisit.ts';
import { fillingStop } from './draftVisits.ts';
import type { CarriedVisit, ShiftSoFar } from './shiftSoFar.ts';

/** Where things are, and when an order's harvest has to be over. */
export interface CarryPlaces {
  readonly nodeOfStation: (id: string) => string;
  readonly nodeOfBerth: (id: string) => string;
  readonly endByMs: (orders: readonly { readonly order: string; readonly line: number }[]) => number | undefined;
}

/** Work of the day that was promised keeps its place before new work of the same kind. */
const CARRIED_PRIORITY = 30;

/**
 * What is left of approved visits, as approved: the same stops, litres and plants. A visit under way begins where the
 * basin stands, at the station of its last stop that is done.
 */
export function carryVisits(soFar: ShiftSoFar, views: ReadonlyMap<string, BasinView>, feeds: ReadonlyMap<string, Feed>, where: CarryPlaces): DraftVisit[] {
  const sourceStop = new Map(soFar.carried.flatMap(({ visit, remaining }): [string, { visit: string; stop: number }][] => {
    const at = remaining.findIndex(({ effect }) => effect.kind === 'transplanting' && effect.fromBasin === effect.toBasin);
    return at < 0 ? [] : [[visit.basin, { visit: visit.visit, stop: at }]];
  }));
  return soFar.carried.flatMap((carried): DraftVisit[] => {
    const view = views.get(carried.visit.basin);
    if (view === undefined) return [];
    const last = carried.done.at(-1);
    return [{
      visit: carried.visit.visit, view, urgency: 'must', priority: CARRIED_PRIORITY, toBerth: carried.visit.toBerth, done: carried.done,
      startNode: last === undefined ? where.nodeOfBerth(view.basin.berth) : where.nodeOfStation(last.stop.station),
      needs: [reasonOf(carried, soFar)],
      stops: carried.remaining.map((stop) => carryStop(stop, carried, view, feeds.get(carried.visit.basin), { sourceStop, targetsOf: targetsIn(soFar), endByMs: where.endByMs })),
      told: {
        stops: carried.remaining.map(({ station, startAt, endAt }, stop) => ({ stop, station, startAt, endAt })),
        trips: (carried.visit.trips ?? []).map((trip) => ({ ...trip, leg: trip.leg - carried.done.length })).filter(({ leg }) => leg >= 0),
      },
    }];
  });
}

function reasonOf({ visit, done }: CarriedVisit, soFar: ShiftSoFar): NeedDraft {
  const begun = done.length === 0 ? '' : `, ${done.length} of ${visit.stops.length} stops done`;
  return { basin: visit.basin, kind: visit.stops[0]!.kind as StationKind, urgency: 'must', why: 'schedule', reason: `as approved by ${soFar.approvedBy} at ${soFar.approvedAt.slice(11, 16)} UTC${begun}` };
}

interface MoveLinks {
  readonly sourceStop: ReadonlyMap<string, { visit: string; stop: number }>;
  readonly targetsOf: (fromBasin: string) => TransplantMove['targets'];
  readonly endByMs: CarryPlaces['endByMs'];
}

/** Where the plants of a basin go, over all visits of the approved plan. */
function targetsIn(soFar: ShiftSoFar): MoveLinks['targetsOf'] {
  const visits = [...soFar.carried.map(({ visit }) => visit), ...soFar.ended.map(({ visit }) => visit)];
  return (fromBasin) => visits.flatMap((visit) => visit.stops.flatMap(({ effect }) => (effect.kind === 'transplanting' && effect.fromBasin === fromBasin && effect.toBasin !== fromBasin
    ? [{ basin: visit.basin, plants: effect.plants, toBerth: visit.toBerth }] : [])));
}

function carryStop({ stop: number, kind, effect }: ApprovedStop, { visit }: CarriedVisit, view: BasinView, feed: Feed | undefined, links: MoveLinks): DraftStop {
  const shared = { number, kind: kind as StationKind, avoid: [] };
  switch (effect.kind) {
    case 'filling': return { ...shared, plants: 0, ...fillingStop(feed, effect.drainTo) };
    case 'imaging': return { ...shared, plants: 0, litres: 0, effect };
    case 'washing': return { ...shared, plants: 0, litres: view.water.known ? view.water.solution.volumeL : 0, effect };
    case 'harvest': {
      const endByMs = links.endByMs(effect.orders);
      return { ...shared, plants: effect.plants, litres: 0, effect, harvest: { lot: effect.lot, plants: effect.plants, orders: effect.orders, freshG: 0 }, ...(endByMs === undefined ? {} : { endByMs }) };
    }
    case 'transplanting': {
      const { fromBasin } = effect;
      const after = fromBasin === undefined || effect.toBasin === fromBasin ? undefined : links.sourceStop.get(fromBasin);
      const targets = fromBasin === undefined ? [{ basin: visit.basin, plants: effect.plants, toBerth: visit.toBerth }] : links.targetsOf(fromBasin);
      const move: TransplantMove = { lot: effect.lot, crop: effect.crop ?? '', sown: effect.sown ?? '', stage: effect.stage, ...(fromBasin === undefined ? {} : { fromBasin }), plants: effect.plants, targets };
      return { ...shared, plants: effect.plants, litres: 0, effect, move, ...(after === undefined || visit.basin === fromBasin ? {} : { after: [after] }) };
    }
  }
}
