import { dualBound } from '../dualBound.ts';
import type { LinearSolution, LinearSolver } from '../linearModel.ts';
import { withBound, wholeBox, type PoolingBox } from './poolingBox.ts';
import { bestFlows, bestShares, normalised, type PoolingPoint } from './poolingPoint.ts';
import type { PoolingAnswer, PoolingProblem } from './poolingProblem.ts';
import { relaxPooling, type PoolingRelaxation } from './poolingRelaxation.ts';
import { successiveShares } from './successiveShares.ts';
import { tightenBox } from './tightenBox.ts';

interface PoolingLimits {
  /** Boxes at most; counted and not timed, so that the answer is the same on every machine. */
  readonly maxNodes: number;
  /** Proven when cost - bound <= this x the larger of 1 and |cost|. */
  readonly relativeGap: number;
  /** `proof`: bounds tightened at each box, many starts, successive programmes: few boxes, many programmes. `quick`: none of these. */
  readonly effort: 'proof' | 'quick';
}

const PROOF: PoolingLimits = { maxNodes: 20_000, relativeGap: 1e-6, effort: 'proof' };
/** Alternating programmes from one point at most. */
const ALTERNATIONS = 8;
const SUCCESSIVE_EVERY = 8;
/** A box is cut no nearer to its edge than this share of its width. */
const CUT_MARGIN = 0.15;

/**
 * Global optimum of a pooling problem by spatial branch and bound: bounds from the pq-relaxation of each box (from its dual
 * prices, so that the solver's tolerance cannot make a bound too good), answers from alternating linear programmes, boxes cut
 * where share x flow is furthest from what the relaxation took it for, best bound first. Deterministic. The lower bound that
 * is returned holds whether or not the nodes sufficed.
 */
export function solvePooling(problem: PoolingProblem, solver: LinearSolver, limits: Partial<PoolingLimits> = {}): PoolingAnswer {
  const search: Search = { problem, solver: counted(solver), limits: { ...PROOF, ...limits }, best: undefined, nodes: 0 };
  const root = openBox(search, wholeBox(problem), -Infinity);
  if (root !== undefined) for (const share of plainStarts(problem).slice(0, search.limits.effort === 'quick' ? 1 : undefined)) { if (isSettled(search, root.bound)) break; improve(search, share); }
  if (root === undefined) return answer(search, search.best?.cost ?? Infinity);
  const open = [isSettled(search, root.bound) ? root : tightened(search, root, 3)].filter((node) => node !== undefined);
  let closedBound = Infinity;
  while (open.length > 0) {
    const node = takeLowest(open);
    if (isSettled(search, node.bound)) { closedBound = Math.min(closedBound, node.bound); break; }
    if (search.nodes >= search.limits.maxNodes) { open.push(node); break; }
    for (const box of cut(problem, node)) {
      const child = openBox(search, box, node.bound);
      if (child === undefined) continue;
      if (isSettled(search, child.bound)) { closedBound = Math.min(closedBound, child.bound); continue; }
      const again = tightened(search, child, 1);
      if (again === undefined) continue;
      if (isSettled(search, again.bound)) closedBound = Math.min(closedBound, again.bound); else open.push(again);
    }
  }
  const bound = open.reduce((least, node) => Math.min(least, node.bound), Math.min(closedBound, search.best?.cost ?? Infinity));
  return answer(search, bound);
}

interface Search {
  readonly problem: PoolingProblem;
  readonly solver: LinearSolver & { readonly count: () => number };
  readonly limits: PoolingLimits;
  best: PoolingPoint | undefined;
  nodes: number;
}

interface Node { readonly box: PoolingBox; readonly bound: number; readonly relaxation: PoolingRelaxation; readonly solved: LinearSolution }

function counted(solver: LinearSolver): LinearSolver & { count: () => number } {
  let count = 0;
  return { name: solver.name, version: solver.version, count: () => count, solve: (model, limits) => { count += 1; return solver.solve(model, limits); } };
}

const gapOf = ({ best, limits }: Search): number => limits.relativeGap * Math.max(1, Math.abs(best?.cost ?? 0));
const isSettled = (search: Search, bound: number): boolean => search.best !== undefined && bound >= search.best.cost - gapOf(search);

/** Bounds a box and looks for an answer near what its relaxation wants; absent where the box holds no answer. */
function openBox(search: Search, box: PoolingBox, above: number): Node | undefined {
  const { problem, solver } = search;
  search.nodes += 1;
  const relaxation = relaxPooling(problem, box);
  const solved = solver.solve(relaxation);
  if (solved.status === 'infeasible') return undefined;
  const bound = Math.max(above, solved.status === 'optimal' ? dualBound(relaxation, solved.rowDual) : -Infinity);
  if (solved.status === 'optimal' && !isSettled(search, bound)) lookNear(search, relaxation, solved, bound);
  return { box, bound, relaxation, solved };
}

/** An answer near what a relaxation wants; by successive programmes in some boxes only, for they take several each. */
function lookNear(search: Search, relaxation: PoolingRelaxation, solved: LinearSolution, bound: number): void {
  const { problem, solver } = search;
  const share = throughputShares(problem, relaxation, solved);
  improve(search, share);
  if (search.limits.effort === 'quick' || search.nodes % SUCCESSIVE_EVERY !== 1 || isSettled(search, bound)) return;
  const flow = solved.columnValue.slice(relaxation.firstFlow, relaxation.firstFlow + problem.outOfPool.length);
  const settled = successiveShares(problem, share, flow, solver);
  if (settled !== undefined) improve(search, normalised(problem, settled, share));
}

/** A box once more on bounds narrowed by the best answer so far, as long as that helps. */
function tightened(search: Search, found: Node, rounds: number): Node | undefined {
  let node = found;
  if (search.limits.effort === 'quick') return node;
  for (let round = 0; round < rounds && search.best !== undefined; round += 1) {
    const box = tightenBox(search.problem, node.box, search.best.cost, search.solver);
    if (box === undefined) return undefined;
    const again = openBox(search, box, node.bound);
    if (again === undefined) return undefined;
    const gain = again.bound - node.bound;
    node = again;
    if (isSettled(search, node.bound) || gain < 0.1 * (search.best.cost - node.bound)) break;
  }
  return node;
}

/** Alternating programmes from given shares; keeps the best answer. */
function improve(search: Search, start: Float64Array): void {
  const { problem, solver } = search;
  let share: Float64Array | undefined = start;
  let last = Infinity;
  for (let round = 0; round < ALTERNATIONS && share !== undefined && holdsShares(problem, share); round += 1) {
    const point: PoolingPoint | undefined = bestFlows(problem, share, solver);
    if (point === undefined || point.cost > last - 1e-9 * Math.max(1, Math.abs(last))) return;
    const isBetter = search.best === undefined || point.cost < search.best.cost;
    if (isBetter) search.best = point;
    last = point.cost;
    // Points worse than what is known are not polished beyond one round.
    share = isBetter || round === 0 ? bestShares(problem, point, solver) : undefined;
  }
}

/** What the relaxation really sends through each pool, as shares. */
function throughputShares(problem: PoolingProblem, { pairs }: PoolingRelaxation, { columnValue }: LinearSolution): Float64Array {
  const through = new Float64Array(problem.intoPool.length);
  for (const { inArc, column } of pairs) through[inArc]! += columnValue[column]!;
  return normalised(problem, through, normalised(problem, columnValue.slice(0, problem.intoPool.length), evenShares(problem)));
}

/** Each pool from all its sources evenly, and from one source alone by turns. */
function plainStarts(problem: PoolingProblem): Float64Array[] {
  const insOf = problem.pools.map((_, l) => problem.intoPool.flatMap((arc, a) => (arc.pool === l ? [a] : [])));
  const turns = Math.max(0, ...insOf.map((ins) => ins.length));
  const single = Array.from({ length: turns }, (_, turn) => {
    const share = new Float64Array(problem.intoPool.length);
    insOf.forEach((ins, l) => { if (ins.length > 0) share[ins[(turn + l) % ins.length]!] = 1; });
    return share;
  });
  return [evenShares(problem), ...single];
}

const holdsShares = ({ intoPool }: PoolingProblem, share: Float64Array): boolean => intoPool.every(({ mostShare = 1 }, a) => share[a]! <= mostShare + 1e-12);

function evenShares({ intoPool }: PoolingProblem): Float64Array {
  return Float64Array.from(intoPool, ({ pool, mostShare = 1 }) => (mostShare === 0 ? 0 : 1 / intoPool.filter((arc) => arc.pool === pool && (arc.mostShare ?? 1) > 0).length));
}

function takeLowest(open: Node[]): Node {
  let at = 0;
  open.forEach((node, i) => { if (node.bound < open[at]!.bound) at = i; });
  return open.splice(at, 1)[0]!;
}

/** Two boxes, cut along the share or flow whose products the relaxation misjudges most. */
function cut(problem: PoolingProblem, { box, relaxation, solved }: Node): PoolingBox[] {
  const { pairs, firstFlow } = relaxation;
  const value = solved.columnValue;
  const shareError = new Float64Array(problem.intoPool.length);
  const flowError = new Float64Array(problem.outOfPool.length);
  for (const { inArc, outArc, column } of pairs) {
    const error = Math.abs(value[column]! - value[inArc]! * value[firstFlow + outArc]!);
    shareError[inArc]! += error;
    flowError[outArc]! += error;
  }
  const widest = widestOf(shareError, (a) => box.shareHigh[a]! - box.shareLow[a]! > 1e-9);
  const widestFlow = widestOf(flowError, (b) => box.flowHigh[b]! - box.flowLow[b]! > 1e-9 * Math.max(1, box.flowHigh[b]!));
  if (widest !== undefined && (widestFlow === undefined || shareError[widest]! >= flowError[widestFlow]!)) {
    const at = cutPoint(box.shareLow[widest]!, box.shareHigh[widest]!, value[widest]!);
    return [withBound(box, 'shareHigh', widest, at), withBound(box, 'shareLow', widest, at)];
  }
  if (widestFlow === undefined) return [];
  const at = cutPoint(box.flowLow[widestFlow]!, box.flowHigh[widestFlow]!, value[firstFlow + widestFlow]!);
  return [withBound(box, 'flowHigh', widestFlow, at), withBound(box, 'flowLow', widestFlow, at)];
}

function widestOf(error: Float64Array, canBeCut: (index: number) => boolean): number | undefined {
  let at: number | undefined;
  error.forEach((each, i) => { if (canBeCut(i) && (at === undefined || each > error[at]!)) at = i; });
  return at;
}

/** Between what the relaxation wants and the middle, away from the edges. */
function cutPoint(low: number, high: number, wanted: number): number {
  const middle = (low + high) / 2;
  const margin = CUT_MARGIN * (high - low);
  return Math.min(high - margin, Math.max(low + margin, 0.75 * wanted + 0.25 * middle));
}

function answer({ best, nodes, solver, limits, problem }: Search, bound: number): PoolingAnswer {
  const counts = { nodes, programmes: solver.count() };
  if (best === undefined) return { status: bound === Infinity ? 'infeasible' : 'stopped', cost: Infinity, lowerBound: bound, share: [...evenShares(problem)], flow: problem.outOfPool.map(() => 0), directFlow: problem.direct.map(() => 0), ...counts };
  const lowerBound = Math.min(bound, best.cost);
  const isProven = best.cost - lowerBound <= limits.relativeGap * Math.max(1, Math.abs(best.cost)) * (1 + 1e-9);
  return { status: isProven ? 'optimal' : 'stopped', cost: best.cost, lowerBound, share: [...best.share], flow: [...best.flow], directFlow: [...best.directFlow], ...counts };
}
