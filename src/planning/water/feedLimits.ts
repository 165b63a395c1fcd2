import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { ec25UsPerCm } from '../../science/chemistry/conductivity.ts';
import { chargeOf, COMPONENT_NAMES } from '../../science/chemistry/components.ts';
import { entriesOf, type Component, type Composition } from '../../science/chemistry/composition.ts';
import type { QualityLimit } from './blendProblem.ts';

/**
 * Alkalinity that a feed leaves, meq/L: enough to buffer, little enough that pH does not climb once carbon dioxide has
 * escaped. 0.3 to 0.5 is common horticultural practice (no source); never below zero, that would be free acid.
 */
export const ALKALINITY_BAND_MEQ_PER_L: readonly [number, number] = [0, 0.5];

/** Where a card's target has none of a macronutrient, mmol/L: ammonium below 0.5 (Sonneveld & Voogt 2009, from memory). */
const NONE_WANTED_MMOL_PER_L = 0.5;

/** What a crop card keeps around the roots, as one composition. */
export function targetComposition(card: CropCard): Composition {
  const { mmolPerL, umolPerL } = card.water.target;
  const micro = Object.entries(umolPerL).map(([name, umol]) => [name, umol / 1000]);
  return { ...mmolPerL, ...Object.fromEntries(micro) } as Composition;
}

/** What the crop takes up with each litre, as one composition. */
export function uptakeComposition(card: CropCard): Composition {
  const { mmolPerL, umolPerL } = card.water.uptake;
  return { ...mmolPerL, ...Object.fromEntries(Object.entries(umolPerL).map(([name, umol]) => [name, umol / 1000])) } as Composition;
}

/** Component to its band around the roots, mmol/L, from target, tolerance and the highest sodium and chloride. */
export function componentBands(card: CropCard): Partial<Record<Component, readonly [number, number]>> {
  const { tolerance, sodiumMaxMmolPerL, chlorideMaxMmolPerL } = card.water;
  const macros: Readonly<Record<string, number>> = card.water.target.mmolPerL;
  const bands: Partial<Record<Component, readonly [number, number]>> = {};
  for (const [name, target] of entriesOf(targetComposition(card))) {
    if (target > 0) bands[name] = [target * (1 - tolerance), target * (1 + tolerance)];
    else if (name in macros) bands[name] = [0, NONE_WANTED_MMOL_PER_L];
  }
  return { ...bands, Na: [0, sodiumMaxMmolPerL], Cl: [0, chlorideMaxMmolPerL], HCO3: ALKALINITY_BAND_MEQ_PER_L };
}

/** The bands as limits of a blend, narrowed by a share of themselves so that rounded litres still hold. */
export function componentLimits(card: CropCard, narrowing: number): QualityLimit[] {
  return Object.entries(componentBands(card)).map(([name, [low, high]]) => ({
    name, unit: 'mmol/L', weights: { [name]: 1 }, constant: 0,
    ...narrow(low, high, narrowing),
  }));
}

/** A band from zero has no lower limit to hold, except for alkalinity, which may be negative. */
function narrow(low: number, high: number, share: number): { low?: number; high: number } {
  const margin = share * Math.max(Math.abs(low), Math.abs(high));
  return high - low > 2 * margin ? { low: low + margin, high: high - margin } : { low: (low + high) / 2, high: (low + high) / 2 };
}

/** Conductivity as a plane through its value and slopes at one composition: exact there, within 1 % for changes of a tenth. */
export function conductivityLimit(card: CropCard, around: Composition, narrowing: number): QualityLimit {
  const [low, high] = card.water.ecMsPerCm25;
  const at = ec25UsPerCm(around) / 1000;
  const weights: Record<string, number> = {};
  let constant = at;
  for (const name of COMPONENT_NAMES) {
    if (chargeOf(name) === 0) continue;
    const mmolPerL = around[name] ?? 0;
    const step = Math.max(0.01 * Math.abs(mmolPerL), 1e-4);
    const slope = (ec25UsPerCm({ ...around, [name]: mmolPerL + step }) / 1000 - at) / step;
    weights[name] = slope;
    constant -= slope * mmolPerL;
  }
  return { name: 'conductivity', unit: 'mS/cm', weights, constant, ...narrow(low, high, narrowing) };
}
