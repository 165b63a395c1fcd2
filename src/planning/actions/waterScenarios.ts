import { componentsMolPerKg } from '../../science/chemistry/fertiliserProducts.ts';
import { fertiliserOf } from '../../greenhouse/productComposition.ts';
import type { KnownSolution } from '../water/solutionEstimate.ts';
import { componentBands } from '../water/feedLimits.ts';
import { countOf, shown } from '../words/plainWords.ts';
import { notPossible, possible, type Scenario, type ScenarioQuestion, type Scenarios } from './scenario.ts';

const MORE_NITROGEN = 'More nitrogen';
const OTHER_EC = 'Other conductivity';
const N_G_PER_MMOL = 0.014007;
/** Emissions of making nitrogen fertiliser that names no factor of its own, kg per kg (emissionFactors.ts). */
const UNKNOWN_KG_PER_KG = 1;

/**
 * Other water: within the recipe's hard limits, at the price of what is on the shelf. No effect on growth is claimed: the
 * growth models know light, air and carbon dioxide, and take water and nutrients as sufficient.
 */
export function waterScenarios(question: ScenarioQuestion): Scenarios {
  const known = question.basins.flatMap(({ water }) => (water.known ? [water.solution] : []));
  if (known.length === 0) return notPossible(`${MORE_NITROGEN} or ${OTHER_EC.toLowerCase()}`, 'Nobody knows what is in its basins: measure level, conductivity and pH first.');
  const parts = [moreNitrogen(question, known), otherConductivity(question, known)];
  return { possible: parts.flatMap((part) => part.possible), notPossible: parts.flatMap((part) => part.notPossible) };
}

const meanOf = (known: readonly KnownSolution[], read: (solution: KnownSolution) => number): number => known.reduce((sum, each) => sum + read(each) * each.volumeL, 0) / Math.max(1e-9, known.reduce((sum, { volumeL }) => sum + volumeL, 0));

function moreNitrogen(question: ScenarioQuestion, known: readonly KnownSolution[]): Scenarios {
  const { card, basins, plants } = question.lot.view;
  const band = componentBands(card).NO3;
  const now = meanOf(known, ({ mmolPerL }) => mmolPerL.NO3 ?? 0);
  if (band === undefined || now >= band[1]) return notPossible(MORE_NITROGEN, `Nitrate stands at ${shown(now, 1)} mmol/L, at or above the upper limit of its recipe${band === undefined ? '' : ` (${shown(band[1], 1)})`}.`);
  const mmol = known.reduce((sum, { volumeL, mmolPerL }) => sum + volumeL * Math.max(0, band[1] - (mmolPerL.NO3 ?? 0)), 0);
  const salt = cheapestNitrate(question);
  if (salt === undefined) return notPossible(MORE_NITROGEN, 'No nitrate fertiliser is on the shelf.');
  const kg = mmol / 1000 / salt.molPerKg;
  const short = now < band[0];
  const words = `Nitrate of ${countOf(basins.length, 'basin')} from ${shown(now, 1)} to ${shown(band[1], 1)} mmol/L, the upper limit of the recipe, with the next feed: ${shown(mmol * N_G_PER_MMOL, 0)} g of nitrogen, as ${shown(kg, 2)} kg of ${salt.title}.`;
  return possible({
    ...feeding(question), action: 'more-nitrogen', title: MORE_NITROGEN, doing: words, order: { do: 'feed', words }, plants, fertiliserCost: kg * salt.pricePerKg, fertiliserKgCo2e: kg * salt.kgCo2ePerKg,
    noEffectClaimed: short ? `no effect is claimed: nitrate is below its band (${shown(band[0], 1)} to ${shown(band[1], 1)} mmol/L), which may hold growth back, but the growth model does not know nitrogen and cannot say by how much. Bring it back into its band whatever is decided here.`
      : `no effect is claimed: nitrate is within its band (${shown(band[0], 1)} to ${shown(band[1], 1)} mmol/L), and the growth model does not know nitrogen. Only the cost counts.`,
  });
}

function otherConductivity(question: ScenarioQuestion, known: readonly KnownSolution[]): Scenarios {
  const { card, plants } = question.lot.view;
  const [low, high] = card.water.ecMsPerCm25;
  const now = meanOf(known, ({ ecMsPerCm25 }) => ecMsPerCm25);
  const to = now > high || high - now < now - low ? low + (high - low) / 4 : high;
  const litres = to < now ? known.reduce((sum, { volumeL }) => sum + volumeL * (1 - to / now), 0) : 0;
  const fresh = Math.min(...question.file.sources.filter(({ kind }) => kind === 'fresh').map(({ costPerM3 }) => costPerM3), Infinity);
  const perL = (question.file.prices.dischargePerM3 + (Number.isFinite(fresh) ? fresh : 0)) / 1000;
  const words = `Conductivity from ${shown(now, 2)} to ${shown(to, 2)} mS/cm with the next feed, within the recipe's ${shown(low, 1)} to ${shown(high, 1)}${litres > 0 ? `: about ${shown(litres, 0)} L are drained and made up with fresh water` : ''}.`;
  return possible({
    ...feeding(question), action: 'other-conductivity', title: OTHER_EC, doing: words, order: { do: 'feed', words }, plants, fertiliserCost: litres * perL,
    noEffectClaimed: now > high ? 'no effect is claimed: conductivity is above its band, which slows lettuce (Maas & Hoffman 1977 give 13 % of yield for each dS/m above 1.3 dS/m, in saturated soil extract, from memory, unverified: not a figure for water culture). Bring it back into its band whatever is decided here.'
      : 'no effect is claimed: conductivity is within its band, and the growth model does not know it. Only the cost counts.',
  });
}

/** What a filling visit of every basin takes, whatever is filled. */
function feeding({ file, lot: { view } }: ScenarioQuestion): Pick<Scenario, 'workH' | 'leftOut'> {
  const station = file.stations.find(({ kind }) => kind === 'filling');
  return { workH: (view.basins.length * (station?.service.fixedS ?? 0) * (station?.crew ?? 1)) / 3600, leftOut: ['Vehicle time is not counted, nor that a feed may be due anyway.'] };
}

/** The product on the shelf that gives nitrate at the least price. */
function cheapestNitrate({ state }: ScenarioQuestion): { title: string; molPerKg: number; pricePerKg: number; kgCo2ePerKg: number } | undefined {
  return Object.values(state.products).flatMap((product) => {
    const known = fertiliserOf(product);
    const molPerKg = known === undefined || known.form === 'liquid' ? 0 : componentsMolPerKg(known).NO3 ?? 0;
    return molPerKg > 0 ? [{ title: product.title, molPerKg, pricePerKg: product.pricePerKg, kgCo2ePerKg: product.kgCo2ePerKg ?? UNKNOWN_KG_PER_KG }] : [];
  }).sort((a, b) => a.pricePerKg / a.molPerKg - b.pricePerKg / b.molPerKg || (a.title < b.title ? -1 : 1))[0];
}
