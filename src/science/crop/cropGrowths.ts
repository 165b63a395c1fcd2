/** What is assumed of growth where a crop card says nothing more, and how a card's words become what the forecast takes. */
import type { DryMatterCurve } from './dryMatter.ts';
import { CULTIVAR_DRY_MATTER, HERB_DRY_MATTER, LETTUCE_DRY_MATTER } from './dryMatter.ts';
import type { ParameterOverrides } from './growthModel.ts';
import type { CropGrowth } from './lotForecast.ts';

/**
 * Dry seedling mass of lettuce at planting into a basin: geometric mean and spread of Van Henten's two crops, which began
 * with 0.15 and 0.04 g a plant (Van Henten 1994, section on validation); a lot's own samples soon say more.
 */
const LETTUCE_SEEDLING = { seedlingDryG: 0.077, seedlingLogSd: 0.7 };

/** A head that a market takes: common practice, no source. */
const LETTUCE_READY = { readyFreshG: 250, readyShare: 0.8 };

/** Content of dry lettuce shoots, mmol per g: of the same order as the leafy tissue of 36 basil samples (N 5.34, P 0.68, K 4.89, Ca 2.21, Mg 0.88, S 0.38 %). */
export const LEAFY_TISSUE_MMOL_PER_G: Readonly<Record<string, number>> = { N: 3.81, P: 0.22, K: 1.25, Ca: 0.551, Mg: 0.362, S: 0.119 };

const lettuce = (crop: string, dryMatter: DryMatterCurve): CropGrowth => ({
  crop, modelId: 'two-state-lettuce', parameters: {}, ...LETTUCE_SEEDLING, ...LETTUCE_READY, dryMatter, tissueMmolPerGDry: LEAFY_TISSUE_MMOL_PER_G,
});

const herb = (crop: string): CropGrowth => ({
  crop, modelId: 'expolinear', parameters: {}, seedlingDryG: 0.02, seedlingLogSd: 0.7, readyFreshG: 27, readyShare: 0.75,
  dryMatter: HERB_DRY_MATTER, tissueMmolPerGDry: LEAFY_TISSUE_MMOL_PER_G,
});

/** Crops that may be named without a card: lettuce, its types, cultivars with a dry-matter curve of their own, herbs. */
export const KNOWN_CROP_GROWTHS: Readonly<Record<string, CropGrowth>> = {
  ...Object.fromEntries(['lettuce', 'butterhead', 'oakleaf', 'batavia', 'romaine'].map((type) => [type, lettuce(type, LETTUCE_DRY_MATTER)])),
  ...Object.fromEntries(Object.entries(CULTIVAR_DRY_MATTER).map(([cultivar, curve]) => [cultivar, lettuce(cultivar, curve)])),
  ...Object.fromEntries(['herb', 'basil', 'coriander', 'parsley'].map((type) => [type, herb(type)])),
};

/** What a crop card says, in the card's own units. */
export interface CardGrowth {
  readonly crop: string;
  readonly kind: 'leafy' | 'herb' | 'fruiting' | 'vine';
  readonly cultivar: string;
  readonly modelId: string;
  readonly parameters: ParameterOverrides;
  readonly seedlingDryMg: number;
  /** Relative spread of that mass between lots. */
  readonly seedlingSpread: number;
  readonly readyFreshG: number;
  readonly readyShare: number;
}

/** The forecast's view of a card: dry matter by cultivar where there is a fit for it, else by kind. */
export function cropGrowthOf(card: CardGrowth): CropGrowth {
  const cultivar = card.cultivar.toLowerCase();
  const known = Object.keys(CULTIVAR_DRY_MATTER).find((name) => cultivar.includes(name));
  return {
    crop: card.crop, modelId: card.modelId, parameters: card.parameters,
    seedlingDryG: card.seedlingDryMg / 1000, seedlingLogSd: Math.sqrt(Math.log1p(card.seedlingSpread ** 2)),
    readyFreshG: card.readyFreshG, readyShare: card.readyShare,
    dryMatter: known === undefined ? (card.kind === 'herb' ? HERB_DRY_MATTER : LETTUCE_DRY_MATTER) : CULTIVAR_DRY_MATTER[known]!,
    tissueMmolPerGDry: LEAFY_TISSUE_MMOL_PER_G,
  };
}
