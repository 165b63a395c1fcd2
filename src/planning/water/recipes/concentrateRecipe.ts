import { fertiliserOf } from '../../../greenhouse/productComposition.ts';
import type { CropCard } from '../../../greenhouse/schema/cropCard.ts';
import type { ProductDescription } from '../../../greenhouse/schema/productsFile.ts';
import { COMPONENT_NAMES, type Component, type Composition } from '../../../science/chemistry/composition.ts';
import { componentsMolPerKg, type FertiliserProduct } from '../../../science/chemistry/fertiliserProducts.ts';
import { RESIDUAL_ALKALINITY_MEQ_PER_L } from '../../../science/chemistry/fertiliserRecipe.ts';
import { stockTanks, type StockRecipe, type StockRequest, type StockTank } from '../../../science/chemistry/stockTanks.ts';
import { substanceOf } from '../../../science/chemistry/substances.ts';
import { accepted, type Outcome, type Refusal } from '../../../science/refusal.ts';
import { listOf, shown } from '../../words/plainWords.ts';
import { waterTable } from '../feedLimits.ts';
import { alkalinityAtPH, waterFigures } from '../waterFigures.ts';
import { tankSheet, type TankSheet } from './tankSheet.ts';

export interface ConcentrateQuestion {
  readonly card: CropCard;
  /** Which table of the crop card the finished feed shall hold: around the roots, or what replaces what the crop took. */
  readonly table: 'target' | 'feed';
  readonly water: { readonly title: string; readonly mmolPerL: Composition; readonly basis: string };
  readonly products: readonly ProductDescription[];
  /** Litres of feed from one litre of each concentrate. */
  readonly concentrationFactor: number;
  readonly tankVolumeL: number;
  readonly coldestC: number;
  /** Tanks that somebody wants for products, by product; the others stand where they belong. */
  readonly moves: Readonly<Record<string, string>>;
  /** Litres of feed that basins of this crop take today. */
  readonly neededTodayL: number;
}

export interface ConcentrateRecipe {
  readonly title: string;
  /** Where the crop card has its table from. */
  readonly tableSource: string;
  readonly waterTitle: string;
  readonly waterBasis: string;
  readonly feedL: number;
  readonly sheets: readonly TankSheet[];
  readonly components: readonly RecipeLine[];
  readonly ecMsPerCm25: number;
  readonly pH?: number;
  /** Products for a cubic metre of feed, in the greenhouse currency. */
  readonly costPerM3: number;
  /** How to use the concentrates, in a safe order. */
  readonly dosing: readonly string[];
  readonly warnings: readonly Refusal[];
  readonly why: string;
}

/** One component of the finished feed, mmol/L. Absent target: free, only reported. */
export interface RecipeLine { readonly component: Component; readonly target?: number; readonly water: number; readonly achieved: number }

/**
 * Concentrates for one crop from the products at hand and the analysis of a water: grams for every tank, acid included where the
 * water has alkalinity to take. Refused: what `stockTanks` refuses (incompatible, insoluble, saturated), with every reason.
 */
export function concentrateRecipe(question: ConcentrateQuestion): Outcome<ConcentrateRecipe> {
  const targetMmolPerL = wantedOf(question);
  const products = usableProducts(question, targetMmolPerL);
  const request: StockRequest = {
    targetMmolPerL, waterMmolPerL: question.water.mmolPerL, products,
    concentrationFactor: question.concentrationFactor, tankVolumeL: question.tankVolumeL, coldestC: question.coldestC,
  };
  const made = stockTanks(request);
  const moves = Object.entries(question.moves);
  if (!made.ok || moves.length === 0) return made.ok ? accepted(describe(question, products, made.value, made.warnings)) : made;
  const moved = stockTanks({ ...request, tanks: moveProducts(made.value.tanks, question.moves) });
  return moved.ok ? accepted(describe(question, products, moved.value, moved.warnings)) : moved;
}

/** Alkalinity above its aim by less than this is left: no tank of acid for a few grams (common practice, no source). */
const WORTH_ACID_MEQ_PER_L = 0.1;

/**
 * What the feed is aimed at: the table of the card, and the alkalinity with which it stands in the middle of the crop's pH band in a
 * basin, as far as the water has it. A component of which the card wants none is left free: the calcium nitrate of the trade brings
 * some ammonium, and calcium matters more.
 */
function wantedOf({ card, table, water }: ConcentrateQuestion): Composition {
  const named = Object.fromEntries(Object.entries(waterTable(card.water[table])).filter(([, value]) => value > 0)) as Composition;
  const [low, high] = card.water.pH;
  const alkalinity = Math.max(0, alkalinityAtPH(named, (low + high) / 2) ?? RESIDUAL_ALKALINITY_MEQ_PER_L);
  const present = water.mmolPerL.HCO3 ?? 0;
  return { ...named, HCO3: present - alkalinity > WORTH_ACID_MEQ_PER_L ? alkalinity : present };
}

/** No base, and no acid where the water has no alkalinity to take: neither is a fertiliser here. Disinfectants never; plain ammonium salts not for a crop that wants none. */
function usableProducts({ products, water }: ConcentrateQuestion, target: Composition): FertiliserProduct[] {
  const takesAcid = (water.mmolPerL.HCO3 ?? 0) > (target.HCO3 ?? 0);
  return products.flatMap((product) => fertiliserOf(product) ?? []).filter((product) => {
    const { kind } = substanceOf(product.substance);
    const { NH4 = 0, Ca = 0 } = componentsMolPerKg(product);
    if (NH4 > Ca && target.NH4 === undefined) return false;
    return kind === 'salt' || kind === 'chelate' || (kind === 'acid' && takesAcid);
  });
}

function moveProducts(tanks: readonly StockTank[], moves: Readonly<Record<string, string>>): Record<string, string[]> {
  const moved: Record<string, string[]> = {};
  for (const tank of tanks) for (const product of Object.keys(tank.gramsByProduct)) (moved[moves[product] ?? tank.id] ??= []).push(product);
  return Object.fromEntries(Object.entries(moved).sort(([a], [b]) => (a < b ? -1 : 1)));
}

function describe(question: ConcentrateQuestion, products: readonly FertiliserProduct[], recipe: StockRecipe, warnings: readonly Refusal[]): ConcentrateRecipe {
  const { card, table, water, concentrationFactor, tankVolumeL, coldestC, neededTodayL } = question;
  const { ecMsPerCm25, pH } = waterFigures(recipe.feed.achievedMmolPerL);
  const prices = new Map(question.products.map(({ id, pricePerKg }) => [id, pricePerKg]));
  const cost = Object.entries(recipe.feed.gramsByProduct).reduce((sum, [id, grams]) => sum + (grams / 1000) * (prices.get(id) ?? 0), 0);
  return {
    title: `${card.title}, ${table === 'target' ? 'as kept around the roots' : 'as replaces what the crop took'}`, tableSource: card.water[table].source,
    waterTitle: water.title, waterBasis: water.basis, feedL: recipe.feedL, components: linesOf(recipe, water.mmolPerL, question),
    sheets: recipe.tanks.map((tank) => tankSheet({
      ...tank, title: `Tank ${tank.id}`, products, fullL: tankVolumeL, presentL: 0, coldestC, checks: warnings.filter(({ path }) => path === `tanks.${tank.id}`),
      yields: [yieldWords(question, recipe.feedL), leftWords(neededTodayL / concentrationFactor, tankVolumeL, card.title)],
    })),
    ecMsPerCm25, ...(pH === undefined ? {} : { pH }), costPerM3: cost / (recipe.feedL / 1000),
    dosing: dosingSteps(recipe.tanks, question), warnings: warnings.filter(({ path }) => !path.startsWith('tanks.')), why: 'recipe',
  };
}

function linesOf({ feed }: StockRecipe, water: Composition, { card, table }: ConcentrateQuestion): RecipeLine[] {
  const target = waterTable(card.water[table]);
  return COMPONENT_NAMES.filter((name) => target[name] !== undefined || feed.achievedMmolPerL[name] !== undefined).map((component) => ({
    component, ...(target[component] === undefined ? {} : { target: target[component] }), water: water[component] ?? 0, achieved: feed.achievedMmolPerL[component] ?? 0,
  }));
}

const yieldWords = ({ tankVolumeL, concentrationFactor }: ConcentrateQuestion, feedL: number): string =>
  `${shown(tankVolumeL, 1)} L make ${shown(feedL / 1000, 1)} m³ of feed at 1 L in ${shown(concentrationFactor, 0)} L, together with the other tanks of this set.`;

function leftWords(usedL: number, tankVolumeL: number, crop: string): string {
  if (usedL === 0) return `No basin of ${crop} is filled today.`;
  if (usedL > tankVolumeL) return `If today's fillings of ${crop} were made with it, they would need ${shown(usedL, 1)} L: one tank is not enough.`;
  return `If today's fillings of ${crop} were made with it, they would need ${shown(usedL, 1)} L; ${shown(tankVolumeL - usedL, 1)} L are left over.`;
}

/** Water first, calcium before what it must not meet, acid last and into water: the same order as on a feed ticket. */
function dosingSteps(tanks: readonly StockTank[], { concentrationFactor, water }: ConcentrateQuestion): string[] {
  const eachL = 100 / concentrationFactor;
  const order = [...tanks].sort((a, b) => turnOf(a) - turnOf(b));
  return [
    `For 100 L of feed: ${shown(100 - eachL * tanks.length, 1)} L of ${water.title} first.`,
    ...order.map(({ id, mmolPerL }) => `Then ${shown(eachL, 3)} L of ${id}${(mmolPerL.HCO3 ?? 0) < 0 ? ' (acid, into the water, never the reverse)' : ''}, and stir.`),
    `Never put ${listOf(tanks.map(({ id }) => id))} together undiluted.`,
  ];
}

const turnOf = ({ mmolPerL }: StockTank): number => ((mmolPerL.HCO3 ?? 0) < 0 ? 2 : (mmolPerL.Ca ?? 0) > 0 ? 0 : 1);
