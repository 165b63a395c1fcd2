import { addCompositions, scaleComposition, type Component, type Composition } from './composition.ts';
import { COMPONENTS } from './components.ts';
import { CONCENTRATION_FORMS, molPerGram, type ConcentrationFormName } from './concentrationUnits.ts';
import { ATOMIC_MASS_G_PER_MOL, molarMassGPerMol } from './molarMass.ts';
import { substanceOf, type SubstanceId } from './substances.ts';

/** How the bag or can states its strength. Fractions are by mass, 0 to 1, of the product as it is weighed. */
export type Grade =
  /** So much of it is the substance of the formula. */
  | { readonly by: 'purity'; readonly massFraction: number }
  /** So much of it is this element; everything else of the formula comes along in proportion. */
  | { readonly by: 'element'; readonly component: Component; readonly massFraction: number }
  /** The label lists elements or oxides; the formula is not used. */
  | { readonly by: 'label'; readonly massFractions: Readonly<Partial<Record<ConcentrationFormName, number>>> };

/** A fertiliser, acid or base as bought. */
export interface FertiliserProduct {
  readonly id: string;
  readonly name: string;
  readonly substance: SubstanceId;
  readonly grade: Grade;
  readonly form: 'solid' | 'liquid';
  /** Liquids: kilograms per litre at 20 C. */
  readonly densityKgPerL?: number;
  readonly pricePerKg?: number;
  /** The supplier's lot, so that a feed can be traced to it. */
  readonly lot?: string;
  /** Where grade and density come from. */
  readonly source?: string;
}

/**
 * Moles of each component in one kilogram of the product as bought, from formula and grade.
 * Example: pure KNO3 gives { K: 9.891, NO3: 9.891 }. Acids give a negative HCO3: what they take from the alkalinity.
 */
export function componentsMolPerKg(product: FertiliserProduct): Composition {
  const { grade } = product;
  if (grade.by === 'label') return fromLabel(grade.massFractions);
  const { components } = substanceOf(product.substance);
  return scaleComposition(components, formulaUnitsMolPerKg(product.substance, grade));
}

function formulaUnitsMolPerKg(substance: SubstanceId, grade: Exclude<Grade, { by: 'label' }>): number {
  const { formula, components } = substanceOf(substance);
  if (grade.by === 'purity') return (1000 * grade.massFraction) / molarMassGPerMol(formula);
  const perUnit = components[grade.component];
  if (perUnit === undefined) throw new Error(`${substance} contains no ${grade.component}, so its grade cannot be stated by it`);
  return (1000 * grade.massFraction) / ATOMIC_MASS_G_PER_MOL[COMPONENTS[grade.component].element]! / perUnit;
}

function fromLabel(massFractions: Readonly<Partial<Record<ConcentrationFormName, number>>>): Composition {
  const forms = Object.keys(massFractions) as ConcentrationFormName[];
  return addCompositions(...forms.map((form): Composition =>
    ({ [CONCENTRATION_FORMS[form].component]: 1000 * massFractions[form]! * molPerGram(form) })));
}

/** The same product as laboratory-pure substance: what recipes in books weigh. */
export const pureProduct = (substance: SubstanceId): FertiliserProduct =>
  ({ id: substance, name: substance, substance, grade: { by: 'purity', massFraction: 1 }, form: 'solid' });

/** Moles of each component in one litre of a liquid product; absent for a solid or without a density. */
export function componentsMolPerL(product: FertiliserProduct): Composition | undefined {
  if (product.form !== 'liquid' || product.densityKgPerL === undefined) return undefined;
  return scaleComposition(componentsMolPerKg(product), product.densityKgPerL);
}
