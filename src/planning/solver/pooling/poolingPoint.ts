import type { LinearColumn, LinearModel, LinearRow, LinearSolver } from '../linearModel.ts';
import { mostDirect, mostOutflow, unitCost, type PoolingProblem } from './poolingProblem.ts';

/** An answer that holds every limit (within the solver's tolerance). */
export interface PoolingPoint {
  readonly cost: number;
  readonly share: Float64Array;
  readonly flow: Float64Array;
  readonly directFlow: Float64Array;
}

type Entry = readonly [number, number];

/** The cheapest flows for given shares: a linear programme. Absent where there are none. */
export function bestFlows(problem: PoolingProblem, share: Float64Array, solver: LinearSolver): PoolingPoint | undefined {
  const { intoPool, outOfPool, direct } = problem;
  const sharesOf = problem.pools.map((_, l) => intoPool.flatMap((arc, a) => (arc.pool === l && share[a]! > 0 ? [{ source: arc.source, share: share[a]! }] : [])));
  const costOut = outOfPool.map(({ pool, product, cost = 0 }) => sharesOf[pool]!.reduce((sum, is) => sum + is.share * unitCost(problem, is.source, product), cost));
  const columns: LinearColumn[] = [
    // Nothing flows out of a pool that nothing flows into.
    ...outOfPool.map((arc, b) => ({ cost: costOut[b]!, lower: 0, upper: sharesOf[arc.pool]!.length === 0 ? 0 : mostOutflow(problem, arc) })),
    ...direct.map((arc) => ({ cost: unitCost(problem, arc.source, arc.product) + (arc.cost ?? 0), lower: 0, upper: mostDirect(problem, arc) })),
  ];
  const solved = solver.solve({ columns, rows: flowRows(problem, sharesOf) });
  if (solved.status !== 'optimal') return undefined;
  const value = solved.columnValue.map((each, j) => Math.min(columns[j]!.upper, Math.max(0, each)));
  return { cost: columns.reduce((sum, { cost }, j) => sum + cost * value[j]!, 0), share: share.slice(), flow: value.slice(0, outOfPool.length), directFlow: value.slice(outOfPool.length) };
}

interface PoolShare { readonly source: number; readonly share: number }

function flowRows(problem: PoolingProblem, sharesOf: readonly (readonly PoolShare[])[]): LinearModel['rows'] {
  const { sources, pools, products, outOfPool, direct } = problem;
  const rows: LinearRow[] = [];
  const outs = outOfPool.map((arc, b) => ({ ...arc, column: b }));
  const straight = direct.map((arc, d) => ({ ...arc, column: outOfPool.length + d }));
  sources.forEach(({ least, most }, i) => rows.push({ lower: least, upper: most, entries: [
    ...outs.flatMap(({ pool, column }): Entry[] => { const is = sharesOf[pool]!.find(({ source }) => source === i); return is === undefined ? [] : [[column, is.share]]; }),
    ...straight.flatMap(({ source, column }): Entry[] => (source === i ? [[column, 1]] : [])),
  ] }));
  pools.forEach(({ capacity }, l) => rows.push({ lower: -Infinity, upper: capacity, entries: outs.flatMap(({ pool, column }): Entry[] => (pool === l ? [[column, 1]] : [])) }));
  const pooled = problem.qualities.map((_, k) => pools.map((_, l) => sharesOf[l]!.reduce((sum, { source, share }) => sum + share * sources[source]!.quality[k]!, 0)));
  products.forEach((product, j) => {
    const into = [...outs.filter((arc) => arc.product === j).map(({ column, pool }) => ({ column, at: (k: number) => pooled[k]![pool]! })), ...straight.filter((arc) => arc.product === j).map(({ column, source }) => ({ column, at: (k: number) => sources[source]!.quality[k]! }))];
    rows.push({ lower: product.least, upper: product.most, entries: into.map(({ column }): Entry => [column, 1]) });
    for (const [limits, side] of [[product.qualityLow, 'low'], [product.qualityHigh, 'high']] as const) {
      limits.forEach((limit, k) => {
        if (limit === undefined) return;
        const span = Math.max(...into.map(({ at }) => Math.abs(at(k) - limit)), 1e-12);
        const entries = into.flatMap(({ column, at }): Entry[] => (at(k) === limit ? [] : [[column, (at(k) - limit) / span]]));
        rows.push(side === 'low' ? { lower: 0, upper: Infinity, entries } : { lower: -Infinity, upper: 0, entries });
      });
    }
    product.amountMost?.forEach((most, k) => {
      if (most !== undefined) rows.push({ lower: -Infinity, upper: most, entries: into.flatMap(({ column, at }): Entry[] => (at(k) === 0 ? [] : [[column, at(k)]])) });
    });
  });
  return rows;
}

/** The cheapest shares (and direct flows) for given flows out of the pools: the other half of alternating programmes. */
export function bestShares(problem: PoolingProblem, { flow, share }: PoolingPoint, solver: LinearSolver): Float64Array | undefined {
  const { intoPool, outOfPool, direct, sources, products, pools } = problem;
  const outOf = pools.map((_, l) => outOfPool.flatMap((arc, b) => (arc.pool === l && flow[b]! > 0 ? [{ product: arc.product, flow: flow[b]! }] : [])));
  const columns: LinearColumn[] = [
    ...intoPool.map(({ source, pool, mostShare = 1 }) => ({ cost: outOf[pool]!.reduce((sum, is) => sum + is.flow * unitCost(problem, source, is.product), 0), lower: 0, upper: mostShare })),
    ...direct.map((arc) => ({ cost: unitCost(problem, arc.source, arc.product) + (arc.cost ?? 0), lower: 0, upper: mostDirect(problem, arc) })),
  ];
  const rows: LinearRow[] = pools.flatMap((_, l) => {
    const entries = intoPool.flatMap((arc, a): Entry[] => (arc.pool === l ? [[a, 1]] : []));
    return entries.length === 0 ? [] : [{ lower: 1, upper: 1, entries }];
  });
  const straight = direct.map((arc, d) => ({ ...arc, column: intoPool.length + d }));
  const total = (pool: number) => outOf[pool]!.reduce((sum, is) => sum + is.flow, 0);
  sources.forEach(({ least, most }, i) => rows.push({ lower: least, upper: most, entries: [
    ...intoPool.flatMap((arc, a): Entry[] => (arc.source === i && total(arc.pool) > 0 ? [[a, total(arc.pool)]] : [])),
    ...straight.flatMap(({ source, column }): Entry[] => (source === i ? [[column, 1]] : [])),
  ] }));
  products.forEach((product, j) => {
    const fromPools = pools.map((_, l) => outOf[l]!.find((is) => is.product === j)?.flow ?? 0);
    const pooledFlow = fromPools.reduce((sum, each) => sum + each, 0);
    const into = straight.filter((arc) => arc.product === j);
    rows.push({ lower: product.least - pooledFlow, upper: product.most - pooledFlow, entries: into.map(({ column }): Entry => [column, 1]) });
    for (const [limits, side] of [[product.qualityLow, 'low'], [product.qualityHigh, 'high']] as const) {
      limits.forEach((limit, k) => {
        if (limit === undefined) return;
        const raw: Entry[] = [
          ...intoPool.flatMap((arc, a): Entry[] => (fromPools[arc.pool]! > 0 ? [[a, fromPools[arc.pool]! * (sources[arc.source]!.quality[k]! - limit)]] : [])),
          ...into.map(({ column, source }): Entry => [column, sources[source]!.quality[k]! - limit]),
        ];
        const span = Math.max(...raw.map(([, value]) => Math.abs(value)), 1e-12);
        const entries = raw.flatMap(([column, value]): Entry[] => (value === 0 ? [] : [[column, value / span]]));
        rows.push(side === 'low' ? { lower: 0, upper: Infinity, entries } : { lower: -Infinity, upper: 0, entries });
      });
    }
    product.amountMost?.forEach((most, k) => {
      if (most === undefined) return;
      rows.push({ lower: -Infinity, upper: most, entries: [
        ...intoPool.flatMap((arc, a): Entry[] => { const amount = fromPools[arc.pool]! * sources[arc.source]!.quality[k]!; return amount === 0 ? [] : [[a, amount]]; }),
        ...into.flatMap(({ column, source }): Entry[] => { const is = sources[source]!.quality[k]!; return is === 0 ? [] : [[column, is]]; }),
      ] });
    });
  });
  const solved = solver.solve({ columns, rows });
  return solved.status === 'optimal' ? normalised(problem, solved.columnValue.slice(0, intoPool.length), share) : undefined;
}

/** Shares between zero and their most that sum to one in each pool; the ones before where a pool lost them all. */
export function normalised({ intoPool, pools }: PoolingProblem, share: Float64Array, before: Float64Array): Float64Array {
  const sums = new Float64Array(pools.length);
  intoPool.forEach(({ pool }, a) => { sums[pool]! += Math.max(0, share[a]!); });
  return share.map((each, a) => { const sum = sums[intoPool[a]!.pool]!; return sum > 1e-9 ? Math.max(0, each) / sum : before[a]!; });
}
