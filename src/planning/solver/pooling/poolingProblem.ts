/**
 * The pooling problem (Haverly 1978): sources are mixed in pools, pools and sources are mixed into products, and a product's
 * qualities are those of its mixture. What a pool holds leaves it in one composition, which makes the problem bilinear.
 * Flows in any one unit; qualities mix in proportion to flow. Ends of arcs are indexes into the lists.
 */
export interface PoolingProblem {
  /** Names of the qualities, in the order of every list of qualities below. */
  readonly qualities: readonly string[];
  readonly sources: readonly PoolSource[];
  readonly pools: readonly Pool[];
  readonly products: readonly PoolProduct[];
  readonly intoPool: readonly SourceToPool[];
  readonly outOfPool: readonly PoolToProduct[];
  readonly direct: readonly SourceToProduct[];
}

export interface PoolSource {
  readonly id: string;
  /** Per unit drawn. */
  readonly cost: number;
  readonly least: number;
  readonly most: number;
  readonly quality: readonly number[];
}

export interface Pool { readonly id: string; readonly capacity: number }

export interface PoolProduct {
  readonly id: string;
  /** Earned per unit made. */
  readonly price: number;
  readonly least: number;
  readonly most: number;
  /** Limits of each quality; absent where there is none. */
  readonly qualityLow: readonly (number | undefined)[];
  readonly qualityHigh: readonly (number | undefined)[];
  /** Most of each quality in all that is made, flow x quality; no limit where absent. */
  readonly amountMost?: readonly (number | undefined)[];
  /** Earned per unit of a quality in each unit made (so that nutrients have a worth); none where absent. */
  readonly worth?: readonly number[];
}

export interface SourceToPool {
  readonly source: number;
  readonly pool: number;
  /** Highest share of the pool's mixture that may come from here; 1 where absent. */
  readonly mostShare?: number;
}

export interface PoolToProduct { readonly pool: number; readonly product: number; readonly most: number; readonly cost?: number }

export interface SourceToProduct { readonly source: number; readonly product: number; readonly most: number; readonly cost?: number }

export interface PoolingAnswer {
  /** `optimal`: the bound meets the cost within the gap that was asked for. `stopped`: the nodes ran out first. */
  readonly status: 'optimal' | 'stopped' | 'infeasible';
  /** Infinity where no answer is known. */
  readonly cost: number;
  /** No answer costs less than this: the least of the bounds of all boxes that were not refuted. */
  readonly lowerBound: number;
  /** Share of each source in its pool, in the order of `intoPool`. */
  readonly share: readonly number[];
  /** Flows in the order of `outOfPool` and `direct`. */
  readonly flow: readonly number[];
  readonly directFlow: readonly number[];
  /** Boxes examined, and linear programmes solved. */
  readonly nodes: number;
  readonly programmes: number;
}

/** What one unit from a source costs in a product: what it costs to have, less what the product earns by it. */
export function unitCost({ sources, products }: PoolingProblem, source: number, product: number): number {
  const { cost, quality } = sources[source]!;
  const { price, worth = [] } = products[product]!;
  return cost - price - worth.reduce((sum, each, k) => sum + each * quality[k]!, 0);
}

/** Most that can flow out of a pool over an arc. */
export function mostOutflow({ pools, products }: PoolingProblem, { pool, product, most }: PoolToProduct): number {
  return Math.min(most, pools[pool]!.capacity, products[product]!.most);
}

/** Most that can flow from a source straight into a product. */
export function mostDirect({ sources, products }: PoolingProblem, { source, product, most }: SourceToProduct): number {
  return Math.min(most, sources[source]!.most, products[product]!.most);
}
