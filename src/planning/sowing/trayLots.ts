import type { GreenhouseState } from '../../greenhouse/state.ts';
import { addDays } from '../day/shiftDay.ts';
import { placesPerBasin } from './growingLot.ts';
import { placesOfStages } from './placesOfStages.ts';
import type { SowingQuestion, StandingLot } from './sowingQuestion.ts';

/**
 * What was sown and is still in its trays, as lots that stand: it will take basins and give units, and is not to be sown again. It grows
 * as a lot sown on its day would; one that is overdue comes into basins today.
 */
export function trayLots({ trays }: GreenhouseState, { house, calendar, cards, growth }: Omit<SowingQuestion, 'standing'>): StandingLot[] {
  const glass = house.places.find(({ kind }) => kind === 'glass');
  if (glass === undefined) return [];
  return Object.values(trays).flatMap((row): StandingLot[] => {
    const card = cards.find(({ id }) => id === row.crop);
    if (card === undefined) return [];
    const latestSown = addDays(calendar.date, -Math.round(card.sowing.trayDays));
    const grown = growth(card, glass, row.sown > latestSown ? row.sown : latestSown);
    if (grown === undefined) return [];
    const places = placesOfStages(card, house, glass), starts = grown.starts.map(calendar.dayOf);
    const basins = Math.max(1, Math.ceil(row.plants / placesPerBasin(card, card.stages.length - 1, places.at(-1)!)));
    return [{
      id: row.lot, card, basins, plantsPerBasin: row.plants / basins, isNew: false, units: grown.units,
      stages: card.stages.map((_, i) => ({ stage: i, place: places[i]!, fromDay: starts[i]!, toDay: starts[i + 1] ?? Infinity })),
    }];
  });
}
