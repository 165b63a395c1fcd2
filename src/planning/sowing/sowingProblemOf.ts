import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { limitId, sourceOf } from './growingLot.ts';
import { thinShare } from './readyBuffer.ts';
import type { SowingCalendar } from './sowingCalendar.ts';
import { sowingDemand } from './sowingDemand.ts';
import { stationHoursPerWeek, type SowingHouse } from './sowingHouse.ts';
import { sowingNeeds } from './sowingNeeds.ts';
import { sowingOptions } from './sowingOptions.ts';
import type { SowingLimit, SowingProblem, StandingSource } from './sowingProblem.ts';
import type { SowingQuestion } from './sowingQuestion.ts';

/** The decision in numbers: every lot that might be sown, every lot that stands, what is wanted, what there is. */
export function sowingProblemOf(question: SowingQuestion): SowingProblem {
  const { house, calendar, cards, standing } = question;
  const { sowing } = house.file;
  const byCrop = cards.map((card) => {
    const needs = sowingNeeds(question, card);
    const options = sowingOptions(card, question, needs);
    return { options: options.map(({ option }) => option), demand: sowingDemand(card, question, needs, options) };
  });
  const forEach = (of: (card: CropCard) => number): Record<string, number> => Object.fromEntries(cards.map((card) => [card.id, of(card)]));
  const shortCost = (card: CropCard): number => priceOf(card, question) * sowing.shortageFactor;
  return {
    blocks: calendar.blocks, places: house.places, options: byCrop.flatMap(({ options }) => options),
    standing: standing.map((lot): StandingSource => ({ ...sourceOf(lot, house, calendar), basins: lot.basins, lot: lot.id })),
    demand: byCrop.flatMap(({ demand }) => demand), limits: limitsOf(house, calendar),
    shortCostPerUnit: forEach(shortCost), thinCostPerUnit: forEach((card) => shortCost(card) * thinShare(sowing.serviceLevel)),
    wasteCostPerUnit: forEach((card) => (card.soldBy === 'kg' ? 1 : (card.harvest.readyFreshG * card.plantsPerUnit) / 1000) * sowing.wasteCostPerKg),
    wasteCostPerPlant: forEach((card) => (card.harvest.readyFreshG / 1000) * sowing.wasteCostPerKg),
  };
}

/** Mean of the prices of the open lines, else the crop card's. */
function priceOf(card: CropCard, { lines }: SowingQuestion): number {
  const priced = lines.flatMap(({ line }) => (line.crop === card.id && line.pricePerUnit !== undefined ? [line.pricePerUnit] : []));
  return priced.length === 0 ? card.sowing.pricePerUnit : priced.reduce((sum, each) => sum + each, 0) / priced.length;
}

function limitsOf(house: SowingHouse, calendar: SowingCalendar): SowingLimit[] {
  const weeks = Math.ceil((calendar.blocks.at(-1)!.toDay + 1) / 7);
  const { lampKWhPerWeekMax } = house.file.sowing;
  return Array.from({ length: weeks }, (_, week) => week).flatMap((week): SowingLimit[] => [
    { id: limitId('transplanting', week), title: 'Work at transplanting', unit: 'h', week, amount: stationHoursPerWeek(house.file, 'transplanting') },
    { id: limitId('harvest', week), title: 'Work at harvest', unit: 'h', week, amount: stationHoursPerWeek(house.file, 'harvest') },
    ...(lampKWhPerWeekMax === undefined ? [] : [{ id: limitId('lamps', week), title: 'Electricity of lamps', unit: 'kWh', week, amount: lampKWhPerWeekMax }]),
  ]).filter(({ amount }) => amount > 0);
}
