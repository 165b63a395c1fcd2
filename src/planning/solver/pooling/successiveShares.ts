import type { LinearRow, LinearSolver } from '../linearModel.ts';
import { wholeBox, type PoolingBox } from './poolingBox.ts';
import type { PoolingProblem } from './poolingProblem.ts';
import { relaxPooling } from './poolingRelaxation.ts';

const STEPS = 15;
/** First range of a step, as a share of the widest. */
const FIRST_REACH = 0.1;
/** Share x flow is right when it is off by less than this share of the largest flow. */
const EXACT = 1e-10;

/**
 * Shares that hold with their flows to rounding, by successive linear programmes: share x flow as a plane through the last
 * point, steps kept within a range that shrinks when they overshoot (Griffith & Stewart 1961; on pooling: Baker & Lasdon
 * 1985). Where qualities of several products bind at once, alternating programmes stand still and these do not.
 */
export function successiveShares(problem: PoolingProblem, share: Float64Array, flow: Float64Array, solver: LinearSolver): Float64Array | undefined {
  const whole = wholeBox(problem);
  const most = Math.max(...whole.flowHigh, 1e-12);
  let [at, flowAt, reach, lastError] = [share, flow, FIRST_REACH, Infinity];
  for (let step = 0; step < STEPS; step += 1) {
    const model = linearised(problem, within(whole, at, flowAt, reach), at, flowAt);
    const solved = solver.solve(model);
    if (solved.status !== 'optimal') return step === 0 ? undefined : at;
    const value = solved.columnValue;
    const next = value.slice(0, at.length);
    const nextFlow = value.slice(model.firstFlow, model.firstFlow + flowAt.length);
    const error = Math.max(0, ...model.pairs.map(({ inArc, outArc, column }) => Math.abs(value[column]! - next[inArc]! * nextFlow[outArc]!))) / most;
    if (error > 0.1 * lastError) reach /= 4;
    [at, flowAt, lastError] = [next, nextFlow, error];
    if (error < EXACT) break;
  }
  return at;
}

function within({ shareLow, shareHigh, flowLow, flowHigh }: PoolingBox, share: Float64Array, flow: Float64Array, reach: number): PoolingBox {
  const low = (bound: number, value: number, range: number) => Math.max(bound, Math.min(value, value - reach * range));
  const high = (bound: number, value: number, range: number) => Math.min(bound, value + reach * range);
  return {
    shareLow: shareLow.map((bound, a) => Math.min(shareHigh[a]!, low(bound, share[a]!, 1))), shareHigh: shareHigh.map((bound, a) => Math.max(shareLow[a]!, high(bound, share[a]!, 1))),
    flowLow: flowLow.map((bound, b) => Math.min(flowHigh[b]!, low(bound, flow[b]!, flowHigh[b]!))), flowHigh: flowHigh.map((bound, b) => Math.max(flowLow[b]!, high(bound, flow[b]!, flowHigh[b]!))),
  };
}

/** The relaxation with its envelopes replaced by the plane v = q0 y + y0 q - q0 y0. */
function linearised(problem: PoolingProblem, box: PoolingBox, share: Float64Array, flow: Float64Array): ReturnType<typeof relaxPooling> {
  const relaxed = relaxPooling(problem, box, 'without envelopes');
  const rows: LinearRow[] = relaxed.pairs.map(({ inArc, outArc, column }) => {
    const [q, y] = [share[inArc]!, flow[outArc]!];
    const entries: [number, number][] = [[column, 1], ...(y === 0 ? [] : [[inArc, -y] as [number, number]]), ...(q === 0 ? [] : [[relaxed.firstFlow + outArc, -q] as [number, number]])];
    return { lower: -q * y, upper: -q * y, entries };
  });
  return { ...relaxed, rows: [...relaxed.rows, ...rows] };
}
