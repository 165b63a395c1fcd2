import type { CropCard, SolutionTable } from '../../greenhouse/schema/cropCard.ts';
import { chargeOf, COMPONENT_NAMES } from '../../science/chemistry/components.ts';
import { entriesOf, type Component, type Composition } from '../../science/chemistry/composition.ts';
import type { QualityLimit } from './blendProblem.ts';
import { freeIonMsPerCm25 } from './freeIonConductivity.ts';
import { alkalinityAtPH, pairingFactor } from './waterFigures.ts';

/** Alkalinity misses are compared to what buffers such waters, not to limits near zero, meq/L (common practice, no source). */
const BUFFER_MEQ_PER_L = 0.5;
/** Micronutrients above their band do less harm than anything below it (common practice, no source). */
const MICRO_EXCESS_WEIGHT = 0.1;

/** Where a card's target has none of a macronutrient, mmol/L: ammonium below 0.5 (Sonneveld & Voogt 2009, from memory). */
const NONE_WANTED_MMOL_PER_L = 0.5;

/** What a crop card keeps around the roots, as one composition. */
export const targetComposition = (card: CropCard): Composition => waterTable(card.water.target);

/** What the crop takes up with each litre, as one composition. */
export const uptakeComposition = (card: CropCard): Composition => waterTable(card.water.uptake);

/** A table of a crop card as one composition, mmol/L. */
export function waterTable({ mmolPerL, umolPerL }: SolutionTable): Composition {
  return { ...mmolPerL, ...Object.fromEntries(Object.entries(umolPerL).map(([name, umol]) => [name, umol / 1000])) } as Composition;
}

/** Component to its band around the roots, mmol/L, from target, tolerance and the highest sodium and chloride. */
export function componentBands(card: CropCard): Partial<Record<Component, readonly [number, number]>> {
  const { tolerance, traceTolerance, sodiumMaxMmolPerL, chlorideMaxMmolPerL } = card.water;
  const macros: Readonly<Record<string, number>> = card.water.target.mmolPerL;
  const bands: Partial<Record<Component, readonly [number, number]>> = {};
  for (const [name, target] of entriesOf(targetComposition(card))) {
    if (target > 0) bands[name] = [target * (1 - tolerance), target * (1 + (name in macros ? tolerance : Math.max(tolerance, traceTolerance)))];
    else if (name in macros) bands[name] = [0, NONE_WANTED_MMOL_PER_L];
  }
  return { ...bands, Na: [0, sodiumMaxMmolPerL], Cl: [0, chlorideMaxMmolPerL] };
}

/** What the crop will take from the basin before it is filled again: litres, and mmol of each component a litre. */
export interface ExpectedUptake { readonly litres: number; readonly mmolPerL: Composition }

/**
 * The bands as limits of a blend, narrowed by a share of themselves so that rounded litres still hold, and shifted so
 * that they still hold after the expected uptake.
 */
export function componentLimits(card: CropCard, narrowing: number, { litres, mmolPerL }: ExpectedUptake = NOTHING): QualityLimit[] {
  const micros: Readonly<Record<string, number>> = card.water.target.umolPerL;
  return Object.entries(componentBands(card)).map(([name, [low, high]]): QualityLimit => {
    const taken = mmolPerL[name as Component] ?? 0;
    return {
      name, unit: 'mmol/L', weights: { [name]: 1 }, constant: 0, ...narrow(low, high, narrowing),
      lowShift: Math.max(0, (taken - low) * litres), highShift: Math.min(0, (taken - high) * litres),
      ...(name in micros ? { highWeight: MICRO_EXCESS_WEIGHT } : {}),
    };
  });
}

const NOTHING: ExpectedUptake = { litres: 0, mmolPerL: {} };

/** Nothing has to be held at a lower limit of zero. */
function narrow(low: number, high: number, share: number): { low?: number; high: number } {
  const margin = share * Math.max(Math.abs(low), Math.abs(high));
  if (high - low <= 2 * margin) return { low: (low + high) / 2, high: (low + high) / 2 };
  return { ...(low === 0 ? {} : { low: low + margin }), high: high - margin };
}

/**
 * The pH band as limits on alkalinity: what the water must have at least and at most to stand within it at the carbon
 * dioxide of a basin (by speciation of `around`; with phosphate, which buffers, as the one slope). Absent where the
 * water cannot be speciated.
 */
export function acidityLimits(card: CropCard, around: Composition, narrowing: number): QualityLimit[] {
  const [low, high] = card.water.pH;
  const margin = narrowing * 0.5;
  return [...acidityLimit(around, low, 'low', margin), ...acidityLimit(around, high, 'high', -margin)];
}

function acidityLimit(around: Composition, pH: number, side: 'low' | 'high', margin: number): QualityLimit[] {
  const P = around.P ?? 0;
  const at = alkalinityAtPH(around, pH);
  const more = alkalinityAtPH({ ...around, P: P + 0.1 }, pH);
  if (at === undefined || more === undefined) return [];
  const perP = (more - at) / 0.1;
  return [{ name: `pH ${pH}`, unit: 'meq/L alkalinity', scale: BUFFER_MEQ_PER_L, weights: { HCO3: 1, P: -perP }, constant: perP * P, [side]: at + margin }];
}

/** Conductivity as a plane through its value and slopes at one composition: exact there, within 1 % for changes of a tenth. Ion pairs count by one factor. */
export function conductivityLimit(card: CropCard, around: Composition, narrowing: number): QualityLimit {
  const [low, high] = card.water.ecMsPerCm25;
  const pairing = pairingFactor(around);
  const conductivity = (composition: Composition): number => pairing * freeIonMsPerCm25(composition);
  const at = conductivity(around);
  const weights: Record<string, number> = {};
  let constant = at;
  for (const name of COMPONENT_NAMES) {
    if (chargeOf(name) === 0) continue;
    const mmolPerL = around[name] ?? 0;
    const step = Math.max(0.01 * Math.abs(mmolPerL), 1e-4);
    const slope = (conductivity({ ...around, [name]: mmolPerL + step }) - at) / step;
    weights[name] = slope;
    constant -= slope * mmolPerL;
  }
  return { name: 'conductivity', unit: 'mS/cm', weights, constant, ...narrow(low, high, narrowing) };
}
