import type { MassBasis } from '../../greenhouse/scanEvents.ts';
import { learnMass } from '../../science/scan/mass/learnMass.ts';
import type { MassModel } from '../../science/scan/mass/massModel.ts';
import { predictMass } from '../../science/scan/mass/predictMass.ts';
import type { ScanPlant } from './scanPlants.ts';
import { massPlant, MASS_TRAITS, type WeighedPlants } from './weighedPlants.ts';

export interface MassQuestion {
  readonly crop: string;
  readonly ageDays: number;
  readonly weighed: WeighedPlants;
  /** From the crop card: grams for each litre of canopy, and the standard deviation of its logarithm. */
  readonly freshGPerCanopyL: number;
  readonly freshGPerCanopyLSpread: number;
}

/** Standard normal quantile of 95 % (tables). */
const Z95 = 1.6449;
/** Of a mass told from the card: what plants of a scan differ in mass for the same canopy (own judgement, no source). */
const OWN_LN_SD = 0.2;

/**
 * Gives every plant its mass: from plants that were weighed (any cultivar, drawn towards its own), else from the litres of its canopy and
 * the crop card, with a wide interval. The same weights and plants give the same answer.
 */
export function estimateMass(plants: readonly ScanPlant[], question: MassQuestion): { readonly plants: readonly ScanPlant[]; readonly basis: MassBasis } {
  if (plants.length === 0) return { plants, basis: { from: 'nothing', reason: 'Nothing grows in this basin.' } };
  const { samples, sums } = question.weighed;
  const learnt = learnMass(samples, MASS_TRAITS, sums);
  return (learnt.ok ? fromModel(plants, question, learnt.value) : undefined) ?? fromCard(plants, question);
}

/** Undefined where the weighed plants tell less than the card: other ages, or so few days that mass and size cannot be told apart. */
function fromModel(plants: readonly ScanPlant[], question: MassQuestion, model: MassModel): ReturnType<typeof estimateMass> | undefined {
  let common = 0;
  const told: ScanPlant[] = [];
  for (const plant of plants) {
    const outcome = predictMass(model, massPlant(question, plant));
    if (!outcome.ok) return undefined;
    const { medianG, lowG, highG, lnSd } = outcome.value;
    common += Math.max(0, lnSd * lnSd - model.plantVariance) / plants.length;
    told.push({ ...plant, mass: { freshG: medianG, lowG, highG } });
  }
  if (Math.sqrt(common) >= question.freshGPerCanopyLSpread) return undefined;
  return { plants: told, basis: { from: 'weighed', samples: model.samples, ofCultivar: question.weighed.samples.filter(({ cultivar }) => cultivar === question.crop).length, commonLnSd: Number(Math.sqrt(common).toFixed(4)) } };
}

function fromCard(plants: readonly ScanPlant[], { freshGPerCanopyL, freshGPerCanopyLSpread }: MassQuestion): ReturnType<typeof estimateMass> {
  const reach = Z95 * Math.hypot(freshGPerCanopyLSpread, OWN_LN_SD);
  const told = plants.map((plant) => {
    const freshG = Math.max(0.01, (plant.volumeMm3 / 1e6) * freshGPerCanopyL);
    return { ...plant, mass: { freshG, lowG: freshG * Math.exp(-reach), highG: freshG * Math.exp(reach) } };
  });
  return { plants: told, basis: { from: 'card', commonLnSd: freshGPerCanopyLSpread } };
}
