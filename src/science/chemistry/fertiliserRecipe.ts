import { accepted, refused, type Outcome, type Refusal } from '../refusal.ts';
import { addCompositions, entriesOf, scaleComposition, subtractCompositions, type Component, type Composition } from './composition.ts';
import { refuseComposition, refuseNotPositive } from './compositionChecks.ts';
import { componentsMolPerKg, type FertiliserProduct } from './fertiliserProducts.ts';
import { solveNonNegative } from './nonNegativeLeastSquares.ts';

export interface RecipeRequest {
  /** What the finished solution shall hold. A component that is not named here is free and only reported. */
  readonly targetMmolPerL: Composition;
  /** Analysis of the water it is made with. Absent: pure water. */
  readonly waterMmolPerL?: Composition;
  readonly products: readonly FertiliserProduct[];
  readonly volumeL: number;
  /**
   * Sulfate and the like that come with micro-nutrient salts: 'leave' adds them on top, as books do (the default),
   * 'count' lets the main salts make room for them.
   */
  readonly microCounterIons?: 'leave' | 'count';
}

export interface Recipe {
  /** Grams of each product for the volume; only products that are used. */
  readonly gramsByProduct: Readonly<Record<string, number>>;
  readonly volumeL: number;
  readonly achievedMmolPerL: Composition;
  /** Achieved minus target, for each component of the target. */
  readonly residualMmolPerL: Composition;
}

const MICROS: readonly Component[] = ['Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo'];
const MACROS: readonly Component[] = ['NH4', 'K', 'Ca', 'Mg', 'NO3', 'SO4', 'P', 'Si', 'Cl', 'Na'];
/** Alkalinity left in the solution when nothing is said about it: buffers without drifting far (common practice, no source). */
export const RESIDUAL_ALKALINITY_MEQ_PER_L = 0.4;
/** Alkalinity outweighs every nutrient: no acid is spent to come nearer to a nitrate target. */
const ALKALINITY_WEIGHT = 1000;
/** Free acid below this is rounding, meq/L. */
const NO_ACID_MEQ_PER_L = 1e-4;
/** A component off by more than this share of its target is warned about. */
const WARN_SHARE = 0.02;

/**
 * Grams of each product that bring water to a target: micro-nutrients first, then the main salts and acids together, each as
 * the non-negative least-squares solution weighted by the target, which is exact wherever the products allow it.
 * Refused: malformed compositions, no volume, a mixture without alkalinity left. Warned: components off by more than 2 %.
 */
export function gramsForRecipe(request: RecipeRequest): Outcome<Recipe> {
  const faults = refuseRequest(request);
  if (faults.length > 0) return refused(faults);
  const target = withAlkalinity(request);
  const water = request.waterMmolPerL ?? {};
  const micro = solveStage(request.products.filter(isMicroProduct), MICROS, target, water);
  const base = request.microCounterIons === 'count' ? addCompositions(water, micro.addedMmolPerL) : water;
  const macroProducts = request.products.filter((product) => !isMicroProduct(product));
  const macro = solveStage(macroProducts, [...MACROS, 'HCO3'], target, base);
  return finishRecipe(request, target, [...micro.used, ...macro.used], addCompositions(water, micro.addedMmolPerL, macro.addedMmolPerL));
}

function refuseRequest(request: RecipeRequest): Refusal[] {
  return [
    ...refuseComposition(request.targetMmolPerL, 'targetMmolPerL'),
    ...refuseComposition(request.waterMmolPerL ?? {}, 'waterMmolPerL'),
    ...refuseNotPositive(request.volumeL, 'volumeL', 'L'),
  ];
}

/** With an acid or base at hand alkalinity is always a target, so that no acid is spent as a mere source of nitrate. */
function withAlkalinity({ targetMmolPerL, waterMmolPerL, products }: RecipeRequest): Composition {
  const touchesAlkalinity = products.some((product) => (componentsMolPerKg(product).HCO3 ?? 0) !== 0 && !isMicroProduct(product));
  if (targetMmolPerL.HCO3 !== undefined || !touchesAlkalinity) return targetMmolPerL;
  return { ...targetMmolPerL, HCO3: Math.min(waterMmolPerL?.HCO3 ?? 0, RESIDUAL_ALKALINITY_MEQ_PER_L) };
}

/** Micro-nutrient products carry at most three moles of main nutrients to one of micro-nutrients. Compound fertilisers do not. */
function isMicroProduct(product: FertiliserProduct): boolean {
  const content = componentsMolPerKg(product);
  const sum = (names: readonly Component[]): number => names.reduce((total, name) => total + Math.max(0, content[name] ?? 0), 0);
  const micro = sum(MICROS);
  return micro > 0 && sum(MACROS) <= 3 * micro;
}

interface Stage {
  readonly used: readonly (readonly [string, number])[];
  readonly addedMmolPerL: Composition;
}

/** Kilograms per 1,000 L, which is grams per litre: mol per kg times g per L is mmol per L. */
function solveStage(products: readonly FertiliserProduct[], rows: readonly Component[], target: Composition, water: Composition): Stage {
  const wanted = rows.filter((name) => target[name] !== undefined);
  const weights = wanted.map((name) => (name === 'HCO3' ? ALKALINITY_WEIGHT : 1 / Math.max(target[name]!, smallestWeighed(name))));
  const contents = products.map(componentsMolPerKg);
  const columns = contents.map((content) => wanted.map((name, i) => (content[name] ?? 0) * weights[i]!));
  const missing = wanted.map((name, i) => (target[name]! - (water[name] ?? 0)) * weights[i]!);
  const gramsPerL = solveNonNegative(columns, missing);
  const used = products.flatMap((product, j) => (gramsPerL[j]! > 0 ? [[product.id, gramsPerL[j]!] as const] : []));
  return { used, addedMmolPerL: addCompositions(...contents.map((content, j) => scaleComposition(content, gramsPerL[j]!))) };
}

/** Deviations of a component with a small target weigh no more than those of this target, mmol/L. */
const smallestWeighed = (name: Component): number => (MICROS.includes(name) ? 0.0005 : 0.1);

function finishRecipe(request: RecipeRequest, target: Composition, used: Stage['used'], achieved: Composition): Outcome<Recipe> {
  if ((achieved.HCO3 ?? 0) < -NO_ACID_MEQ_PER_L) {
    return refused([{ code: 'infeasible', path: 'targetMmolPerL', value: achieved.HCO3, limit: 0, unit: 'meq/L', severity: 'error',
      message: 'the products leave free acid in the solution; name an alkalinity or offer less acidic products' }]);
  }
  const residual = subtractCompositions(Object.fromEntries(entriesOf(target).map(([name]) => [name, achieved[name] ?? 0])), target);
  const gramsByProduct = Object.fromEntries(used.map(([id, gramsPerL]) => [id, gramsPerL * request.volumeL]));
  return accepted({ gramsByProduct, volumeL: request.volumeL, achievedMmolPerL: achieved, residualMmolPerL: residual }, warnDeviations(residual, target));
}

function warnDeviations(residual: Composition, target: Composition): Refusal[] {
  return entriesOf(residual).flatMap(([name, off]): Refusal[] => {
    const allowed = WARN_SHARE * Math.max(target[name]!, smallestWeighed(name));
    if (Math.abs(off) <= allowed) return [];
    return [{ code: 'infeasible', path: `targetMmolPerL.${name}`, value: target[name]! + off, limit: target[name]!, unit: 'mmol/L', severity: 'warning',
      message: `${name} comes out ${off > 0 ? 'above' : 'below'} its target with these products and this water` }];
  });
}
