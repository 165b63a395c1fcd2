import { chargeOf, COMPONENT_NAMES, type Component } from './components.ts';

export { COMPONENT_NAMES, COMPONENTS, isComponent, type Component } from './components.ts';

/**
 * What is dissolved, mmol per litre of solution, by component. An absent component is not there (or was not analysed:
 * whoever reads an analysis must say which). HCO3 is alkalinity and is negative in an acid that has used up its own.
 */
export type Composition = Readonly<Partial<Record<Component, number>>>;

/** A volume of solution. */
export interface SolutionVolume {
  readonly volumeL: number;
  readonly mmolPerL: Composition;
}

const fromEntries = (entries: readonly (readonly [Component, number])[]): Composition => Object.fromEntries(entries);

/** The components that are present, in the order of COMPONENTS, with their amounts. */
export function entriesOf(composition: Composition): [Component, number][] {
  return COMPONENT_NAMES.flatMap((name): [Component, number][] => {
    const value = composition[name];
    return value === undefined ? [] : [[name, value]];
  });
}

export const scaleComposition = (composition: Composition, factor: number): Composition =>
  fromEntries(entriesOf(composition).map(([name, value]) => [name, value * factor]));

/** Sum component by component; a component present in any part is present in the sum. */
export function addCompositions(...parts: readonly Composition[]): Composition {
  return combine(parts, (a, b) => a + b);
}

/** The larger value of each component. */
export function maxComposition(...parts: readonly Composition[]): Composition {
  return combine(parts, Math.max);
}

function combine(parts: readonly Composition[], join: (a: number, b: number) => number): Composition {
  const total: Partial<Record<Component, number>> = {};
  for (const part of parts) for (const [name, value] of entriesOf(part)) total[name] = join(total[name] ?? 0, value);
  return total;
}

/** The first minus the second, component by component. */
export const subtractCompositions = (from: Composition, taken: Composition): Composition =>
  addCompositions(from, scaleComposition(taken, -1));

/**
 * The solution that results when volumes are put together: volumes and amounts add up. Volume change on mixing is left
 * out (below 0.1 % between nutrient solutions). Total volume must be above zero: mixing nothing has no composition.
 */
export function mixSolutions(parts: readonly SolutionVolume[]): SolutionVolume {
  const volumeL = parts.reduce((sum, part) => sum + part.volumeL, 0);
  if (!(volumeL > 0)) throw new Error(`a mixture needs a volume above zero, got ${volumeL} L`);
  const amounts = addCompositions(...parts.map((part) => scaleComposition(part.mmolPerL, part.volumeL)));
  return { volumeL, mmolPerL: scaleComposition(amounts, 1 / volumeL) };
}

/** Sum of positive charges, meq/L, at the charges of COMPONENTS (for rules of thumb such as Sonneveld's). */
export const cationSumMeqPerL = (composition: Composition): number => chargeSum(composition, 1);

/** Sum of negative charges, meq/L, as a positive number. */
export const anionSumMeqPerL = (composition: Composition): number => chargeSum(composition, -1);

/** Cations minus anions, meq/L. Zero for a complete analysis. */
export const chargeBalanceMeqPerL = (composition: Composition): number =>
  cationSumMeqPerL(composition) - anionSumMeqPerL(composition);

/**
 * Charge error, percent: 100 (cations - anions) / (cations + anions). Absent where nothing charged is dissolved.
 * Good laboratory analyses of nutrient solutions lie within 5 %.
 */
export function chargeErrorPct(composition: Composition): number | undefined {
  const both = cationSumMeqPerL(composition) + anionSumMeqPerL(composition);
  return both > 0 ? (100 * chargeBalanceMeqPerL(composition)) / both : undefined;
}

/** An amount of negative alkalinity is free acid and counts as a cation. */
function chargeSum(composition: Composition, sign: 1 | -1): number {
  return entriesOf(composition).reduce((sum, [name, value]) => sum + Math.max(0, sign * chargeOf(name) * value), 0);
}

/** Ionic strength, mol/L, of the components as they stand (no ion pairs). Half the sum of concentration times charge squared. */
export function ionicStrengthMolPerL(composition: Composition): number {
  return entriesOf(composition).reduce((sum, [name, value]) => sum + (0.5 * chargeOf(name) ** 2 * Math.abs(value)) / 1000, 0);
}
