import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { readyBuffer, type BufferLot } from './readyBuffer.ts';
import { wantedUnits, type SowingNeed } from './sowingNeeds.ts';
import type { OptionLot } from './sowingOptions.ts';
import type { SowingDemand } from './sowingProblem.ts';
import type { SowingQuestion } from './sowingQuestion.ts';

/** What is wanted of a crop, and the buffer behind it, up to the first harvest of its last sowing: what lies beyond is the business of later plans. */
export function sowingDemand(card: CropCard, question: SowingQuestion, needs: readonly SowingNeed[], options: readonly OptionLot[]): SowingDemand[] {
  const { calendar, house: { file: { sowing: { serviceLevel } } } } = question;
  const lastBlock = options.reduce((latest, { option }) => Math.max(latest, option.cuts[0]!.block), -1);
  const firstBlock = options.reduce((earliest, { option }) => Math.min(earliest, option.cuts[0]!.block), Infinity);
  const lots = bufferLots(card, question, needs, options);
  const window = options.reduce((longest, { option: { cuts } }) => Math.max(longest, calendar.blocks[cuts.at(-1)!.block]!.toDay + 1 - calendar.blocks[cuts[0]!.block]!.fromDay), 0);
  return needs.slice(0, lastBlock + 1).flatMap((need, block): SowingDemand[] => {
    if (wantedUnits(need) < 1e-9) return [];
    const day = calendar.blocks[block]!.toDay;
    return [{ crop: card.id, block, ...need, bufferUnits: block < firstBlock ? 0 : readyBuffer({ lots, day, serviceLevel, ordersSd: ordersSdBy(card, question, day, window) }) }];
  });
}

/**
 * Orders beyond the book are wrong by their weekly spread, independent from week to week; what was too much or too little
 * carries over for as long as lots stay good.
 */
function ordersSdBy(card: CropCard, { calendar, expected }: SowingQuestion, day: number, windowDays: number): number {
  const daysUnknown = Math.min(windowDays, Math.max(0, day + 1 - calendar.dayOf(expected.fromDate)));
  return expected.weekSd(card.id) * Math.sqrt(daysUnknown / 7);
}

/** Lots that stand, as they are; lots to be sown, as if each served its share of an even flow: how large they will be is not decided yet. */
function bufferLots(card: CropCard, { calendar, standing }: SowingQuestion, needs: readonly SowingNeed[], options: readonly OptionLot[]): BufferLot[] {
  const yieldSpread = card.sowing.saleableSpread;
  const stand = standing.filter((lot) => lot.card.id === card.id && lot.units.length > 0)
    .map(({ basins, plantsPerBasin, units }): BufferLot => ({ units: basins * plantsPerBasin * units.reduce((most, day) => Math.max(most, day.units), 0), firstDay: calendar.dayOf(units[0]!.date), days: units, yieldSpread }));
  const onePlace = options.filter(({ option }) => option.place === options[0]!.option.place);
  const everyDays = (7 * calendar.weeks) / Math.max(1, calendar.sowDays.length);
  const sown = onePlace.map(({ option: { cuts }, lot: { units } }): BufferLot => {
    const days = cuts.reduce((sum, { block }) => sum + calendar.blocks[block]!.toDay + 1 - calendar.blocks[block]!.fromDay, 0);
    const perDay = cuts.reduce((sum, { block }) => sum + wantedUnits(needs[block]!), 0) / days;
    return { units: perDay * everyDays, firstDay: calendar.dayOf(units[0]!.date), days: units, yieldSpread };
  });
  return [...stand, ...sown];
}
