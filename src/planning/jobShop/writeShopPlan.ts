import type { JobShopProblem } from './jobShopProblem.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';
import type { PlannedMove, PlannedOperation, ShopPlan } from './shopPlan.ts';
import { timeOrder, type OrderTimes } from './timeOrder.ts';

const NOTHING: ShopOrder = { tokens: new Int32Array(0), alternative: new Int32Array(0), vehicle: new Int32Array(0) };

/** The plan in the words and the unit of the problem. Where ticks are not exact the times are computed anew from the problem's own numbers. */
export function writeShopPlan(problem: JobShopProblem, model: ShopModel, found: ShopOrder | undefined, boundTicks: number): ShopPlan {
  const order = found ?? NOTHING;
  const { times, perUnit } = timesOf(problem, model, order);
  const makespan = times.makespan / perUnit;
  const lowerBound = Math.min(makespan, model.isExact ? boundTicks / perUnit : roundedDownBound(model, boundTicks));
  return { makespan, lowerBound, proven: lowerBound === makespan, operations: operationsOf(problem, model, order, times, perUnit), moves: movesOf(problem, model, order, times, perUnit) };
}

function timesOf(problem: JobShopProblem, model: ShopModel, order: ShopOrder): { times: OrderTimes; perUnit: number } {
  if (model.isExact) return { times: timeOrder(model, order, model.altTicks, model.travel), perUnit: model.ticksPerUnit };
  const durations = problem.jobs.flatMap((job) => job.operations.flatMap(({ alternatives }) => alternatives.map(({ duration }) => duration)));
  const travel = problem.vehicles > 0 ? problem.travelTime.flatMap((row, from) => row.map((units, to) => (from === to ? 0 : units))) : model.travel;
  return { times: timeOrder(model, order, durations, travel), perUnit: 1 };
}

/** Each duration and move was rounded up by less than a tick, and a plan's longest chain has at most three of them an operation. */
const roundedDownBound = (model: ShopModel, boundTicks: number): number => Math.max(0, (boundTicks - 3 * model.count - 1) / model.ticksPerUnit);

function operationsOf(problem: JobShopProblem, model: ShopModel, order: ShopOrder, times: OrderTimes, perUnit: number): PlannedOperation[] {
  return Array.from({ length: model.count }, (_, o) => {
    const j = model.jobOf[o]!;
    return { job: problem.jobs[j]!.id, index: o - model.jobFirst[j]!, at: problem.locations[model.altPlace[order.alternative[o]!]!]!, start: times.start[o]! / perUnit, end: times.end[o]! / perUnit };
  });
}

/** In order of departure; of moves that take no time and begin at the same moment, a vehicle's first comes first. */
function movesOf(problem: JobShopProblem, model: ShopModel, order: ShopOrder, times: OrderTimes, perUnit: number): PlannedMove[] {
  if (model.vehicles === 0) return [];
  const inOrder = Array.from(order.tokens).filter((token) => (token & 1) === 0).map((token) => token >> 1);
  const moves = inOrder.flatMap((o): PlannedMove[] => {
    const j = model.jobOf[o]!;
    const from = o === model.jobFirst[j] ? model.startPlace : model.altPlace[order.alternative[o - 1]!]!;
    const to = model.altPlace[order.alternative[o]!]!;
    return from === to ? [] : [{ job: problem.jobs[j]!.id, from: problem.locations[from]!, to: problem.locations[to]!, vehicle: order.vehicle[o]!, depart: times.depart[o]! / perUnit, arrive: times.arrive[o]! / perUnit }];
  });
  return moves.sort((a, b) => a.depart - b.depart || a.arrive - b.arrive);
}
