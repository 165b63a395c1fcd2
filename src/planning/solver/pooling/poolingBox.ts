import { mostOutflow, type PoolingProblem } from './poolingProblem.ts';

/** Bounds of what makes the problem bilinear: shares in the pools, and flows out of them. A node of the search. */
export interface PoolingBox {
  readonly shareLow: Float64Array;
  readonly shareHigh: Float64Array;
  readonly flowLow: Float64Array;
  readonly flowHigh: Float64Array;
}

/** Everything that the problem allows. */
export function wholeBox(problem: PoolingProblem): PoolingBox {
  return {
    shareLow: new Float64Array(problem.intoPool.length),
    shareHigh: Float64Array.from(problem.intoPool, ({ mostShare = 1 }) => mostShare),
    flowLow: new Float64Array(problem.outOfPool.length),
    flowHigh: Float64Array.from(problem.outOfPool, (arc) => mostOutflow(problem, arc)),
  };
}

type BoxSide = keyof PoolingBox;

/** A copy with one bound replaced. */
export function withBound(box: PoolingBox, side: BoxSide, index: number, value: number): PoolingBox {
  const bounds = box[side].slice();
  bounds[index] = value;
  return { ...box, [side]: bounds };
}
