import type { Refusal } from '../refusal.ts';
import { entriesOf, type Component, type Composition } from './composition.ts';
import { componentsMolPerKg, type FertiliserProduct } from './fertiliserProducts.ts';
import { reasonsToKeepApart } from './incompatibilities.ts';
import { solubilityGPerL } from './solubility.ts';
import { refuseStockSaturation } from './stockSaturation.ts';

/** What is to be dissolved together in one concentrated tank. */
export interface StockContents {
  readonly id: string;
  readonly products: readonly { readonly product: FertiliserProduct; readonly gramsPerL: number }[];
  /** What the products bring, mmol per litre of stock, without the water's own. */
  readonly mmolPerL: Composition;
}

/** Share of the solubility at the coldest store temperature that a stock may use: 70 to 80 % (common practice). */
const SAFE_SHARE = 0.75;

/**
 * Why a concentrated tank must not be made like this: products that must be kept apart, more than dissolves at the coldest store
 * temperature, a salt that would come out with the water's own calcium. Warnings among them where it is only close or cannot be told.
 */
export function refuseStockTank(tank: StockContents, waterMmolPerL: Composition, coldestC: number): Refusal[] {
  return [...refuseIncompatible(tank), ...refuseInsoluble(tank, coldestC), ...refuseStockSaturation(tank.mmolPerL, waterMmolPerL, coldestC, `tanks.${tank.id}`)];
}

function refuseIncompatible({ id, products }: StockContents): Refusal[] {
  return products.flatMap(({ product: one }, i) => products.slice(i + 1).flatMap(({ product: other }) => reasonsToKeepApart(one, other).map((reason): Refusal => ({
    code: 'incompatible-products', path: `tanks.${id}`, value: `${one.id} + ${other.id}`, severity: 'error',
    message: `${one.name} and ${other.name} must not share a concentrated tank: ${reason}`,
  }))));
}

/** Each salt alone against its solubility, and salts that share an ion together (they crowd each other out). */
function refuseInsoluble({ id, products }: StockContents, coldestC: number): Refusal[] {
  const shares = products.flatMap(({ product, gramsPerL }): [FertiliserProduct, number][] => {
    const most = solubilityGPerL(product.substance, coldestC);
    return most === undefined ? [] : [[product, gramsPerL / most]];
  });
  const alone = shares.filter(([, share]) => share > SAFE_SHARE).map(([product, share]) => insoluble(id, product.id, share, 'error', coldestC));
  const together = sharedIonShares(shares).filter(([, share]) => share > SAFE_SHARE)
    .map(([ion, share]) => insoluble(id, `salts with ${ion}`, share, share > 1 ? 'error' : 'warning', coldestC));
  return [...alone, ...together];
}

function sharedIonShares(shares: readonly [FertiliserProduct, number][]): [Component, number][] {
  const holders = new Map<Component, number[]>();
  for (const [product, share] of shares) for (const [ion] of entriesOf(componentsMolPerKg(product))) holders.set(ion, [...(holders.get(ion) ?? []), share]);
  return [...holders].flatMap(([ion, parts]): [Component, number][] => (parts.length > 1 ? [[ion, parts.reduce((a, b) => a + b)]] : []));
}

function insoluble(tank: string, what: string, share: number, severity: Refusal['severity'], coldestC: number): Refusal {
  return { code: 'not-soluble', path: `tanks.${tank}`, value: Math.round(100 * share), limit: 100 * SAFE_SHARE, unit: '%', severity,
    message: `${what}: ${Math.round(100 * share)} % of what dissolves at ${coldestC} C; at most ${100 * SAFE_SHARE} % is safe` };
}
