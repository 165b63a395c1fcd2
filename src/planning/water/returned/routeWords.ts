import type { Composition } from '../../../science/chemistry/composition.ts';
import { mixSolutions } from '../../../science/chemistry/composition.ts';
import { listOf, shown } from '../../words/plainWords.ts';
import { AHEAD_DAYS } from './expectedFeeds.ts';
import type { ReturnBatch } from './returnBatches.ts';
import type { BatchPlaces, RouteCosts, RoutingQuestion } from './routingQuestion.ts';

/** Why a batch goes where it goes, and whether the permit forbids it. */
export function routeWords(question: RoutingQuestion, batch: ReturnBatch, places: BatchPlaces, costs: RouteCosts | undefined): { reason: string; violation?: string } {
  const { tanks } = question;
  const place = places.get(batch)!;
  if (place < tanks.length) return { reason: batch.approved === undefined ? tankWords(question, place, places, costs) : 'as approved' };
  const violation = permitWords(question, batch, places);
  const reason = batch.approved === undefined ? dischargeWords(question, batch, places, costs) : batch.approved.to === undefined ? 'as approved' : `the tank that was approved, ${batch.approved.to}, is not known any more`;
  return { reason, ...(violation === undefined ? {} : { violation }) };
}

function tankWords({ tanks, currency, strictest }: RoutingQuestion, place: number, places: BatchPlaces, costs: RouteCosts | undefined): string {
  const { volumeL, mmolPerL } = mixedIn(tanks[place]!, place, places);
  const salt = `it will hold ${shown(volumeL, 0)} L with sodium ${shown(mmolPerL.Na ?? 0, 2)} of at most ${shown(strictest.sodiumMmolPerL, 2)} mmol/L`;
  if (costs === undefined) return `there is room, and like batches serve the next feeds best from there; ${salt}`;
  const saved = (other: number): string => `${shown(costs[other]! - costs[place]!, 2)} ${currency} less than ${other === tanks.length ? 'discharge' : tanks[other]!.source.title}`;
  const others = costs.map((_, other) => other).filter((other) => other !== place && Number.isFinite(costs[other]!) && costs[other]! - costs[place]! >= 0.005);
  const full = tanks.filter((_, l) => l !== place && costs[l] === Infinity).map(({ source }) => `${source.title} has no room`);
  const worth = others.length === 0 ? ['over the coming feeds it is no dearer there than anywhere else'] : [`with the feeds of the next ${AHEAD_DAYS} days that costs ${listOf(others.reverse().map(saved))}`];
  return [...worth, ...full, salt].join('; ');
}

function dischargeWords({ tanks, currency }: RoutingQuestion, batch: ReturnBatch, places: BatchPlaces, costs: RouteCosts | undefined): string {
  if (tanks.length === 0) return 'there is no return tank';
  return tanks.map(({ source, heldL }, l) => {
    const { volumeL } = mixedIn(tanks[l]!, l, places);
    const extra = costs === undefined ? undefined : costs[l]! - costs[tanks.length]!;
    if (volumeL + batch.litres > source.capacityL || extra === Infinity) return `${source.title} has no room (${shown(Math.max(heldL, volumeL), 0)} of ${shown(source.capacityL, 0)} L)`;
    if (extra === undefined) return `${source.title} serves the next feeds better without it`;
    return `in ${source.title} it would cost ${shown(Math.max(0, extra), 2)} ${currency} more over the feeds of the next ${AHEAD_DAYS} days (its sodium is ${shown(batch.mmolPerL.Na ?? 0, 2)} mmol/L)`;
  }).join('; ');
}

const GRAMS_N_PER_MOL = 14.007;

/** Nitrate beyond what the permit allows, of this batch or of all batches that are discharged today. */
function permitWords({ tanks, discharge: { nitrateMaxMmolPerL, nitrateMaxKgPerDay } }: RoutingQuestion, batch: ReturnBatch, places: BatchPlaces): string | undefined {
  const nitrate = batch.mmolPerL.NO3 ?? 0;
  const ask = 'Keep it in the basin until a tank has room or the authority agrees.';
  if (nitrateMaxMmolPerL !== undefined && nitrate > nitrateMaxMmolPerL) {
    return `its nitrate, ${shown(nitrate, 2)} mmol/L, is ${shown(nitrate - nitrateMaxMmolPerL, 2)} above the ${nitrateMaxMmolPerL} mmol/L that may be discharged, and no return tank takes it. ${ask}`;
  }
  if (nitrateMaxKgPerDay === undefined) return undefined;
  const kg = [...places].filter(([, place]) => place === tanks.length).reduce((sum, [{ litres, mmolPerL }]) => sum + (litres * (mmolPerL.NO3 ?? 0) * GRAMS_N_PER_MOL) / 1e6, 0);
  return kg <= nitrateMaxKgPerDay * (1 + 1e-9) ? undefined : `today's discharge would carry ${shown(kg, 2)} kg of nitrate nitrogen, ${shown(kg - nitrateMaxKgPerDay, 2)} above the ${nitrateMaxKgPerDay} kg a day that may be discharged, and no return tank takes more. ${ask}`;
}

function mixedIn(tank: RoutingQuestion['tanks'][number], place: number, places: BatchPlaces): { volumeL: number; mmolPerL: Composition } {
  const parts = [{ volumeL: Math.max(0, tank.heldL), mmolPerL: tank.mmolPerL }, ...[...places].filter(([, at]) => at === place).map(([{ litres, mmolPerL }]) => ({ volumeL: litres, mmolPerL }))];
  return parts.every(({ volumeL }) => volumeL <= 0) ? { volumeL: 0, mmolPerL: {} } : mixSolutions(parts);
}
