import { basinAreaM2, basinFullL } from '../../greenhouse/basinGeometry.ts';
import { addDays, daysBetween } from '../day/shiftDay.ts';
import { WEEK_DAYS, type ExpectedVisit } from './expectedVisit.ts';
import type { WeekQuestion } from './weekQuestion.ts';

/** Days that seedlings may wait in their trays (common practice, no source). */
const TRAYS_LATE_DAYS = 2;

/**
 * Visits of empty basins that take seedlings out of their trays on the days on which they are due, each basin once; what today's visits
 * plant is left out. A lot for which no basin stands empty today is taken to find one: it is counted at the first basin of the bay.
 */
export function expectTrays({ state, day, file, today, basins }: WeekQuestion): ExpectedVisit[] {
  const kindOf = new Map(file.bays.map(({ id, kind }) => [id, kind]));
  const taken = new Set(today.map(({ view }) => view.basin.id));
  const planted = new Set(today.flatMap(({ stops }) => stops.flatMap(({ effect }) => (effect.kind === 'transplanting' && effect.fromBasin === undefined ? [effect.lot] : []))));
  return Object.values(state.trays).flatMap(({ lot, crop, sown, plants }): ExpectedVisit[] => {
    const card = state.crops[crop], stage = card?.stages[0];
    const due = Math.max(1, daysBetween(day.date, addDays(sown, Math.round(card?.sowing.trayDays ?? 0))));
    if (stage === undefined || due >= WEEK_DAYS || planted.has(lot)) return [];
    const inBay = basins.filter(({ basin }) => kindOf.get(basin.bay) === stage.bay);
    const visits: ExpectedVisit[] = [];
    for (let left = plants; left > 0;) {
      const basin = (inBay.find((view) => view.basin.planting === undefined && !view.basin.needsWash && !taken.has(view.basin.id)) ?? inBay[0])?.basin;
      if (basin === undefined) break;
      taken.add(basin.id);
      const here = Math.min(left, Math.max(1, Math.round(stage.plantsPerM2 * basinAreaM2(basin.type))));
      left -= here;
      visits.push({
        basin: basin.id, why: `a basin takes ${here} seedlings of ${lot} from their trays`, day: due, earliest: due, latest: due + TRAYS_LATE_DAYS,
        stops: [{ kind: 'filling', plants: 0, litres: basinFullL(basin.type) }, { kind: 'transplanting', plants: here, litres: 0 }],
      });
    }
    return visits;
  });
}
