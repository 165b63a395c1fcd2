/** Share of plants that tip-burn makes unsaleable: beside the weight, not in it. */
import type { HourlyClimate } from './growthModel.ts';

/**
 * What a grower knows of a cultivar. No published curve of risk was found, so the limits are a grower's: 17 mol a day is about the most
 * for lettuce without moving air (Albright, Both & Chiu 2000, from memory, unverified); air at 28 to 32 C over roots at 20 to 24 C in
 * 400 to 750 umol/m2/s burnt (Carotti et al. 2021); the rest common practice, no source. All stand on the crop card.
 */
export interface TipBurnLimits {
  /** Daily light above which each mole counts. */
  readonly dliMolM2: number;
  /** Air above which all light of the hour counts, unless the roots are as warm as `warmRootC`. */
  readonly airC: number;
  readonly warmRootC: number;
  /** Growth of the stand, dry, above which each gram counts as the light that made it. */
  readonly growthGPerM2D: number;
  /** Plants lighter than this, fresh, do not burn: their hearts are open. */
  readonly fromFreshG: number;
  /** Counted light after which half of the plants are burnt. */
  readonly halfMolM2: number;
}

export const LETTUCE_TIP_BURN: TipBurnLimits = { dliMolM2: 17, airC: 28, warmRootC: 26, growthGPerM2D: 15, fromFreshG: 30, halfMolM2: 40 };

/** Dry mass per mole of light by which growth is counted as light (between Jin et al. 2023 and Carotti et al. 2021, as for leafy crops). */
const GRAMS_PER_MOL = 0.75;

/** Light of one day that counts, mol/m2, from its hours [fromHour, fromHour + 24) as far as the climate reaches. `rootC`: absent where nobody measured it. */
export function countedLight(limits: TipBurnLimits, climate: Pick<HourlyClimate, 'airC' | 'ppfdUmolM2S'>, fromHour: number, rootC?: number): number {
  let all = 0;
  let hot = 0;
  for (let i = Math.max(0, fromHour); i < Math.min(climate.airC.length, fromHour + 24); i += 1) {
    const mol = climate.ppfdUmolM2S[i]! * 3600 / 1e6;
    all += mol;
    if (climate.airC[i]! > limits.airC) hot += mol;
  }
  const warmRoots = rootC !== undefined && rootC >= limits.warmRootC;
  return Math.max(0, all - limits.dliMolM2, warmRoots ? 0 : hot);
}

/** Growth of one day that counts, as mol/m2 of the light that made it. */
export const countedGrowth = (limits: TipBurnLimits, grownGPerM2: number): number => Math.max(0, grownGPerM2 - limits.growthGPerM2D) / GRAMS_PER_MOL;

/** Share of plants burnt after so much counted light: half after `halfMolM2`, half of the rest after as much again. */
export const burntShare = (limits: TipBurnLimits, countedMolM2: number): number => 1 - 0.5 ** (countedMolM2 / limits.halfMolM2);
