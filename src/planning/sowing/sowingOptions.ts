import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { placesPerBasin, sourceOf, type GrowingLot } from './growingLot.ts';
import { placesOfStages } from './placesOfStages.ts';
import { wantedUnits, type SowingNeed } from './sowingNeeds.ts';
import type { SowingOption, SowingPlace } from './sowingProblem.ts';
import type { SowingQuestion } from './sowingQuestion.ts';

/** A lot that may be sown: as the solver takes it, and as it grows. */
export interface OptionLot { readonly option: SowingOption; readonly lot: GrowingLot }

/**
 * A lot is no larger than so many times the largest need of the blocks in which it may be cut: orders lean on several lots,
 * whose lateness is not one another's (own choice).
 */
const LARGEST_LOT = 1.25;

/** Lots of a crop that may be sown on each sowing day, one for each glass place; those that cannot be cut within the blocks are left out. */
export function sowingOptions(card: CropCard, question: SowingQuestion, needs: readonly SowingNeed[]): OptionLot[] {
  const { house, calendar } = question;
  return house.places.filter(({ kind }) => kind === 'glass').flatMap((glass) => calendar.sowDays.flatMap((sowDay): OptionLot[] => {
    const lot = lotSown(card, question, glass, sowDay);
    const source = lot && sourceOf(lot, house, calendar);
    if (source === undefined || source.cuts.length === 0) return [];
    const basinsFor = ({ block, unitsPerPlant }: SowingOption['cuts'][number]) => wantedUnits(needs[block]!) / (unitsPerPlant * source.plantsPerBasin);
    const most = Math.ceil(LARGEST_LOT * Math.max(...source.cuts.map(basinsFor)));
    return [{ lot: lot!, option: { ...source, sowDay, mostBasins: Math.min(glass.usableBasins, most) } }];
  }));
}

function lotSown(card: CropCard, { house, calendar, growth }: SowingQuestion, glass: SowingPlace, sowDay: number): GrowingLot | undefined {
  const grown = growth(card, glass, calendar.dateOf(sowDay));
  if (grown === undefined) return undefined;
  const places = placesOfStages(card, house, glass);
  const starts = grown.starts.map(calendar.dayOf);
  const stages = card.stages.map((_, i) => ({ stage: i, place: places[i]!, fromDay: starts[i]!, toDay: starts[i + 1] ?? Infinity }));
  const last = stages.at(-1)!;
  return { id: `${card.id}@${calendar.dateOf(sowDay)}@${glass.id}`, card, stages, plantsPerBasin: placesPerBasin(card, last.stage, last.place), units: grown.units, isNew: true };
}
