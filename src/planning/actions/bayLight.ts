import { quantilesOf } from '../../science/crop/massQuantiles.ts';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import { countOf, listOf, shown } from '../words/plainWords.ts';
import type { Grown } from './candidateOf.ts';
import { fillOrders, tabulateUnits } from './fillOrders.ts';
import type { BayLight } from './lotActions.ts';
import { priceOf, type House, type Market } from './weighScenario.ts';

/** A lot off target with nothing done and with one step more light in its bay. */
export interface LitLot { readonly bay: string; readonly title: string; readonly nothing: Grown; readonly light: Grown; readonly market: Market; readonly house: House }

/**
 * More light for all lots off target of a bay at once: the lamps light them all and their electricity is paid once, so that
 * what does not pay for one lot may pay for several. Lots that are on target are not counted. Bays with one such lot are left out.
 */
export function bayLights(lit: readonly LitLot[], file: GreenhouseFile, futures: number): BayLight[] {
  const bays = [...new Set(lit.map(({ bay }) => bay))];
  return bays.flatMap((bay) => {
    const here = lit.filter((lot) => lot.bay === bay);
    return here.length < 2 ? [] : [bayLight(here, file, futures)];
  });
}

function bayLight(here: readonly LitLot[], file: GreenhouseFile, futures: number): BayLight {
  const saved = new Float64Array(futures);
  for (const crop of new Set(here.map(({ house }) => house.card.id))) {
    const lots = here.filter(({ house }) => house.card.id === crop);
    const [dark, bright] = [shortageOf(lots, 'nothing', futures), shortageOf(lots, 'light', futures)];
    for (let m = 0; m < futures; m++) saved[m]! += (dark[m]! - bright[m]!) * file.sowing.shortageFactor;
  }
  // The lamps burn for the lot that stands longest under them.
  const kWh = Float64Array.from({ length: futures }, (_, m) => Math.max(...here.map(({ light }) => light.weighed.kWh[m]!)));
  const gains = saved.map((each, m) => each - kWh[m]! * file.prices.electricityPerKWh);
  const mean = (of: Float64Array): number => Number((of.reduce((sum, each) => sum + each, 0) / futures).toFixed(2)) + 0;
  const interval = (of: Float64Array, decimals: number) => { const { p05, p50, p95 } = quantilesOf(of); return { low: Number(p05.toFixed(decimals)) + 0, middle: Number(p50.toFixed(decimals)) + 0, high: Number(p95.toFixed(decimals)) + 0 }; };
  const figures = { bay: here[0]!.bay, title: here[0]!.title, lots: here.map(({ house }) => house.view.lot), meanGain: mean(gains), gain: interval(gains, 2), chanceBetter: gains.filter((gain) => gain > 0.005).length / futures, electricityKWh: interval(kWh, 0) };
  return { ...figures, sentence: words(figures, here, mean(saved), file.prices.currency) };
}

/** Money at list price of the units short in each future, with all these lots of one crop under one scenario. */
function shortageOf(lots: readonly LitLot[], scenario: 'nothing' | 'light', futures: number): Float64Array {
  // Lines that every one of these forecasts reaches: they are in the same order and stop at the end of a forecast.
  const { market, house } = lots.reduce((least, lot) => (lot.market.lines.length < least.market.lines.length ? lot : least));
  const tables = market.tables.map((table, i) => {
    const own = lots.find((lot) => lot.market.own === i);
    return own === undefined ? table : tabulateUnits(own[scenario].lot.unitsOn, market.lines, futures);
  });
  const { short } = fillOrders(market.lines, tables, -1, futures);
  return Float64Array.from({ length: futures }, (_, m) => market.lines.reduce((sum, line, l) => sum + short[l * futures + m]! * priceOf(house.card, line), 0));
}

function words({ lots, meanGain, chanceBetter, electricityKWh }: Omit<BayLight, 'sentence'>, here: readonly LitLot[], savedPrice: number, currency: string): string {
  const { doing } = here[0]!.light.lot.scenario;
  return `${doing.slice(0, doing.indexOf(', from tomorrow'))} for ${countOf(lots.length, 'lot')} off target there (${listOf(lots)}): expected gain ${shown(meanGain, 2)} ${currency} in all, better than doing nothing in ${shown(100 * chanceBetter, 0)} % of futures; units short saved ${shown(savedPrice, 2)} ${currency}, electricity ${shown(electricityKWh.middle, 0)} kWh.`;
}
