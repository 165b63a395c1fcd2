import type { Refusal } from '../refusal.ts';
import { log10KAt } from './equilibriumConstant.ts';
import { ACTIVITY_CLASS, speciesIndex } from './equilibriumSystem.ts';
import { MINERAL_IDS, MINERALS, type Mineral, type MineralId } from './minerals.ts';
import type { Speciation } from './speciation.ts';

/** Minerals as index lists. */
const RECIPES = MINERAL_IDS.map((id) => {
  const mineral: Mineral = MINERALS[id];
  const parts = Object.entries(mineral.dissolvesInto).filter(([name]) => name !== 'H2O').map(([name, n]) => [speciesIndex(name), n] as const);
  return { id, constant: mineral.constant, parts, water: mineral.dissolvesInto.H2O ?? 0 };
});

/** log10 K of all minerals at the temperatures asked for last. */
const kept = new Map<number, readonly number[]>();

function constantsAt(temperatureC: number): readonly number[] {
  const known = kept.get(temperatureC);
  if (known !== undefined) return known;
  if (kept.size >= 16) kept.delete(kept.keys().next().value!);
  const made = RECIPES.map(({ constant }) => log10KAt(constant, temperatureC));
  kept.set(temperatureC, made);
  return made;
}

export type SaturationIndices = Readonly<Partial<Record<MineralId, number>>>;

/**
 * log10 of ion activity product over solubility product, for every mineral whose parts are all in the water. Above 0 it can come
 * out. For carbonDioxide: log10 of the partial pressure, atm. Above an ionic strength of 0.1 mol/kg good to plus or minus 0.3 only.
 */
export function saturationIndices(speciation: Speciation): SaturationIndices {
  const constants = constantsAt(speciation.temperatureC);
  const log10Water = Math.log10(speciation.waterActivity);
  const indices: Partial<Record<MineralId, number>> = {};
  for (let k = 0; k < RECIPES.length; k += 1) {
    const { id, parts, water } = RECIPES[k]!;
    let sum = water * log10Water - constants[k]!;
    for (const [s, n] of parts) sum += n * (Math.log10(speciation.molPerKg[s]!) + speciation.log10GammaByClass[ACTIVITY_CLASS[s]!]!);
    if (Number.isFinite(sum)) indices[id] = sum;
  }
  return indices;
}

/** Where the solution stands: what counts as too much depends on it. */
export type SolutionPlace = 'source' | 'feed' | 'stock';

interface SaturationLimit { readonly mineral: MineralId; readonly warnAbove: number; readonly refuseAbove?: number }

/** Engineering judgement (no published limits): nutrient solutions bear some supersaturation of brushite for days. */
export const SATURATION_LIMITS: Readonly<Record<SolutionPlace, readonly SaturationLimit[]>> = {
  source: [{ mineral: 'calcite', warnAbove: 0.3, refuseAbove: 1 }],
  feed: [
    { mineral: 'brushite', warnAbove: 0, refuseAbove: 0.5 }, { mineral: 'gypsum', warnAbove: -0.1, refuseAbove: 0 },
    { mineral: 'calcite', warnAbove: 0.3, refuseAbove: 1 }, { mineral: 'struvite', warnAbove: 0.3, refuseAbove: 1 },
  ],
  /** Calculated to plus or minus 0.3, so refused with that margin below what a feed may have. */
  stock: [
    { mineral: 'brushite', warnAbove: -0.3, refuseAbove: 0.2 }, { mineral: 'gypsum', warnAbove: -0.4, refuseAbove: -0.1 },
    { mineral: 'struvite', warnAbove: 0, refuseAbove: 0.3 },
  ],
};

/** Every mineral that is above its limit: a warning, or an error where it must not be used. */
export function refuseSaturation(indices: SaturationIndices, place: SolutionPlace, path: string): Refusal[] {
  return SATURATION_LIMITS[place].flatMap(({ mineral, warnAbove, refuseAbove }): Refusal[] => {
    const index = indices[mineral];
    if (index === undefined || index <= warnAbove) return [];
    const tooMuch = refuseAbove !== undefined && index > refuseAbove;
    return [{ code: 'not-soluble', path, value: Number(index.toFixed(2)), limit: tooMuch ? refuseAbove : warnAbove, unit: '[lg]', severity: tooMuch ? 'error' : 'warning',
      message: `${MINERALS[mineral].name} ${tooMuch ? 'comes' : 'may come'} out of solution (saturation index ${index.toFixed(2)})` }];
  });
}
