/** What is assumed of growth where a crop card says nothing more, and how a card's words become what the forecast takes. */
import type { DryMatterCurve } from './dryMatter.ts';
import { CULTIVAR_DRY_MATTER, FRUITING_DRY_MATTER, HERB_DRY_MATTER, LETTUCE_DRY_MATTER } from './dryMatter.ts';
import type { ParameterOverrides } from './growthModel.ts';
import type { CropGrowth } from './lotForecast.ts';
import type { TipBurnLimits } from './tipBurn.ts';
import { LETTUCE_TIP_BURN } from './tipBurn.ts';

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
  crop, modelId: 'two-state-lettuce', parameters: {}, ...LETTUCE_SEEDLING, ...LETTUCE_READY, dryMatter, tipBurn: LETTUCE_TIP_BURN, tissueMmolPerGDry: LEAFY_TISSUE_MMOL_PER_G,
});

const herb = (crop: string): CropGrowth => ({
  crop, modelId: 'expolinear', parameters: {}, seedlingDryG: 0.02, seedlingLogSd: 0.7, readyFreshG: 27, readyShare: 0.75,
  dryMatter: HERB_DRY_MATTER, tissueMmolPerGDry: LEAFY_TISSUE_MMOL_PER_G,
});

/**
 * Any other leafy crop, by analogy with lettuce. Light use 0.75 g/mol of a closed canopy: between 0.55, the mean over whole crops
 * indoors (Jin et al. 2023), and the 0.76 to 1.01 that closed canopies of lettuce made in 750 to 200 umol/m2/s (Carotti et al. 2021).
 */
const leafy = (crop: string): CropGrowth => ({
  crop, modelId: 'expolinear', parameters: { lue: 0.75 }, ...LETTUCE_SEEDLING, readyFreshG: 60, readyShare: 0.75,
  dryMatter: { ...LETTUCE_DRY_MATTER, lotLogSd: 0.25 }, tissueMmolPerGDry: LEAFY_TISSUE_MMOL_PER_G,
});

/**
 * A young plant of six nodes: the leaf area that the model gives it (0.038 m2) at 15 g dry per m2 of it. "Ready" has little meaning
 * for a crop that is picked for months: the weight of a plant with its first trusses full. Both common practice, no source.
 */
const tomato = (crop: string): CropGrowth => ({
  crop, modelId: 'reduced-tomato', parameters: {}, seedlingDryG: 2.5, seedlingLogSd: 0.5, readyFreshG: 3000, readyShare: 0.5, dryMatter: FRUITING_DRY_MATTER,
});

/** Crops that may be named without a card: lettuce, its types, cultivars with a dry-matter curve of their own, herbs, other leaves, tomato. */
export const KNOWN_CROP_GROWTHS: Readonly<Record<string, CropGrowth>> = {
  ...Object.fromEntries(['lettuce', 'butterhead', 'oakleaf', 'batavia', 'romaine'].map((type) => [type, lettuce(type, LETTUCE_DRY_MATTER)])),
  ...Object.fromEntries(Object.entries(CULTIVAR_DRY_MATTER).map(([cultivar, curve]) => [cultivar, lettuce(cultivar, curve)])),
  ...Object.fromEntries(['herb', 'basil', 'coriander', 'parsley'].map((type) => [type, herb(type)])),
  ...Object.fromEntries(['leafy', 'spinach', 'rocket', 'kale', 'mustard'].map((type) => [type, leafy(type)])),
  tomato: tomato('tomato'),
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
  readonly tipBurn?: TipBurnLimits;
}

const KIND_DRY_MATTER = { leafy: LETTUCE_DRY_MATTER, herb: HERB_DRY_MATTER, fruiting: FRUITING_DRY_MATTER, vine: FRUITING_DRY_MATTER } as const;

/** The forecast's view of a card: dry matter by cultivar where there is a fit for it, else by kind. */
export function cropGrowthOf(card: CardGrowth): CropGrowth {
  const cultivar = card.cultivar.toLowerCase();
  const known = Object.keys(CULTIVAR_DRY_MATTER).find((name) => cultivar.includes(name));
  return {
    crop: card.crop, modelId: card.modelId, parameters: card.parameters,
    seedlingDryG: card.seedlingDryMg / 1000, seedlingLogSd: Math.sqrt(Math.log1p(card.seedlingSpread ** 2)),
    readyFreshG: card.readyFreshG, readyShare: card.readyShare,
    dryMatter: known === undefined ? KIND_DRY_MATTER[card.kind] : CULTIVAR_DRY_MATTER[known]!,
    ...(card.tipBurn === undefined ? {} : { tipBurn: card.tipBurn }), tissueMmolPerGDry: LEAFY_TISSUE_MMOL_PER_G,
  };
}
