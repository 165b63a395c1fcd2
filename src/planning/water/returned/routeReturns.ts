import type { LinearSolver } from '../../solver/linearModel.ts';
import { bestFlows } from '../../solver/pooling/poolingPoint.ts';
import { solvePooling } from '../../solver/pooling/solvePooling.ts';
import type { PoolingAnswer } from '../../solver/pooling/poolingProblem.ts';
import { routeWords } from './routeWords.ts';
import type { ReturnBatch } from './returnBatches.ts';
import { routingNetwork, type RoutingNetwork } from './routingNetwork.ts';
import type { BatchPlaces, RouteCosts, RoutingQuestion } from './routingQuestion.ts';

/** Where the solution goes that is drained from a basin. */
export interface DrainRoute {
  readonly basin: string;
  readonly litres: number;
  /** Return tank; absent: discharged. */
  readonly to: string | undefined;
  readonly title: string;
  readonly reason: string;
  /** Set where the batch may not be discharged by the permit and no tank takes it. */
  readonly violation?: string;
}

export interface ReturnRouting {
  readonly routes: readonly DrainRoute[];
  /** Cost of the coming days' feeds, of what is discharged and of what is kept, with these routes. */
  readonly cost: number;
  /** No way to split the groups of like batches over tanks and discharge costs less. */
  readonly lowerBound: number;
  readonly status: PoolingAnswer['status'];
}

/** Boxes of the search at most, and batches that are tried one by one: a plan is made while somebody waits. */
const MOST_BOXES = 15;
const MOST_TRIED = 8;
const GAP = 2e-3;

/**
 * Where each batch goes: the pooling problem of today's batches, tanks and the coming days' feeds, solved with its groups of
 * like batches divisible, then each batch given whole to where most of its group is wanted, and moved while that saves
 * anything. The permit's nitrate limits are limits of this network and not of the mix of a feed: how much has to be drained
 * is a matter of the crop's bands, whatever becomes of it, and a batch over the limit is still fit for a tank.
 */
export function routeReturns(question: RoutingQuestion, solver: LinearSolver): ReturnRouting {
  const { batches, tanks } = question;
  if (batches.length === 0) return { routes: [], cost: 0, lowerBound: 0, status: 'optimal' };
  const network = routingNetwork(question);
  const isOpen = batches.some(({ approved }) => approved === undefined);
  const found = isOpen ? solvePooling(network.problem, solver, { maxNodes: MOST_BOXES, relativeGap: GAP, effort: 'quick' }) : undefined;
  const places = wholeBatches(network, found);
  const tried = [...places.keys()].filter((batch) => batch.approved === undefined).sort((a, b) => b.litres - a.litres || (a.basin < b.basin ? -1 : 1)).slice(0, tanks.length === 0 ? 0 : MOST_TRIED);
  const costs = settle(network, places, tried, solver);
  const cost = costOf(network, places, solver);
  const routes = batches.map((batch) => {
    const tank = tanks[places.get(batch)!];
    return { basin: batch.basin, litres: batch.litres, to: tank?.source.id, title: tank?.source.title ?? 'discharge', ...routeWords(question, batch, places, costs.get(batch)) };
  });
  return { routes, cost, lowerBound: Math.min(found?.lowerBound ?? cost, cost), status: found?.status ?? 'optimal' };
}

/** Each batch of a group goes whole to where most of what the group sends is still uncovered and there is room. */
function wholeBatches({ problem, groups, tanks }: RoutingNetwork, found: PoolingAnswer | undefined): BatchPlaces {
  const places: BatchPlaces = new Map();
  const through = tanks.map((_, l) => problem.outOfPool.reduce((sum, { pool }, b) => sum + (pool === l ? found?.flow[b] ?? 0 : 0), 0));
  const roomL = tanks.map(({ source, heldL }) => source.capacityL - heldL);
  const put = (batch: ReturnBatch, place: number) => { places.set(batch, place); if (place < tanks.length) roomL[place]! -= batch.litres; };
  for (const { batches, approved } of groups) if (approved !== undefined) for (const batch of batches) put(batch, approved.to === undefined ? tanks.length : tanks.findIndex(({ source }) => source.id === approved.to));
  groups.forEach(({ batches, litres, approved }, i) => {
    if (approved !== undefined) return;
    const wantedL = tanks.map((_, l) => 1000 * problem.intoPool.reduce((sum, arc, a) => sum + (arc.source === i && arc.pool === l ? (found?.share[a] ?? 0) * through[l]! : 0), 0));
    wantedL.push(litres - wantedL.reduce((sum, each) => sum + each, 0));
    for (const batch of batches) {
      const place = wantedL.map((wanted, l) => ({ wanted, l })).filter(({ l }) => l === tanks.length || roomL[l]! >= batch.litres).sort((a, b) => b.wanted - a.wanted || a.l - b.l)[0]!.l;
      wantedL[place]! -= batch.litres;
      put(batch, place);
    }
  });
  // Approved into a tank that is no longer there: to discharge.
  for (const [batch, place] of places) if (place < 0) places.set(batch, tanks.length);
  return places;
}

/** What everything costs with the batches where they are: the shares in the tanks are known then, and the rest is linear. */
function costOf({ problem, groups, tanks, contentsOf }: RoutingNetwork, places: BatchPlaces, solver: LinearSolver): number {
  const m3 = problem.intoPool.map(({ source, pool }) => {
    const group = groups[source];
    if (group === undefined) return contentsOf[pool] === source ? problem.sources[source]!.most : 0;
    return group.batches.reduce((sum, batch) => sum + (places.get(batch) === pool ? batch.litres / 1000 : 0), 0);
  });
  const totals = tanks.map((_, l) => problem.intoPool.reduce((sum, { pool }, a) => sum + (pool === l ? m3[a]! : 0), 0));
  if (totals.some((total, l) => total > problem.pools[l]!.capacity + 1e-9)) return Infinity;
  const share = Float64Array.from(m3, (each, a) => { const total = totals[problem.intoPool[a]!.pool]!; return total > 0 ? each / total : 0; });
  return bestFlows(problem, share, solver)?.cost ?? Infinity;
}

/** Moves batches while that saves anything; cost of every place for each batch that was tried, the others staying where they are. */
function settle(network: RoutingNetwork, places: BatchPlaces, tried: readonly ReturnBatch[], solver: LinearSolver): Map<ReturnBatch, RouteCosts> {
  const costs = new Map<ReturnBatch, RouteCosts>();
  let best = costOf(network, places, solver);
  for (const batch of tried) {
    const here = places.get(batch)!;
    const at = Array.from({ length: network.tanks.length + 1 }, (_, place) => (place === here ? best : costOf(network, new Map(places).set(batch, place), solver)));
    const cheapest = at.reduce((least, cost, place) => (cost < at[least]! - 1e-6 ? place : least), here);
    places.set(batch, cheapest);
    best = at[cheapest]!;
    costs.set(batch, at);
  }
  return costs;
}
