import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { OrderLine } from '../../greenhouse/schema/tableRows.ts';
import { placesPerBasin, sureGermination } from '../../planning/sowing/growingLot.ts';
import type { SowingHouse } from '../../planning/sowing/sowingHouse.ts';
import { placesOfStages } from '../../planning/sowing/placesOfStages.ts';
import { addDays } from '../demo/demoCalendar.ts';
import type { SeasonSowing } from './seasonSowing.ts';

/**
 * The rule that the sowing plan is held against: every sowing day the same number of plants of each crop, so that a week's
 * sowings yield the average week of the season's orders (which it is told) by the crop card's losses, times a margin. Parts of basins carry over.
 */
export class CalendarRule {
  readonly #house: SowingHouse;
  readonly #basinsPerSowing: ReadonlyMap<CropCard, number>;
  readonly #carried = new Map<CropCard, number>();

  constructor(house: SowingHouse, cards: readonly CropCard[], season: readonly OrderLine[], weeks: number, margin: number) {
    this.#house = house;
    const sowings = house.file.sowing.weekdays.length;
    this.#basinsPerSowing = new Map(cards.map((card) => {
      const unitsPerWeek = season.filter(({ crop }) => crop === card.id).reduce((sum, { units }) => sum + units, 0) / weeks;
      const unitsPerPlant = (1 - card.harvest.lossShare) / card.plantsPerUnit;
      return [card, (margin * unitsPerWeek) / (unitsPerPlant * this.#plantsPerBasin(card)) / sowings];
    }));
  }

  #plantsPerBasin(card: CropCard): number {
    const glass = this.#house.places.find(({ kind }) => kind === 'glass')!;
    return placesPerBasin(card, card.stages.length - 1, placesOfStages(card, this.#house, glass).at(-1)!);
  }

  sow(date: string): SeasonSowing[] {
    return [...this.#basinsPerSowing].flatMap(([card, perSowing]): SeasonSowing[] => {
      const wanted = (this.#carried.get(card) ?? 0) + perSowing;
      const basins = Math.round(wanted);
      this.#carried.set(card, wanted - basins);
      const plants = basins * this.#plantsPerBasin(card);
      const seeds = Math.ceil(plants / sureGermination(card, this.#house.file.sowing.serviceLevel));
      return basins <= 0 ? [] : [{ crop: card.id, sowDate: date, seeds, plants, inBasinOn: addDays(date, Math.round(card.sowing.trayDays)) }];
    });
  }
}
