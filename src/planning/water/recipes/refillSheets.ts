import type { SourceDescription } from '../../../greenhouse/schema/greenhouseFile.ts';
import type { CropCard } from '../../../greenhouse/schema/cropCard.ts';
import type { ProductDescription } from '../../../greenhouse/schema/productsFile.ts';
import { fertiliserOf, stockComposition } from '../../../greenhouse/productComposition.ts';
import { COMPONENTS, entriesOf, type Composition } from '../../../science/chemistry/composition.ts';
import { refuseStockTank } from '../../../science/chemistry/refuseStockTank.ts';
import type { Refusal } from '../../../science/refusal.ts';
import { countOf, listOf, shown } from '../../words/plainWords.ts';
import { targetComposition } from '../feedLimits.ts';
import { tankSheet, type TankSheet } from './tankSheet.ts';

export interface RefillQuestion {
  /** Stock, acid and base tanks are made up here; other sources are passed over. */
  readonly sources: readonly SourceDescription[];
  /** Litres in each tank now, by id; as described where absent. */
  readonly presentL: Readonly<Record<string, number>>;
  /** Litres that today's feeds draw from each tank, by id. */
  readonly drawnTodayL: Readonly<Record<string, number>>;
  readonly products: Readonly<Record<string, ProductDescription>>;
  readonly crops: readonly CropCard[];
  /** Water that the stocks are made with. */
  readonly waterMmolPerL: Composition;
  readonly coldestC: number;
}

/**
 * How to fill up every stock, acid and base tank of the greenhouse to its capacity, from the grams per litre that the greenhouse
 * file gives it. A tank whose products are unknown or must not share it gets the reasons instead of steps.
 */
export function refillSheets(question: RefillQuestion): TankSheet[] {
  return question.sources.filter(({ kind }) => kind === 'stock' || kind === 'acid' || kind === 'base').map((source) => refillSheet(source, question));
}

function refillSheet(source: SourceDescription, question: RefillQuestion): TankSheet {
  const gramsPerL = source.products ?? {};
  const products = Object.keys(gramsPerL).flatMap((id) => { const known = question.products[id]; return (known === undefined ? undefined : fertiliserOf(known)) ?? []; });
  const { mmolPerL, unknown } = stockComposition(gramsPerL, question.products);
  const fullL = source.capacityL;
  const presentL = Math.min(fullL, question.presentL[source.id] ?? source.availableL);
  const contents = { id: source.id, mmolPerL, products: products.map((product) => ({ product, gramsPerL: gramsPerL[product.id]! })) };
  return tankSheet({
    id: source.id, title: source.title, products, mmolPerL, fullL, presentL, coldestC: question.coldestC,
    gramsByProduct: Object.fromEntries(products.map(({ id }) => [id, gramsPerL[id]! * (fullL - presentL)])),
    checks: [...refuseUnknown(source, unknown), ...refuseStockTank(contents, question.waterMmolPerL, question.coldestC)],
    yields: [...(source.kind === 'stock' ? cropYields(fullL, mmolPerL, question.crops) : [acidityYield(fullL, mmolPerL.HCO3 ?? 0)]), leftWords(presentL, question.drawnTodayL[source.id] ?? 0)],
  });
}

function refuseUnknown({ id, title, products }: SourceDescription, unknown: readonly string[]): Refusal[] {
  if (products === undefined || Object.keys(products).length === 0) return [{ code: 'value-missing', path: `sources.${id}.products`, severity: 'error', message: `${title} does not say what it is made of: list grams per litre of each product in greenhouse.yaml.` }];
  return unknown.map((product) => ({ code: 'reference-unknown', path: `sources.${id}.products.${product}`, value: product, severity: 'error', message: `The composition of ${product} is not known: describe it in fertilisers.yaml.` }));
}

function leftWords(presentL: number, drawnL: number): string {
  const left = `${shown(presentL, 1)} L are in it now`;
  if (drawnL <= 0) return `${left}; today's feeds draw none of it.`;
  if (drawnL > presentL) return `${left}; today's feeds draw ${shown(drawnL, 3)} L, more than that.`;
  return `${left}; today's feeds draw ${shown(drawnL, 3)} L, so ${shown(presentL - drawnL, 1)} L are left over tonight, enough for ${countOf(Math.floor((presentL - drawnL) / drawnL), 'more such day')}.`;
}

/** How much water of each crop's target a full tank makes, at the dose at which its first component reaches the target. */
function cropYields(fullL: number, mmolPerL: Composition, crops: readonly CropCard[]): string[] {
  const cropsOf = new Map<string, string[]>();
  for (const card of crops) {
    const words = cropYield(fullL, mmolPerL, card);
    if (words !== undefined) cropsOf.set(words, [...(cropsOf.get(words) ?? []), card.title]);
  }
  return [...cropsOf].map(([words, titles]) => `A full tank makes ${words} for ${listOf(titles)}.`);
}

function cropYield(fullL: number, mmolPerL: Composition, card: CropCard): string | undefined {
  const target = targetComposition(card);
  const doses = entriesOf(mmolPerL).flatMap(([name, holds]) => (holds > 0 && (target[name] ?? 0) > 0 ? [{ name, lPerM3: (1000 * target[name]!) / holds }] : []));
  if (doses.length === 0) return undefined;
  const first = doses.reduce((least, dose) => (dose.lPerM3 < least.lPerM3 ? dose : least));
  return `${shown(fullL / first.lPerM3, 0)} m³ of feed at ${shown(first.lPerM3, 2)} L a cubic metre, where its ${COMPONENTS[first.name].name.split(',')[0]} alone reaches the target,`;
}

const acidityYield = (fullL: number, meqPerL: number): string =>
  `A full tank ${meqPerL < 0 ? 'takes' : 'adds'} 1 meq/L of alkalinity ${meqPerL < 0 ? 'from' : 'to'} ${shown((fullL * Math.abs(meqPerL)) / 1000, 1)} m³ of water, at ${shown(1000 / Math.abs(meqPerL), 2)} L a cubic metre.`;
