import type { StopEffect } from '../../greenhouse/events.ts';
import { scaleComposition } from '../../science/chemistry/composition.ts';
import type { BasinView } from '../needs/basinView.ts';
import type { NeedDraft } from '../needs/needDraft.ts';
import type { Feed } from '../water/feed.ts';
import type { DraftStop, DraftVisit } from './draftVisit.ts';
import type { VisitGroup } from './groupVisits.ts';

/** Where a basin is when its visit begins; the berth's node unless the visit is under way. */
export type StartNode = (basin: string) => string;

/** Stations that failed today for a basin, by kind. */
export type FailedStations = (basin: string) => readonly string[];

/** Return tank into which the solution of a basin is drained today; a basin that is not in it drains to discharge. */
export type DrainTo = ReadonlyMap<string, string>;

/**
 * Trips with what each stop does to plants and water. Targets of a move wait at the transplanting station until the plants
 * are lifted out of the source; if the source does not go, they do not either.
 */
export function draftVisits(groups: readonly VisitGroup[], views: ReadonlyMap<string, BasinView>, feeds: ReadonlyMap<string, Feed>, drainTo: DrainTo, startNode: StartNode, failed: FailedStations): DraftVisit[] {
  const visitOfSource = new Map(groups.flatMap((group) => group.needs.flatMap((need): [string, string][] => (need.move?.fromBasin === group.basin ? [[group.basin, group.visit]] : []))));
  return groups.map((group) => {
    const view = views.get(group.basin)!;
    const target = group.needs.flatMap(({ move }) => move?.targets.filter(({ basin }) => basin === group.basin) ?? [])[0];
    return {
      visit: group.visit, view, urgency: group.urgency, needs: group.needs, toBerth: target?.toBerth ?? group.needs.find(({ toBerth }) => toBerth !== undefined)?.toBerth ?? view.basin.berth, startNode: startNode(group.basin),
      priority: priorityOf(group),
      stops: group.kinds.map((kind, number) => draftStop(number, kind, group, view, feeds.get(group.basin), drainTo.get(group.basin), visitOfSource, failed(group.basin))),
    };
  });
}

/** Orders of the day before plants that must move, before water, before images. */
function priorityOf({ needs, urgency }: VisitGroup): number {
  const weights = needs.filter((need) => need.urgency !== 'may').map((need) => (need.kind === 'harvest' ? (need.endByMs === undefined ? 12 : 40) : need.kind === 'transplanting' ? 20 : need.kind === 'filling' ? 8 : 3));
  return Math.max(1, ...weights) * (urgency === 'must' ? 2 : 1);
}

function draftStop(number: number, kind: DraftStop['kind'], group: VisitGroup, view: BasinView, feed: Feed | undefined, drainTo: string | undefined, visitOfSource: ReadonlyMap<string, string>, avoid: readonly string[]): DraftStop {
  const need = group.needs.find((is) => is.kind === kind);
  const shared = { number, kind, avoid, ...(need?.endByMs === undefined ? {} : { endByMs: need.endByMs }) };
  switch (kind) {
    case 'imaging': return { ...shared, plants: 0, litres: 0, effect: { kind } };
    case 'washing': return { ...shared, plants: 0, litres: view.water.known ? view.water.solution.volumeL : 0, effect: { kind, ...(drainTo === undefined ? {} : { drainTo }) } };
    case 'filling': return { ...shared, plants: 0, ...fillingStop(feed, drainTo) };
    case 'harvest': return { ...shared, plants: need!.harvest!.plants, litres: 0, harvest: need!.harvest!, effect: { kind, lot: need!.harvest!.lot, plants: need!.harvest!.plants, orders: need!.harvest!.orders } };
    case 'transplanting': return { ...shared, litres: 0, ...transplantStop(need!, group.basin, visitOfSource) };
  }
}

export function fillingStop(feed: Feed | undefined, drainTo: string | undefined): Pick<DraftStop, 'litres' | 'effect' | 'feed'> {
  if (feed === undefined) throw new Error('a filling stop needs a feed');
  const drawL = Object.fromEntries(feed.draws.map(({ from, litres }) => [from.source.id, litres]));
  const drawMmol = Object.fromEntries(feed.draws.map(({ from, litres }) => [from.source.id, scaleComposition(from.mmolPerL, litres)]));
  const litres = feed.drainL + feed.draws.reduce((sum, draw) => sum + draw.litres, 0);
  return { feed, litres, effect: { kind: 'filling', drainL: feed.drainL, ...(drainTo === undefined ? {} : { drainTo }), drawL, drawMmol, resultMmolPerL: feed.after.mmolPerL as Record<string, number>, resultVolumeL: feed.after.volumeL } };
}

function transplantStop(need: NeedDraft, basin: string, visitOfSource: ReadonlyMap<string, string>): Pick<DraftStop, 'plants' | 'effect' | 'after' | 'move'> {
  const move = need.move!;
  const isSource = move.fromBasin === basin;
  const plants = isSource ? move.plants : move.targets.find((target) => target.basin === basin)!.plants;
  const effect: StopEffect = { kind: 'transplanting', lot: move.lot, ...(move.fromBasin === undefined ? {} : { fromBasin: move.fromBasin }), toBasin: basin, stage: move.stage, plants, crop: move.crop, sown: move.sown };
  const source = move.fromBasin === undefined ? undefined : visitOfSource.get(move.fromBasin);
  return { plants, effect, move, ...(isSource || source === undefined ? {} : { after: [{ visit: source, stop: 0 }] }) };
}
