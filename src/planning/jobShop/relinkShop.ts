import { startRandom } from '../../science/seededRandom.ts';
import { dispatchShop } from './dispatchShop.ts';
import { dispatchVehicles, drawWeights, type DispatchWeights } from './dispatchVehicles.ts';
import { jobPaths } from './jobPaths.ts';
import { sharedBound } from './sharedBound.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';
import type { ShopSearch } from './shopSearch.ts';
import { tabuShop } from './tabuShop.ts';

const PATIENCE = 2000;
const SMALLEST_GROUP = 5;
const LARGEST_GROUP = 24;

/** With vehicles, the best of so many dispatched plans is where a walk begins. */
const DISPATCHED = 40;

interface Elite { readonly ticks: number; readonly order: ShopOrder }

/**
 * A group of good plans, each the end of a tabu walk; then walks from between two of them, whose end takes the worst one's place where it is better
 * (path relinking, after Peng, Lu & Cheng 2015, Computers & Operations Research 53:154-164). Between: everything sorted by the mean of its positions in
 * both, each operation's alternative and vehicle from one of the two. When a group brings nothing more, a larger one is begun. One step is as much
 * work as one plan.
 */
export function relinkShop(model: ShopModel, seed: number): ShopSearch {
  const random = startRandom(seed);
  const { count } = model;
  const walk = tabuShop(model, random);
  let group: Elite[] = [];
  let [groupSize, fruitless, isWalking, left] = [SMALLEST_GROUP, 0, false, 0];
  let best: Elite | undefined;
  let choices: readonly Int32Array[] | undefined;
  let isShared = seed % 2 === 1;
  let dispatched: (Elite & { readonly weights: DispatchWeights }) | undefined, tries = 0;
  const dispatchSteps = 0.3 * model.jobs * (model.vehicles + model.altPlace.length / Math.max(1, count));

  function start(): void {
    if (group.length >= groupSize) { walkFrom(between()); return; }
    if (model.vehicles === 0) { walkFrom(first()); return; }
    dispatchOne();
    if (tries < DISPATCHED) return;
    const { order } = dispatched!;
    [dispatched, tries] = [undefined, 0];
    walkFrom(order);
  }

  function walkFrom(order: ShopOrder): void {
    walk.begin(order);
    isWalking = true;
    left -= 4;
    keep();
  }

  /** Another dispatched plan, with weights near the best ones so far or anywhere. */
  function dispatchOne(): void {
    const weights = drawWeights(random, tries % 3 === 0 ? undefined : dispatched?.weights);
    const plan = dispatchVehicles(model, weights);
    tries += 1;
    left -= dispatchSteps;
    if (dispatched === undefined || plan.ticks < dispatched.ticks) dispatched = { ...plan, weights };
    if (best === undefined || plan.ticks < best.ticks) best = plan;
  }

  /** Every second one with the alternatives that share the loads well, each job's from a choice of its own. */
  function first(): ShopOrder {
    isShared = !isShared;
    if (!isShared || model.altPlace.length === count) return dispatchShop(model, random);
    choices ??= sharedBound(model, jobPaths(model), jobPaths(model).longestJob).choices;
    const jobChoice = Array.from({ length: model.jobs }, () => choices![random.below(choices!.length)]!);
    return dispatchShop(model, random, Int32Array.from({ length: count }, (_, o) => jobChoice[model.jobOf[o]!]![o]!));
  }

  function between(): ShopOrder {
    const one = group[random.below(group.length)]!.order;
    const others = group.filter(({ order }) => order !== one);
    const other = others[random.below(others.length)]!.order;
    const share = 0.35 + 0.3 * random.uniform();
    const key = new Float64Array(2 * count);
    one.tokens.forEach((token, i) => { key[token] = (1 - share) * i; });
    other.tokens.forEach((token, i) => { key[token]! += share * i; });
    const from = Array.from({ length: count }, () => (random.uniform() < share ? other : one));
    return {
      tokens: Int32Array.from({ length: 2 * count }, (_, token) => token).sort((a, b) => key[a]! - key[b]! || a - b),
      alternative: Int32Array.from(from, ({ alternative }, o) => alternative[o]!),
      vehicle: Int32Array.from(from, ({ vehicle }, o) => vehicle[o]!),
    };
  }

  function end(): void {
    isWalking = false;
    const found: Elite = { ticks: walk.bestTicks(), order: walk.bestOrder() };
    if (group.length < groupSize) { group.push(found); return; }
    const worst = group.reduce((w, { ticks }, i) => (ticks >= group[w]!.ticks ? i : w), 0);
    const isNew = !group.some(({ ticks, order }) => ticks === found.ticks && isSame(order, found.order));
    const isBetter = isNew && found.ticks < group[worst]!.ticks;
    fruitless = isBetter ? 0 : fruitless + 1;
    if (isBetter || (isNew && found.ticks === group[worst]!.ticks)) group[worst] = found;
    if (fruitless <= 2 * groupSize) return;
    group = [];
    groupSize = Math.min(LARGEST_GROUP, Math.ceil(groupSize * 1.6));
    fruitless = 0;
  }

  function keep(): void {
    if (best === undefined || walk.bestTicks() < best.ticks) best = { ticks: walk.bestTicks(), order: walk.bestOrder() };
  }

  return {
    run(steps, isStopped) {
      if (count === 0) return;
      for (left += steps; left > 0; ) {
        if (isStopped()) return;
        if (!isWalking) { start(); continue; }
        const work = walk.move();
        left -= Math.max(1, work / (2 * count));
        if (walk.movesSinceBest() === 0) keep();
        if (work === 0 || walk.movesSinceBest() > PATIENCE) end();
      }
    },
    best: () => best,
    boundTicks: () => 0,
    hearOf: () => undefined,
    isFinished: () => count === 0,
  };
}

const isSame = (one: ShopOrder, other: ShopOrder): boolean => one.alternative.every((a, o) => a === other.alternative[o]) && one.tokens.every((token, i) => token === other.tokens[i]);
