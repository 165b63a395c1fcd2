import { accepted, refused, type Outcome, type Refusal } from '../refusal.ts';
import { addCompositions, scaleComposition, type Composition } from './composition.ts';
import { refuseNotPositive } from './compositionChecks.ts';
import { componentsMolPerKg, type FertiliserProduct } from './fertiliserProducts.ts';
import { gramsForRecipe, type Recipe, type RecipeRequest } from './fertiliserRecipe.ts';
import { incompatibilityGroups } from './incompatibilities.ts';
import { refuseStockTank } from './refuseStockTank.ts';

export interface StockRequest extends Omit<RecipeRequest, 'volumeL'> {
  /** Litres of feed from one litre of each stock, for example 100. */
  readonly concentrationFactor: number;
  readonly tankVolumeL: number;
  /** Coldest temperature of the store, C. */
  readonly coldestC: number;
  /** Product ids by tank, where somebody has decided; else calcium goes to A, phosphate and sulfate to B, acid to C, alkaline to D. */
  readonly tanks?: Readonly<Record<string, readonly string[]>>;
}

export interface StockTank {
  readonly id: string;
  readonly gramsByProduct: Readonly<Record<string, number>>;
  /** What the stock holds, mmol per litre of stock. */
  readonly mmolPerL: Composition;
}

export interface StockRecipe {
  readonly tanks: readonly StockTank[];
  /** Litres of feed that the tanks make. */
  readonly feedL: number;
  readonly feed: Recipe;
}

/**
 * Concentrates for a feed: grams of each product in each tank. Refused when two products of a tank must be kept apart, or more is
 * asked for than dissolves at the coldest store temperature, or a salt would come out with the water's own calcium. Products that nothing forbids go to the lighter of A and B.
 */
export function stockTanks(request: StockRequest): Outcome<StockRecipe> {
  const faults = [...refuseNotPositive(request.concentrationFactor, 'concentrationFactor', '1'), ...refuseNotPositive(request.tankVolumeL, 'tankVolumeL', 'L')];
  if (faults.length > 0) return refused(faults);
  const feedL = request.concentrationFactor * request.tankVolumeL;
  const recipe = gramsForRecipe({ ...request, volumeL: feedL });
  if (!recipe.ok) return recipe;
  const byId = new Map(request.products.map((product) => [product.id, product]));
  const assigned = request.tanks ? assignAsTold(request.tanks, recipe.value, byId) : accepted(assignTanks(recipe.value, byId));
  if (!assigned.ok) return assigned;
  const tanks = assigned.value.map(([id, products]) => fillTank(id, products, recipe.value, request.tankVolumeL));
  const checks = assigned.value.flatMap(([id, products], i) => refuseStockTank(
    { id, mmolPerL: tanks[i]!.mmolPerL, products: products.map((product) => ({ product, gramsPerL: recipe.value.gramsByProduct[product.id]! / request.tankVolumeL })) },
    request.waterMmolPerL ?? {}, request.coldestC,
  ));
  const errors = checks.filter(({ severity }) => severity === 'error');
  return errors.length > 0 ? refused(errors) : accepted({ tanks, feedL, feed: recipe.value }, [...recipe.warnings, ...checks]);
}

type Assignment = readonly [string, readonly FertiliserProduct[]];
type Catalogue = ReadonlyMap<string, FertiliserProduct>;

const usedProducts = (recipe: Recipe, byId: Catalogue): FertiliserProduct[] => Object.keys(recipe.gramsByProduct).map((id) => byId.get(id)!);

function assignAsTold(tanks: Readonly<Record<string, readonly string[]>>, recipe: Recipe, byId: Catalogue): Outcome<readonly Assignment[]> {
  const placed = Object.values(tanks).flat();
  const homeless = usedProducts(recipe, byId).filter(({ id }) => !placed.includes(id));
  const unknown = placed.filter((id) => !byId.has(id));
  const twice = placed.filter((id, i) => placed.indexOf(id) !== i);
  const fault = (code: Refusal['code'], id: string, message: string): Refusal => ({ code, path: 'tanks', value: id, message, severity: 'error' });
  const faults = [
    ...homeless.map(({ id }) => fault('value-missing', id, `${id} is needed but stands in no tank`)),
    ...unknown.map((id) => fault('reference-unknown', id, `${id} is not among the products`)),
    ...twice.map((id) => fault('duplicate', id, `${id} stands in two tanks`)),
  ];
  if (faults.length > 0) return refused(faults);
  return accepted(Object.entries(tanks).map(([tank, ids]): Assignment => [tank, ids.filter((id) => id in recipe.gramsByProduct).map((id) => byId.get(id)!)]));
}

/** Products with a group go where the group belongs; the others, heaviest first, into the lighter of A and B. */
function assignTanks(recipe: Recipe, byId: Catalogue): readonly Assignment[] {
  const tanks = new Map<string, FertiliserProduct[]>([['A', []], ['B', []], ['C', []], ['D', []]]);
  const grams = (tank: string): number => tanks.get(tank)!.reduce((sum, { id }) => sum + recipe.gramsByProduct[id]!, 0);
  const used = usedProducts(recipe, byId);
  for (const product of used) { const home = homeTank(product); if (home !== undefined) tanks.get(home)!.push(product); }
  const rest = used.filter((product) => homeTank(product) === undefined);
  rest.sort((a, b) => recipe.gramsByProduct[b.id]! - recipe.gramsByProduct[a.id]!);
  for (const product of rest) tanks.get(grams('A') <= grams('B') ? 'A' : 'B')!.push(product);
  return [...tanks].filter(([, products]) => products.length > 0);
}

function homeTank(product: FertiliserProduct): string | undefined {
  const groups = incompatibilityGroups(product);
  if (groups.includes('acid')) return 'C';
  if (groups.includes('alkaline') || groups.includes('oxidiser')) return 'D';
  if (groups.includes('calcium') || groups.includes('chelate')) return 'A';
  return groups.includes('phosphateOrSulfate') ? 'B' : undefined;
}

function fillTank(id: string, products: readonly FertiliserProduct[], recipe: Recipe, tankVolumeL: number): StockTank {
  const gramsByProduct = Object.fromEntries(products.map((product) => [product.id, recipe.gramsByProduct[product.id]!]));
  const parts = products.map((product) => scaleComposition(componentsMolPerKg(product), gramsByProduct[product.id]! / tankVolumeL));
  return { id, gramsByProduct, mmolPerL: addCompositions(...parts) };
}
