import type { CautionClass } from './cautions.ts';
import { componentsMolPerKg, type FertiliserProduct } from './fertiliserProducts.ts';
import { substanceOf } from './substances.ts';

/** What decides which products may share a concentrated tank. */
export type IncompatibilityGroup = 'calcium' | 'phosphateOrSulfate' | 'acid' | 'alkaline' | 'oxidiser' | 'chelate' | 'ammonium';

/** Pairs that must not share a concentrated tank, and why. Common practice; chemistry as named. */
export const INCOMPATIBLE_PAIRS: readonly (readonly [IncompatibilityGroup, IncompatibilityGroup, string])[] = [
  ['calcium', 'phosphateOrSulfate', 'calcium phosphate and gypsum come out of solution'],
  ['calcium', 'alkaline', 'calcium carbonate or silicate comes out of solution'],
  ['acid', 'alkaline', 'they neutralise each other with heat and spatter'],
  ['acid', 'chelate', 'strong acid takes the iron out of the chelate'],
  ['acid', 'oxidiser', 'chlorine or oxygen may be given off'],
  ['oxidiser', 'chelate', 'the oxidiser destroys the chelate'],
  ['oxidiser', 'ammonium', 'chloramines or explosive mixtures may form'],
  ['alkaline', 'ammonium', 'ammonia gas is given off'],
  ['alkaline', 'phosphateOrSulfate', 'heat, and magnesium or metal hydroxides come out of solution'],
  ['alkaline', 'chelate', 'iron leaves the chelate at high pH'],
];

/** Below this a component does not make a group, mol per kg of product (traces of the label's rounding). */
const TRACE_MOL_PER_KG = 0.05;

/** The groups of a product, from its composition and kind. */
export function incompatibilityGroups(product: FertiliserProduct): IncompatibilityGroup[] {
  const { Ca = 0, P = 0, SO4 = 0, NH4 = 0, HCO3 = 0 } = componentsMolPerKg(product);
  const { kind } = substanceOf(product.substance);
  const groups: [IncompatibilityGroup, boolean][] = [
    ['calcium', Ca > TRACE_MOL_PER_KG],
    ['phosphateOrSulfate', P + SO4 > TRACE_MOL_PER_KG],
    ['acid', kind === 'acid' || HCO3 < -TRACE_MOL_PER_KG],
    ['alkaline', kind === 'base'],
    ['oxidiser', kind === 'disinfectant'],
    ['chelate', kind === 'chelate'],
    ['ammonium', NH4 > TRACE_MOL_PER_KG],
  ];
  return groups.flatMap(([group, applies]) => (applies ? [group] : []));
}

/** Why two products must not share a concentrated tank; empty when they may. */
export function reasonsToKeepApart(one: FertiliserProduct, other: FertiliserProduct): string[] {
  const mine = incompatibilityGroups(one), theirs = incompatibilityGroups(other);
  return INCOMPATIBLE_PAIRS.flatMap(([a, b, reason]) =>
    (mine.includes(a) && theirs.includes(b)) || (mine.includes(b) && theirs.includes(a)) ? [reason] : []);
}

/** The cautions that belong to handling a product. */
export function cautionsOf(product: FertiliserProduct): CautionClass[] {
  const groups = incompatibilityGroups(product);
  const { storage } = substanceOf(product.substance);
  const named: [CautionClass, boolean][] = [
    ['acid', groups.includes('acid')], ['alkaline', groups.includes('alkaline')], ['disinfectant', groups.includes('oxidiser')],
    ['oxidising', storage.includes('oxidising')], ['calcium', groups.includes('calcium')],
    ['phosphateOrSulfate', groups.includes('phosphateOrSulfate')], ['chelate', groups.includes('chelate')],
    ['ammonium', groups.includes('ammonium')], ['dust', product.form === 'solid'],
  ];
  return named.flatMap(([name, applies]) => (applies ? [name] : []));
}
