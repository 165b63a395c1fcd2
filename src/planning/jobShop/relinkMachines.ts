import { startRandom } from '../../science/seededRandom.ts';
import { jobPaths } from './jobPaths.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopSearch } from './shopSearch.ts';
import { tabuMachines } from './tabuMachines.ts';

const PATIENCE = 12_500;
const SMALLEST_GROUP = 6;
const LARGEST_GROUP = 30;

interface Elite { readonly ticks: number; readonly order: Int32Array }

/**
 * Job shop with one machine an operation and no moves: a group of good plans, each the end of a tabu walk; then walks from between two of
 * them, whose end takes the worst one's place where it is better (after Peng, Lu & Cheng 2015, Computers & Operations Research 53:154-164).
 * Between: operations sorted by the mean of their positions in both, which keeps every order that the two agree on and never closes a circle.
 * When a group brings nothing more, a larger one is begun. One step is one move.
 */
export function relinkMachines(model: ShopModel, seed: number): ShopSearch {
  const random = startRandom(seed);
  const walk = tabuMachines(model, random);
  const { count } = model;
  const { operationTail } = jobPaths(model);
  let group: Elite[] = [];
  let groupSize = SMALLEST_GROUP;
  let [fruitless, isWalking, isShortest] = [0, false, false];
  let best: Elite | undefined;

  function start(): void {
    walk.begin(group.length < groupSize ? randomOrder() : between());
    isWalking = true;
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

  function between(): Int32Array {
    const first = random.below(group.length);
    const second = (first + 1 + random.below(group.length - 1)) % group.length;
    const share = 0.35 + 0.3 * random.uniform();
    const key = new Float64Array(count);
    group[first]!.order.forEach((o, i) => { key[o] = key[o]! + (1 - share) * i; });
    group[second]!.order.forEach((o, i) => { key[o] = key[o]! + share * i; });
    return Int32Array.from({ length: count }, (_, o) => o).sort((a, b) => key[a]! - key[b]! || a - b);
  }

  function end(): void {
    isWalking = false;
    const found: Elite = { ticks: walk.bestTicks(), order: walk.bestOrder.slice() };
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
    if (best === undefined || walk.bestTicks() < best.ticks) best = { ticks: walk.bestTicks(), order: walk.bestOrder.slice() };
  }

  return {
    run(steps, isStopped) {
      for (let i = 0; i < steps && !isShortest; i += 1) {
        if ((i & 127) === 0 && isStopped()) return;
        if (!isWalking) { start(); keep(); }
        if (!walk.move()) isShortest = true;
        if (walk.movesSinceBest() === 0) keep();
        if (walk.movesSinceBest() > PATIENCE) end();
      }
    },
    best: () => (best === undefined ? undefined : { ticks: best.ticks, order: { tokens: tokensOf(best.order), alternative: Int32Array.from({ length: count }, (_, o) => o), vehicle: new Int32Array(count) } }),
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
