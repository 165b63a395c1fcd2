/** Small changes of an order of trips. Each writes the changed order and returns its first changed position, or -1. */
import type { SeededRandom } from './seededRandom.ts';
import type { TripDecoder } from './tripDecoder.ts';

export interface OrderDraft {
  readonly order: Int32Array;
  length: number;
  /** A gene that was set: which list, which leg, its value before. */
  gene: { readonly list: Int16Array; readonly leg: number; readonly before: number } | undefined;
}

/** Takes the trip at `from` out and puts it in at `to`. */
export function shiftTrip(draft: OrderDraft, from: number, to: number): number {
  const { order } = draft;
  const visit = order[from] as number;
  if (from < to) order.copyWithin(from, from + 1, to + 1);
  else order.copyWithin(to + 1, to, from);
  order[to] = visit;
  return Math.min(from, to);
}

export function swapTrips(draft: OrderDraft, a: number, b: number): number {
  const { order } = draft;
  const visit = order[a] as number;
  if (visit === order[b]) return -1;
  order[a] = order[b] as number;
  order[b] = visit;
  return Math.min(a, b);
}

/** Moves all trips of the visit at position `at` by the same distance. */
export function shiftVisit(draft: OrderDraft, at: number, by: number): number {
  const { order, length } = draft;
  const visit = order[at] as number;
  const own: number[] = [];
  for (let i = 0; i < length; i++) if (order[i] === visit) own.push(i);
  let first = length;
  const sequence = by < 0 ? own : own.reverse();
  for (const from of sequence) {
    const to = Math.max(0, Math.min(length - 1, from + by));
    first = Math.min(first, shiftTrip(draft, from, to));
  }
  return first;
}

/** After the return at position `at` the visit begins whose basin stands nearest of those that begin later: the vehicle is there anyway. */
export function followReturn(draft: OrderDraft, { model }: TripDecoder, at: number): number {
  const { order, length } = draft;
  const visit = order[at] as number;
  if (order.subarray(at + 1, length).includes(visit)) return -1;
  const home = (model.startLocation[visit] as number) * model.locationCount;
  const begun = new Set(order.subarray(0, at + 1));
  let nearest = -1;
  let leastS = Infinity;
  for (let i = at + 1; i < length; i++) {
    const other = order[i] as number;
    if (begun.has(other)) continue;
    begun.add(other);
    const wayS = model.emptyS[home + (model.startLocation[other] as number)] as number;
    if (wayS >= leastS) continue;
    leastS = wayS;
    nearest = i;
  }
  return nearest <= at + 1 ? -1 : shiftVisit(draft, nearest, at + 1 - nearest);
}

/** Two visits change places: the first trip of one goes where the first of the other was, and so on as far as both go. */
export function swapVisits(draft: OrderDraft, a: number, b: number): number {
  const { order, length } = draft;
  const one = order[a] as number;
  const other = order[b] as number;
  if (one === other) return -1;
  const ones: number[] = [];
  const others: number[] = [];
  for (let i = 0; i < length; i++) {
    if (order[i] === one) ones.push(i);
    else if (order[i] === other) others.push(i);
  }
  for (let i = 0; i < Math.min(ones.length, others.length); i++) {
    order[ones[i] as number] = other;
    order[others[i] as number] = one;
  }
  return Math.min(ones[0] as number, others[0] as number);
}

/** Ties the leg at `position` to an alternative or a vehicle, or unties it. */
export function changeGene(draft: OrderDraft, decoder: TripDecoder, random: SeededRandom, position: number): number {
  const { model } = decoder;
  const visit = draft.order[position] as number;
  let leg = (model.legBase[visit + 1] as number) - 1;
  for (let i = position + 1; i < draft.length; i++) if (draft.order[i] === visit) leg--;
  const choices = (model.altBase[leg + 1] as number) - (model.altBase[leg] as number);
  const ofStation = choices > 1 && random.below(2) === 0;
  const count = ofStation ? choices : model.vehicleCount;
  if (count < 2) return -1;
  const list = ofStation ? decoder.alternativeGene : decoder.vehicleGene;
  const before = list[leg] as number;
  const value = random.below(count + 1) - 1;
  if (value === before) return -1;
  list[leg] = value;
  draft.gene = { list, leg, before };
  return position;
}

/** Puts the legs of a visit in: the first at `at`, the others a few trips apart. */
export function insertVisit(draft: OrderDraft, random: SeededRandom, visit: number, legs: number, at: number): number {
  let position = at;
  for (let leg = 0; leg < legs; leg++) {
    draft.order[draft.length++] = visit;
    shiftTrip(draft, draft.length - 1, Math.min(position, draft.length - 1));
    position += 1 + random.below(6);
  }
  return at;
}

/** Takes all trips of the visit out. */
export function removeVisit(draft: OrderDraft, visit: number): number {
  let first = -1;
  let kept = 0;
  for (let i = 0; i < draft.length; i++) {
    if (draft.order[i] === visit) {
      if (first < 0) first = i;
      continue;
    }
    draft.order[kept++] = draft.order[i] as number;
  }
  draft.length = kept;
  return first;
}
