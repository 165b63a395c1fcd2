import { CAUTION_DEFERENCE, CAUTIONS, type CautionClass } from './cautions.ts';
import type { FertiliserProduct } from './fertiliserProducts.ts';
import { cautionsOf, incompatibilityGroups } from './incompatibilities.ts';
import type { StockRecipe, StockTank } from './stockTanks.ts';

export interface MixingStep {
  readonly tank: string;
  readonly action: 'fill' | 'add' | 'top-up';
  /** Water to fill to, litres in the tank. */
  readonly toVolumeL?: number;
  readonly productId?: string;
  readonly grams?: number;
  /** Of a liquid with known density. */
  readonly millilitres?: number;
  readonly lot?: string;
  /** Shown at this step, before the product is touched. */
  readonly cautions: readonly string[];
}

export interface MixingSheet {
  readonly steps: readonly MixingStep[];
  /** Said once, on top of the sheet. */
  readonly deference: string;
}

/** Water that is in a tank before anything is added: enough that acid always meets water, and salts dissolve (common practice). */
const FIRST_FILL = 0.6;

/**
 * How to make stock tanks, step by step, in a safe order: tank by tank, water first, then acid, then salts from much to little, chelates
 * last, then topped up. A tank with calcium and one with phosphate or sulfate are never open at the same time. Common practice.
 * `presentL`: litres of the same stock that are still in the tank; the grams are for what is added to them.
 */
export function mixingSheet(recipe: Pick<StockRecipe, 'tanks'>, products: readonly FertiliserProduct[], tankVolumeL: number, presentL = 0): MixingSheet {
  const byId = new Map(products.map((product) => [product.id, product]));
  return { steps: recipe.tanks.flatMap((tank) => stepsOf(tank, byId, tankVolumeL, presentL)), deference: CAUTION_DEFERENCE };
}

function stepsOf(tank: StockTank, byId: ReadonlyMap<string, FertiliserProduct>, tankVolumeL: number, presentL: number): MixingStep[] {
  const added = Object.entries(tank.gramsByProduct).map(([id, grams]) => ({ product: byId.get(id)!, grams }));
  added.sort((a, b) => turnOf(a.product) - turnOf(b.product) || b.grams - a.grams);
  return [
    { tank: tank.id, action: 'fill', toVolumeL: presentL + FIRST_FILL * (tankVolumeL - presentL), cautions: [] },
    ...added.map(({ product, grams }): MixingStep => addStep(tank.id, product, grams)),
    { tank: tank.id, action: 'top-up', toVolumeL: tankVolumeL, cautions: [] },
  ];
}

/** Acid goes into the water before anything else, chelates after everything else. */
function turnOf(product: FertiliserProduct): number {
  const groups = incompatibilityGroups(product);
  if (groups.includes('acid')) return 0;
  return groups.includes('chelate') ? 2 : 1;
}

function addStep(tank: string, product: FertiliserProduct, grams: number): MixingStep {
  return {
    tank, action: 'add', productId: product.id, grams,
    ...(product.form === 'liquid' && product.densityKgPerL !== undefined && { millilitres: grams / product.densityKgPerL }),
    ...(product.lot !== undefined && { lot: product.lot }),
    cautions: cautionsOf(product).map((name: CautionClass) => CAUTIONS[name]),
  };
}
