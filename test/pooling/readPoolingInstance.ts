import type { PoolingProblem } from '../../src/planning/solver/pooling/poolingProblem.ts';

/** A network as ../shared/data/scheduling/pooling.json writes it. */
export interface PoolingInstance {
  readonly name: string;
  /** Proven optimum (MINLPLib); null where none is recorded. */
  readonly optimum: number | null;
  /** Best known as the network's own file says. */
  readonly objective?: number | null;
  readonly components: readonly { readonly name: string; readonly lower: number; readonly upper: number; readonly price: number; readonly quality: Readonly<Record<string, number>> }[];
  readonly products: readonly { readonly name: string; readonly lower: number; readonly upper: number; readonly price: number; readonly quality_lower: Readonly<Record<string, number>> | null; readonly quality_upper: Readonly<Record<string, number>> | null }[];
  readonly pool_size: Readonly<Record<string, number>>;
  readonly component_to_pool_fraction: readonly { readonly component: string; readonly pool: string; readonly fraction: number }[];
  readonly pool_to_product_bound: readonly { readonly pool: string; readonly product: string; readonly bound: number }[];
  readonly component_to_product_bound: readonly { readonly component: string; readonly product: string; readonly bound: number }[];
}

export function readPoolingInstance(is: PoolingInstance): PoolingProblem {
  const qualities = Object.keys(is.components[0]!.quality);
  const source = (name: string) => is.components.findIndex((each) => each.name === name);
  const product = (name: string) => is.products.findIndex((each) => each.name === name);
  const pools = Object.entries(is.pool_size).map(([id, capacity]) => ({ id, capacity }));
  const pool = (name: string) => pools.findIndex(({ id }) => id === name);
  return {
    qualities, pools,
    sources: is.components.map(({ name, lower, upper, price, quality }) => ({ id: name, cost: price, least: lower, most: upper, quality: qualities.map((each) => quality[each]!) })),
    products: is.products.map(({ name, lower, upper, price, quality_lower: low, quality_upper: high }) => ({
      id: name, price, least: lower, most: upper, qualityLow: qualities.map((each) => low?.[each]), qualityHigh: qualities.map((each) => high?.[each]),
    })),
    intoPool: is.component_to_pool_fraction.map((arc) => ({ source: source(arc.component), pool: pool(arc.pool), mostShare: arc.fraction })),
    outOfPool: is.pool_to_product_bound.map((arc) => ({ pool: pool(arc.pool), product: product(arc.product), most: arc.bound })),
    direct: is.component_to_product_bound.map((arc) => ({ source: source(arc.component), product: product(arc.product), most: arc.bound })),
  };
}
