import { boundSearch } from './boundSearch.ts';
import type { ConflictSearch } from './conflictSearch.ts';
import { jobPaths } from './jobPaths.ts';
import { shortestWays } from './shortestWays.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';

/** A job shop as clauses and differences, for a search by learning. */
export interface ShopClauses {
  readonly search: ConflictSearch;
  /** Variable: end of the last operation. */
  readonly makespan: number;
  /** The plan of an assignment that was found. */
  readonly readOrder: () => ShopOrder;
}

/** A moment: a variable and ticks after it. */
interface Moment { readonly variable: number; readonly later: number }
/** A literal that always holds. */
const ALWAYS = -1;

/**
 * Variables: start of each operation, departure of each trip, and ends and arrivals where they depend on a choice. Choices: the alternative, the vehicle,
 * and for every two operations that may meet at a place, or trips that may share a vehicle, which comes first. Empty travel counts between any two
 * trips of a vehicle, by the shortest way: where the matrix is no metric, plans may look shorter than they are, never longer, so that what is excluded is
 * excluded. Vehicles are alike, and so may jobs be: they are put in one order. `below`: only plans of fewer ticks.
 */
export function shopClauses(model: ShopModel, below: number): ShopClauses {
  const { count, jobs, jobOf, jobFirst, altFirst, altPlace, altTicks, travel, places, startPlace, vehicles } = model;
  const paths = jobPaths(model);
  const ways = shortestWays(model);
  const search = boundSearch();
  const no = (literal: number): number => literal ^ 1;
  const clause = (...literals: number[]): void => { if (!literals.includes(no(ALWAYS))) search.addClause(literals); };
  /** At least one does not hold. */
  const notAll = (literals: readonly number[], ...then: number[]): void => clause(...literals.filter((l) => l !== ALWAYS).map(no), ...then);
  const follows = (earlier: Moment, later: Moment, ticks: number, when = ALWAYS): void => search.addDifference(earlier.variable, later.variable, earlier.later + ticks - later.later, when);

  const makespan = search.addVariable(paths.longestJob, below - 1);
  const zero: Moment = { variable: search.addVariable(0, 0), later: 0 };
  const alternatives = Array.from({ length: count }, (_, o) => Array.from({ length: altFirst[o + 1]! - altFirst[o]! }, (_v, i) => altFirst[o]! + i));
  const chosen = alternatives.map(chooseOne);
  const starts = Array.from({ length: count }, (_, o): Moment => ({ variable: search.addVariable(paths.operationHead[o]!, below - 1 - paths.shortest[o]! - paths.operationTail[o]!), later: 0 }));
  const ends = starts.map((start, o) => {
    if (alternatives[o]!.length === 1) return { variable: start.variable, later: altTicks[altFirst[o]!]! };
    const end: Moment = { variable: search.addVariable(paths.operationHead[o]! + paths.shortest[o]!, below - 1 - paths.operationTail[o]!), later: 0 };
    follows(start, end, paths.shortest[o]!);
    alternatives[o]!.forEach((a, i) => { if (altTicks[a]! > paths.shortest[o]!) follows(start, end, altTicks[a]!, chosen[o]![i]); });
    return end;
  });
  ends.forEach((end, o) => follows(end, { variable: makespan, later: 0 }, paths.operationTail[o]!));

  const trips = Array.from({ length: count }, (_, o) => o).filter((o) => vehicles > 0 && !(originsOf(o).length === 1 && alternatives[o]!.length === 1 && originsOf(o)[0]!.place === altPlace[altFirst[o]!]));
  const isTrip = new Set(trips);
  const departs = new Map<number, Moment>(), arrives = new Map<number, Moment>(), stays = new Map<number, number>();
  for (let o = 0; o < count; o += 1) addChain(o);
  const rides = new Map(trips.map((o, i) => [o, chooseVehicle(i)]));
  for (let i = 0; i < count; i += 1) for (let j = i + 1; j < count; j += 1) if (jobOf[i] !== jobOf[j]) meetAtPlace(i, j);
  trips.forEach((i, at) => { for (const j of trips.slice(at + 1)) if (jobOf[i] !== jobOf[j]) shareVehicle(i, j); });
  orderAlikeJobs();
  return { search, makespan, readOrder };

  /** A literal for each; exactly one holds. */
  function chooseOne(options: readonly number[]): number[] {
    if (options.length === 1) return [ALWAYS];
    if (options.length === 2) { const x = search.addChoice(); return [2 * x + 1, 2 * x]; }
    const literals = options.map(() => 2 * search.addChoice() + 1);
    clause(...literals);
    literals.forEach((a, i) => { for (const b of literals.slice(i + 1)) notAll([a, b]); });
    return literals;
  }

  function originsOf(o: number): { place: number; when: number }[] {
    if (o === jobFirst[jobOf[o]!]) return [{ place: startPlace, when: ALWAYS }];
    return alternatives[o - 1]!.map((a, i) => ({ place: altPlace[a]!, when: chosen[o - 1]![i]! }));
  }
  function targetsOf(o: number): { place: number; when: number }[] { return alternatives[o]!.map((a, i) => ({ place: altPlace[a]!, when: chosen[o]![i]! })); }

  /** From the end of the operation before, by a trip, to the start. */
  function addChain(o: number): void {
    const ready = o === jobFirst[jobOf[o]!] ? zero : ends[o - 1]!;
    if (!isTrip.has(o)) { follows(ready, starts[o]!, 0); return; }
    const depart: Moment = { variable: search.addVariable(0, below), later: 0 };
    departs.set(o, depart);
    follows(ready, depart, 0);
    const ways2 = originsOf(o).flatMap((from) => targetsOf(o).map((to) => ({ from, to, ticks: travel[from.place * places + to.place]! })));
    const least = Math.min(...ways2.map(({ ticks }) => ticks));
    const arrive: Moment = ways2.length === 1 ? { variable: depart.variable, later: least } : { variable: search.addVariable(0, below), later: 0 };
    arrives.set(o, arrive);
    if (ways2.length > 1) follows(depart, arrive, least);
    for (const { from, to, ticks } of ways2) if (ticks > least) follows(depart, arrive, ticks, both([from.when, to.when]));
    follows(arrive, starts[o]!, 0);
    for (const { place, when } of originsOf(o)) follows(zero, depart, ways[startPlace * places + place]!, when);
    if (!ways2.some(({ from, to }) => from.place === to.place)) return;
    const stay = 2 * search.addChoice() + 1;
    stays.set(o, stay);
    for (const { from, to } of ways2) notAll([from.when, to.when], from.place === to.place ? stay : no(stay));
  }

  /** A literal that holds where all of these do. */
  function both(literals: readonly number[]): number {
    const open = literals.filter((l) => l !== ALWAYS);
    if (open.length < 2) return open[0] ?? ALWAYS;
    const all = 2 * search.addChoice() + 1;
    notAll(open, all);
    return all;
  }

  /** For each vehicle a literal: it makes this trip. The first trip is made by the first vehicle, the second by one of the first two, and so on. */
  function chooseVehicle(index: number): number[] {
    const able = Math.min(vehicles, index + 1);
    const literals = chooseOne(Array.from({ length: able }, (_, k) => k));
    return Array.from({ length: vehicles }, (_, k) => literals[k] ?? no(ALWAYS));
  }

  function meetAtPlace(i: number, j: number): void {
    const common = targetsOf(i).flatMap((a) => targetsOf(j).filter((b) => b.place === a.place).map((b) => [a.when, b.when]));
    if (common.length === 0) return;
    if (common.length === 1 && common[0]!.every((l) => l === ALWAYS)) {
      const x = search.addChoice([starts[i]!.variable, starts[j]!.variable]);
      follows(ends[i]!, starts[j]!, 0, 2 * x + 1);
      follows(ends[j]!, starts[i]!, 0, 2 * x);
      return;
    }
    const [first, second] = eitherFirst();
    follows(ends[i]!, starts[j]!, 0, first);
    follows(ends[j]!, starts[i]!, 0, second);
    for (const literals of common) notAll(literals, first, second);
  }

  function eitherFirst(): [number, number] {
    const [first, second] = [2 * search.addChoice() + 1, 2 * search.addChoice() + 1];
    notAll([first, second]);
    return [first, second];
  }

  function shareVehicle(i: number, j: number): void {
    const stay = [stays.get(i), stays.get(j)].filter((l) => l !== undefined);
    const common = rides.get(i)!.flatMap((a, k) => { const b = rides.get(j)![k]!; return a === no(ALWAYS) || b === no(ALWAYS) ? [] : [[a, b]]; });
    if (common.length === 0) return;
    const [first, second] = eitherFirst();
    driveEmpty(i, j, first);
    driveEmpty(j, i, second);
    for (const literals of common) notAll(literals, first, second, ...stay);
  }

  /** The vehicle goes from where trip i ends to where trip j begins. */
  function driveEmpty(i: number, j: number, when: number): void {
    const pairs = targetsOf(i).flatMap((from) => originsOf(j).map((to) => ({ from, to, ticks: ways[from.place * places + to.place]! })));
    const least = Math.min(...pairs.map(({ ticks }) => ticks));
    follows(arrives.get(i)!, departs.get(j)!, least, when);
    for (const { from, to, ticks } of pairs) if (ticks > least) follows(arrives.get(i)!, departs.get(j)!, ticks, both([when, from.when, to.when]));
  }

  /** Of jobs that are the same in everything, the one named first starts first. */
  function orderAlikeJobs(): void {
    const last = new Map<string, number>();
    for (let j = 0; j < jobs; j += 1) {
      const [first, end] = [jobFirst[j]!, jobFirst[j + 1]!];
      const name = Array.from({ length: end - first }, (_, i) => alternatives[first + i]!.map((a) => `${altPlace[a]!}:${altTicks[a]!}`).join()).join(';');
      const before = last.get(name);
      if (before !== undefined && first < end) follows(starts[before]!, starts[first]!, 0);
      if (first < end) last.set(name, first);
    }
  }

  function readOrder(): ShopOrder {
    const holds = (literal: number): boolean => literal === ALWAYS || (literal !== no(ALWAYS) && ((literal & 1) === 1 ? search.lowOf(literal >> 1) === 1 : search.highOf(literal >> 1) === 0));
    const at = ({ variable, later }: Moment): number => search.lowOf(variable) + later;
    const alternative = Int32Array.from(alternatives, (options, o) => options[chosen[o]!.findIndex(holds)]!);
    const vehicle = Int32Array.from({ length: count }, (_, o) => Math.max(0, rides.get(o)?.findIndex(holds) ?? 0));
    const tokens = Int32Array.from({ length: 2 * count }, (_, token) => token).sort((a, b) => from(a) - from(b) || to(a) - to(b) || a - b);
    return { tokens, alternative, vehicle };

    function from(token: number): number { const o = token >> 1; return (token & 1) === 1 ? at(starts[o]!) : isTrip.has(o) ? at(departs.get(o)!) : ready(o); }
    function to(token: number): number { const o = token >> 1; return (token & 1) === 1 ? at(ends[o]!) : isTrip.has(o) ? at(arrives.get(o)!) : ready(o); }
    function ready(o: number): number { return o === jobFirst[jobOf[o]!] ? 0 : at(ends[o - 1]!); }
  }
}
