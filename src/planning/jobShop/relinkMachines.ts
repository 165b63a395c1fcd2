import { startRandom } from '../../science/seededRandom.ts';
import { dispatchShop } from './dispatchShop.ts';
import { jobPaths } from './jobPaths.ts';
import { sharedBound } from './sharedBound.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopSearch } from './shopSearch.ts';
import { tabuMachines } from './tabuMachines.ts';

/** Moves without a better plan after which a walk ends; with alternatives many short walks find more than few long ones. */
const PATIENCE = 12_500, PATIENCE_WITH_CHOICES = 3_000;
const SMALLEST_GROUP = 6;
const LARGEST_GROUP = 30;

interface Elite { readonly ticks: number; readonly order: Int32Array; readonly alternative: Int32Array }

/**
 * Job shop without moves: a group of good plans, each the end of a tabu walk; then walks from between two of
 * them, whose end takes the worst one's place where it is better (after Peng, Lu & Cheng 2015, Computers & Operations Research 53:154-164).
 * Between: operations sorted by the mean of their positions in both, which keeps every order that the two agree on and never closes a circle.
 * Each operation's machine is from one of the two. When a group brings nothing more, a larger one is begun. One step is one move.
 */
export function relinkMachines(model: ShopModel, seed: number): ShopSearch {
  const random = startRandom(seed);
  const walk = tabuMachines(model, random);
  const { count, altFirst, altPlace } = model;
  const { operationTail } = jobPaths(model);
  const only = Int32Array.from(altFirst.subarray(0, count)), hasChoices = altPlace.length > count, patience = hasChoices ? PATIENCE_WITH_CHOICES : PATIENCE;
  let group: Elite[] = [];
  let groupSize = SMALLEST_GROUP;
  let [fruitless, isWalking, isShortest] = [0, false, false];
  let best: Elite | undefined;
  let choices: readonly Int32Array[] | undefined;
  let isShared = seed % 2 === 1;

  function start(): void {
    if (group.length >= groupSize) between();
    else if (hasChoices) first();
    else walk.begin(randomOrder(), only);
    isWalking = true;
  }

  /** Every second one with the alternatives that share the loads well, each job's from a choice of its own. */
  function first(): void {
    isShared = !isShared;
    if (isShared) choices ??= sharedBound(model, jobPaths(model), jobPaths(model).longestJob).choices;
    const jobChoice = Array.from({ length: isShared ? model.jobs : 0 }, () => choices![random.below(choices!.length)]!);
    const { tokens, alternative } = dispatchShop(model, random, isShared ? only.map((_, o) => jobChoice[model.jobOf[o]!]![o]!) : undefined);
    walk.begin(tokens.filter((token) => (token & 1) === 1).map((token) => token >> 1), alternative);
  }

  /** Whichever job has much left and some luck goes next. */
  function randomOrder(): Int32Array {
    const urgency = Float64Array.from({ length: count }, (_, o) => -operationTail[o]! * (0.5 + random.uniform()));
    return sortedBy((a, b) => urgency[a]! - urgency[b]!);
  }

  /** Lists operations by rule among those whose job predecessor is listed. */
  function sortedBy(rule: (a: number, b: number) => number): Int32Array {
    const order = new Int32Array(count);
    const ready: number[] = Array.from(model.jobFirst.subarray(0, model.jobs)).filter((o, j) => o < model.jobFirst[j + 1]!);
    for (let i = 0; i < count; i += 1) {
      let pick = 0;
      for (let k = 1; k < ready.length; k += 1) if (rule(ready[k]!, ready[pick]!) < 0) pick = k;
      const o = order[i] = ready[pick]!;
      if (o + 1 < model.jobFirst[model.jobOf[o]! + 1]!) ready[pick] = o + 1;
      else ready.splice(pick, 1);
    }
    return order;
  }

  function between(): void {
    const one = group[random.below(group.length)]!;
    const others = group.filter((other) => other !== one), other = others[random.below(others.length)]!;
    const share = 0.35 + 0.3 * random.uniform();
    const key = new Float64Array(count);
    one.order.forEach((o, i) => { key[o] = key[o]! + (1 - share) * i; });
    other.order.forEach((o, i) => { key[o] = key[o]! + share * i; });
    const order = Int32Array.from({ length: count }, (_, o) => o).sort((a, b) => key[a]! - key[b]! || a - b);
    walk.begin(order, hasChoices ? one.alternative.map((a, o) => (random.uniform() < share ? other.alternative[o]! : a)) : only);
  }

  function end(): void {
    isWalking = false;
    const found: Elite = { ticks: walk.bestTicks(), order: walk.bestOrder.slice(), alternative: walk.bestAlternative.slice() };
    if (group.length < groupSize) { group.push(found); return; }
    const worst = group.reduce((w, one, i) => (one.ticks >= group[w]!.ticks ? i : w), 0);
    const isNew = found.ticks <= group[worst]!.ticks && !group.some((one) => one.ticks === found.ticks && one.order.every((o, i) => o === found.order[i]));
    if (isNew && found.ticks < group[worst]!.ticks) fruitless = 0;
    else fruitless += 1;
    if (isNew) group[worst] = found;
    if (fruitless <= 2 * groupSize) return;
    group = [];
    groupSize = Math.min(LARGEST_GROUP, Math.ceil(groupSize * 1.6));
    fruitless = 0;
  }

  function keep(): void {
    if (best === undefined || walk.bestTicks() < best.ticks) best = { ticks: walk.bestTicks(), order: walk.bestOrder.slice(), alternative: walk.bestAlternative.slice() };
  }

  return {
    run(steps, isStopped) {
      for (let i = 0; i < steps && !isShortest; i += 1) {
        if ((i & 127) === 0 && isStopped()) return;
        if (!isWalking) { start(); keep(); }
        const isStuck = !walk.move();
        if (isStuck && !hasChoices) isShortest = true;
        if (walk.movesSinceBest() === 0) keep();
        if (isStuck || walk.movesSinceBest() > patience) end();
      }
    },
    best: () => (best === undefined ? undefined : { ticks: best.ticks, order: { tokens: tokensOf(best.order), alternative: best.alternative, vehicle: new Int32Array(count) } }),
    boundTicks: () => (isShortest ? best!.ticks : 0),
    hearOf: () => undefined,
    isFinished: () => isShortest,
  };
}

function tokensOf(order: Int32Array): Int32Array {
  const tokens = new Int32Array(2 * order.length);
  order.forEach((o, i) => { tokens[2 * i] = 2 * o; tokens[2 * i + 1] = 2 * o + 1; });
  return tokens;
}
