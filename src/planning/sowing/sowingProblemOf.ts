import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { OpenLine } from '../orders/outlookOrders.ts';
import type { ExpectedOrders } from './expectedOrders.ts';
import { limitId, placesPerBasin, sourceOf, type GrowingLot } from './growingLot.ts';
import type { SeasonGrowth } from './seasonGrowth.ts';
import type { SowingCalendar } from './sowingCalendar.ts';
import { stationHoursPerWeek, type SowingHouse } from './sowingHouse.ts';
import type { SowingPromise } from './unitsAhead.ts';
import type { SowingDemand, SowingLimit, SowingOption, SowingPlace, SowingProblem, StandingSource } from './sowingProblem.ts';

export interface StandingLot extends GrowingLot { readonly basins: number }

export interface SowingQuestion {
  readonly house: SowingHouse;
  readonly calendar: SowingCalendar;
  readonly cards: readonly CropCard[];
  /** How a lot of a crop sown on a day grows with its last stages in a glass place; undefined where that cannot be said. */
  readonly growth: (card: CropCard, glass: SowingPlace, sowDate: string) => SeasonGrowth | undefined;
  readonly standing: readonly StandingLot[];
  readonly lines: readonly OpenLine[];
  readonly expected: ExpectedOrders;
}

/** The decision in numbers: every lot that might be sown, every lot that stands, what is wanted, what there is. */
export function sowingProblemOf(question: SowingQuestion): SowingProblem {
  const { house, calendar, cards, standing } = question;
  const options = cards.flatMap((card) => optionsOf(card, question));
  const standingSources = standing.map((lot): StandingSource => ({ ...sourceOf(lot, house, calendar), basins: lot.basins, lot: lot.id }));
  const price = (card: CropCard): number => {
    const priced = question.lines.filter(({ line }) => line.crop === card.id && line.pricePerUnit !== undefined).map(({ line }) => line.pricePerUnit!);
    return priced.length === 0 ? card.sowing.pricePerUnit : priced.reduce((sum, each) => sum + each, 0) / priced.length;
  };
  return {
    blocks: calendar.blocks, places: house.places, options, standing: standingSources,
    demand: demandOf(question, options), limits: limitsOf(house, calendar),
    shortCostPerUnit: Object.fromEntries(cards.map((card) => [card.id, price(card) * house.file.sowing.shortageFactor])),
    wasteCostPerUnit: Object.fromEntries(cards.map((card) => [card.id, ((card.soldBy === 'kg' ? 1 : (card.harvest.readyFreshG * card.plantsPerUnit) / 1000)) * house.file.sowing.wasteCostPerKg])),
    wasteCostPerPlant: Object.fromEntries(cards.map((card) => [card.id, (card.harvest.readyFreshG / 1000) * house.file.sowing.wasteCostPerKg])),
  };
}

/** What the manager promises, and how often lots are sown. */
export const promiseOf = ({ sowing: { serviceLevel, weekdays } }: GreenhouseFile): SowingPromise => ({ serviceLevel, sowingEveryDays: 7 / new Set(weekdays).size });

/** The place of each stage: the greenhouse's nursery where the stage wants one (else glass), the glass place that is tried. */
export function placesOfStages(card: CropCard, house: SowingHouse, glass: SowingPlace): SowingPlace[] {
  const nursery = house.places.find(({ kind }) => kind === 'nursery');
  return card.stages.map(({ bay }) => (bay === 'nursery' ? nursery ?? glass : glass));
}

/**
 * A lot is no larger than so many times the largest need of the blocks in which it may be cut: orders lean on several lots,
 * whose lateness is not one another's (own choice).
 */
const LARGEST_LOT = 1.25;

function optionsOf(card: CropCard, question: SowingQuestion): SowingOption[] {
  const { house, calendar, growth } = question;
  const needs = calendar.blocks.map((_, block) => needOf(question, card, block));
  return house.places.filter(({ kind }) => kind === 'glass').flatMap((glass) => calendar.sowDays.flatMap((sowDay): SowingOption[] => {
    const grown = growth(card, glass, calendar.dateOf(sowDay));
    if (grown === undefined) return [];
    const places = placesOfStages(card, house, glass);
    const starts = grown.starts.map(calendar.dayOf);
    const stages = card.stages.map((_, i) => ({ stage: i, place: places[i]!, fromDay: starts[i]!, toDay: starts[i + 1] ?? Infinity }));
    const last = stages.at(-1)!;
    const lot: GrowingLot = { id: `${card.id}@${calendar.dateOf(sowDay)}@${glass.id}`, card, stages, plantsPerBasin: placesPerBasin(card, last.stage, last.place), units: grown.units, isNew: true };
    const source = sourceOf(lot, house, calendar);
    if (source.cuts.length === 0) return [];
    const basinsFor = ({ block, unitsPerPlant }: SowingOption['cuts'][number]) => (needs[block]!.orderedUnits + needs[block]!.expectedUnits) / (unitsPerPlant * lot.plantsPerBasin);
    return [{ ...source, sowDay, mostBasins: Math.min(last.place.usableBasins, Math.ceil(LARGEST_LOT * Math.max(...source.cuts.map(basinsFor)))) }];
  }));
}

/** Up to the first harvest of the last sowing of a crop: what lies beyond is the business of later plans. */
function demandOf(question: SowingQuestion, options: readonly SowingOption[]): SowingDemand[] {
  return question.cards.flatMap((card) => {
    const own = options.filter(({ crop }) => crop === card.id);
    const lastBlock = own.reduce((latest, { cuts }) => Math.max(latest, cuts[0]!.block), -1);
    return question.calendar.blocks.slice(0, lastBlock + 1).map((_, block) => needOf(question, card, block)).filter(({ orderedUnits, expectedUnits }) => orderedUnits + expectedUnits > 1e-9);
  });
}

/** Keys of lines that come on top of what is expected begin with this. */
export const EXTRA = 'extra ';

/** What is wanted of a crop in a block: known orders, and beyond the order book what they leave of those expected. */
function needOf({ calendar, lines, expected }: SowingQuestion, card: CropCard, block: number): SowingDemand {
  const { fromDay, toDay } = calendar.blocks[block]!;
  const dates = Array.from({ length: toDay - fromDay + 1 }, (_, i) => calendar.dateOf(fromDay + i));
  const known = (among: readonly string[], withExtra: boolean) => lines.filter(({ key, line, leaves }) => line.crop === card.id && among.includes(leaves) && (withExtra || !key.startsWith(EXTRA))).reduce((sum, { openUnits }) => sum + openUnits, 0);
  const open = dates.filter((date) => date >= expected.fromDate);
  return { crop: card.id, block, orderedUnits: known(dates, true), expectedUnits: open.length === 0 ? 0 : Math.max(0, expected.units(card.id, open).cover - known(open, false)) };
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
