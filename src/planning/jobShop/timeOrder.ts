import { bufferFloor } from './bufferFloor.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';

/** Times in the unit of `travel` and `duration`. */
export interface OrderTimes {
  readonly makespan: number;
  readonly depart: Float64Array;
  readonly arrive: Float64Array;
  readonly start: Float64Array;
  readonly end: Float64Array;
}

/** The earliest times of everything in the given order, for durations and travel in any unit (ticks, or the problem's own). */
export function timeOrder(model: ShopModel, order: ShopOrder, durations: ArrayLike<number>, travel: ArrayLike<number>): OrderTimes {
  if (model.buffers !== undefined) return timeBuffered(model, order, durations, travel);
  const { count, places, jobOf, jobFirst, altPlace, startPlace } = model;
  const [depart, arrive, start, end] = [new Float64Array(count), new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  const placeFree = new Float64Array(places);
  const vehicleFree = new Float64Array(Math.max(1, model.vehicles));
  const vehicleAt = new Int32Array(vehicleFree.length).fill(startPlace);
  let makespan = 0;
  for (const token of order.tokens) {
    const o = token >> 1;
    const isFirst = o === jobFirst[jobOf[o]!];
    const to = altPlace[order.alternative[o]!]!;
    const from = isFirst ? startPlace : altPlace[order.alternative[o - 1]!]!;
    const ready = isFirst ? 0 : end[o - 1]!;
    if ((token & 1) === 1) {
      start[o] = Math.max(arrive[o]!, placeFree[to]!);
      end[o] = placeFree[to] = start[o]! + durations[order.alternative[o]!]!;
      makespan = Math.max(makespan, end[o]!);
    } else if (model.vehicles === 0 || from === to) {
      depart[o] = arrive[o] = ready;
    } else {
      const v = order.vehicle[o]!;
      depart[o] = Math.max(ready, vehicleFree[v]! + travel[vehicleAt[v]! * places + from]!);
      arrive[o] = vehicleFree[v] = depart[o]! + travel[from * places + to]!;
      vehicleAt[v] = to;
    }
  }
  return { makespan, depart, arrive, start, end };
}

function timeBuffered(model: ShopModel, order: ShopOrder, durations: ArrayLike<number>, travel: ArrayLike<number>): OrderTimes {
  const floor = bufferFloor(model, durations, travel);
  floor.clear();
  for (const token of order.tokens) {
    const o = token >> 1;
    const isDone = (token & 1) === 1 ? floor.run(o) : floor.carry(o, order.alternative[o]!, order.vehicle[o]!, order.makesWay?.[o] === 1);
    if (!isDone) throw new Error('the order locks');
  }
  const { depart, arrive, start, end } = floor;
  return { makespan: end.reduce((latest, time) => Math.max(latest, time), 0), depart, arrive, start, end };
}
