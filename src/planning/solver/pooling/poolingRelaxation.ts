import type { LinearColumn, LinearModel, LinearRow } from '../linearModel.ts';
import type { PoolingBox } from './poolingBox.ts';
import { mostDirect, mostOutflow, unitCost, type PoolingProblem } from './poolingProblem.ts';

/** A linear programme that no answer within the box violates, with the place of its parts. */
export interface PoolingRelaxation extends LinearModel {
  /** First column of the outflows (shares come first, in the order of `intoPool`), of the products share x flow, of the direct flows. */
  readonly firstFlow: number;
  readonly firstDirect: number;
  readonly pairs: readonly Pair[];
}

/** share x flow: what a source sends through its pool into a product. */
interface Pair { readonly inArc: number; readonly outArc: number; readonly column: number }

type Entry = readonly [number, number];

/**
 * The pq-formulation (Tawarmalani & Sahinidis 2002; Quesada & Grossmann 1995): shares q of the sources in a pool, flows y
 * out of it, v = q y inside its convex and concave envelopes (McCormick 1976), strengthened by what follows when the sum of
 * shares and the pool's capacity are multiplied through: sum of v over sources = y, sum of v over products <= capacity x q.
 */
export function relaxPooling(problem: PoolingProblem, box: PoolingBox, envelopes: 'with envelopes' | 'without envelopes' = 'with envelopes'): PoolingRelaxation {
  const { intoPool, outOfPool, direct, pools } = problem;
  const columns: LinearColumn[] = [
    ...intoPool.map((_, a) => ({ cost: 0, lower: box.shareLow[a]!, upper: box.shareHigh[a]! })),
    ...outOfPool.map(({ cost = 0 }, b) => ({ cost, lower: box.flowLow[b]!, upper: box.flowHigh[b]! })),
  ];
  const firstFlow = intoPool.length;
  const pairs = pairsOf(problem, columns.length);
  for (const { inArc: a, outArc: b } of pairs) {
    const [lower, upper] = envelopes === 'with envelopes' ? [box.shareLow[a]! * box.flowLow[b]!, box.shareHigh[a]! * box.flowHigh[b]!] : [0, mostOutflow(problem, outOfPool[b]!)];
    columns.push({ cost: unitCost(problem, intoPool[a]!.source, outOfPool[b]!.product), lower, upper });
  }
  const firstDirect = columns.length;
  for (const arc of direct) columns.push({ cost: unitCost(problem, arc.source, arc.product) + (arc.cost ?? 0), lower: 0, upper: mostDirect(problem, arc) });

  const rows: LinearRow[] = [];
  pools.forEach((pool, l) => {
    const ins = intoPool.flatMap((arc, a): Entry[] => (arc.pool === l ? [[a, 1]] : []));
    const outs = outOfPool.flatMap((arc, b): Entry[] => (arc.pool === l ? [[firstFlow + b, 1]] : []));
    if (ins.length > 0) rows.push({ lower: 1, upper: 1, entries: ins });
    rows.push({ lower: -Infinity, upper: pool.capacity, entries: outs });
  });
  outOfPool.forEach((_, b) => rows.push({ lower: 0, upper: 0, entries: [[firstFlow + b, -1], ...pairs.flatMap((is): Entry[] => (is.outArc === b ? [[is.column, 1]] : []))] }));
  intoPool.forEach((arc, a) => rows.push({ lower: -Infinity, upper: 0, entries: [[a, -pools[arc.pool]!.capacity], ...pairs.flatMap((is): Entry[] => (is.inArc === a ? [[is.column, 1]] : []))] }));
  if (envelopes === 'with envelopes') for (const pair of pairs) addEnvelopes(rows, pair, firstFlow, box);
  addLimits(rows, problem, pairs, firstDirect);
  return { columns, rows, firstFlow, firstDirect, pairs };
}

function pairsOf({ intoPool, outOfPool }: PoolingProblem, firstColumn: number): Pair[] {
  const pairs: Pair[] = [];
  intoPool.forEach((into, inArc) => outOfPool.forEach((out, outArc) => {
    if (into.pool === out.pool) pairs.push({ inArc, outArc, column: firstColumn + pairs.length });
  }));
  return pairs;
}

/** McCormick 1976: the tightest linear bounds on q y over a rectangle. */
function addEnvelopes(rows: LinearRow[], { inArc: q, outArc: b, column: v }: Pair, firstFlow: number, { shareLow, shareHigh, flowLow, flowHigh }: PoolingBox): void {
  const y = firstFlow + b;
  const [qL, qU, yL, yU] = [shareLow[q]!, shareHigh[q]!, flowLow[b]!, flowHigh[b]!];
  const add = (qAt: number, yAt: number, side: 'under' | 'over') => {
    const entries: Entry[] = [[v, 1], ...(yAt === 0 ? [] : [[q, -yAt] as const]), ...(qAt === 0 ? [] : [[y, -qAt] as const])];
    rows.push(side === 'under' ? { lower: -qAt * yAt, upper: Infinity, entries } : { lower: -Infinity, upper: -qAt * yAt, entries });
  };
  if (qL > 0 || yL > 0) add(qL, yL, 'under');
  add(qU, yU, 'under');
  add(qU, yL, 'over');
  add(qL, yU, 'over');
}

/** What sources give, what products take, and the qualities of the products, divided by their span so that rows are of one size. */
function addLimits(rows: LinearRow[], problem: PoolingProblem, pairs: readonly Pair[], firstDirect: number): void {
  const { sources, products, intoPool, outOfPool, direct } = problem;
  const flows = [
    ...pairs.map(({ inArc, outArc, column }) => ({ column, source: intoPool[inArc]!.source, product: outOfPool[outArc]!.product })),
    ...direct.map(({ source, product }, d) => ({ column: firstDirect + d, source, product })),
  ];
  const sum = (chosen: typeof flows): Entry[] => chosen.map(({ column }) => [column, 1]);
  sources.forEach(({ least, most }, i) => rows.push({ lower: least, upper: most, entries: sum(flows.filter(({ source }) => source === i)) }));
  products.forEach((product, j) => {
    const into = flows.filter((flow) => flow.product === j);
    rows.push({ lower: product.least, upper: product.most, entries: sum(into) });
    const addQuality = (k: number, limit: number | undefined, side: 'low' | 'high') => {
      if (limit === undefined) return;
      const differences = into.map(({ column, source }): Entry => [column, sources[source]!.quality[k]! - limit]);
      const span = Math.max(...differences.map(([, difference]) => Math.abs(difference)), 1e-12);
      const entries = differences.flatMap(([column, difference]): Entry[] => (difference === 0 ? [] : [[column, difference / span]]));
      rows.push(side === 'low' ? { lower: 0, upper: Infinity, entries } : { lower: -Infinity, upper: 0, entries });
    };
    product.qualityLow.forEach((limit, k) => addQuality(k, limit, 'low'));
    product.qualityHigh.forEach((limit, k) => addQuality(k, limit, 'high'));
    product.amountMost?.forEach((most, k) => {
      if (most === undefined) return;
      const span = Math.max(...into.map(({ source }) => sources[source]!.quality[k]!), 1e-12);
      rows.push({ lower: -Infinity, upper: most / span, entries: into.flatMap(({ column, source }): Entry[] => { const is = sources[source]!.quality[k]!; return is === 0 ? [] : [[column, is / span]]; }) });
    });
  });
}
