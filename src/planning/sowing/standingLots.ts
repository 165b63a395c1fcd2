import type { LotExpectation } from '../lots/forecastLots.ts';
import { placesPerBasin } from './growingLot.ts';
import type { SowingCalendar } from './sowingCalendar.ts';
import type { SowingHouse } from './sowingHouse.ts';
import type { SowingPlace } from './sowingProblem.ts';
import { placesOfStages } from './placesOfStages.ts';
import type { StandingLot } from './sowingQuestion.ts';
import type { HouseRecord } from './houseRecord.ts';
import { unitsAhead, type MassOnDay } from './unitsAhead.ts';

/** Scores between the 5 % and the 95 % quantile of a normal. */
const TAILS = 3.2897;

/**
 * Every lot that stands, with what its forecast says of the days ahead; its spread is no wider than that of the house's lots
 * around the season's curve, and a lot that was never weighed is moved as they were. A lot without a forecast only takes room.
 */
export function standingLots(lots: readonly LotExpectation[], house: SowingHouse, calendar: SowingCalendar, recordOf: (crop: string) => HouseRecord | undefined): StandingLot[] {
  return lots.flatMap(({ view, forecast }): StandingLot[] => {
    const { card } = view;
    const ownBay = view.basins.find(({ planting }) => planting?.stage === view.stage.id)?.bay ?? view.basins[0]!.bay;
    const own = house.places.find(({ bays }) => bays.includes(ownBay));
    const glass = own?.kind === 'glass' ? own : house.places.find(({ kind }) => kind === 'glass');
    if (own === undefined || glass === undefined) return [];
    const places = placesOfStages(card, house, glass).map((place, i) => (i === view.stageIndex ? own : place));
    const isLast = view.stageIndex + 1 === card.stages.length;
    const basins = isLast ? view.basins.length : Math.max(1, Math.ceil(view.plants / placesPerBasin(card, card.stages.length - 1, places.at(-1)!)));
    return [{
      id: view.lot, card, basins, plantsPerBasin: view.plants / basins, isNew: false, standingRatio: view.basins.length / basins,
      stages: stagesAhead(view, places, calendar), units: forecast === undefined ? [] : unitsAhead(card, forecast.basis.plantLogSd, massAhead(forecast, calendar.date, recordOf(card.id))),
    }];
  });
}

function massAhead({ dates, basis }: NonNullable<LotExpectation['forecast']>, date: string, record: HouseRecord | undefined): MassOnDay[] {
  const moved = basis.samplesUsed.length === 0 ? record?.logBias ?? 0 : 0;
  return dates.filter((day) => day.date >= date).map(({ date, freshG }) => ({
    date, freshG: freshG.p50 * Math.exp(moved), logSd: Math.min(Math.log(freshG.p95 / freshG.p05) / TAILS, record === undefined ? Infinity : Math.hypot(record.logSd, record.sharedLogSd)), sharedLogSd: 0,
  }));
}

/** The present stage and those to come; where the present one is overdue they all begin that much later. */
function stagesAhead(view: LotExpectation['view'], places: readonly SowingPlace[], calendar: SowingCalendar): StandingLot['stages'] {
  const overdue = Math.max(0, -calendar.dayOf(view.stageEnds));
  const startOf = (i: number): number => (i <= view.stageIndex ? 0 : calendar.dayOf(view.densities[i]!.date) + overdue);
  return view.card.stages.flatMap((_, i) => (i < view.stageIndex ? [] : [{ stage: i, place: places[i]!, fromDay: startOf(i), toDay: i + 1 < view.card.stages.length ? startOf(i + 1) : Infinity }]));
}
