import { describe, expect, it } from 'vitest';
import { planSchedule } from './planSchedule.ts';
import type { ScheduleProblem, ScheduleVisit } from './scheduleProblem.ts';
import { worthOfMore } from './worthOfMore.ts';

const OPTIONS = { seed: 1, iterations: 200 };

/** Two basins 1,000 s either side of nothing but their own station, so that one vehicle drives to and fro. */
function farApart(serviceS: number, toS = 50_000): ScheduleProblem {
  const way = [[0, 1000, 1000], [1000, 0, 2000], [1000, 2000, 0]];
  const visit = (id: string, berth: number): ScheduleVisit => ({
    id, basin: `B-${id}`, startLocation: berth, endLocation: berth, releaseS: 0, priority: 1, must: false, why: 'a test', stops: [{ alternatives: [{ station: 'fill', serviceS }] }] });
  return {
    locations: ['fill', 'N1', 'N2'], travelEmptyS: way, travelLoadedS: way, visits: [visit('A', 1), visit('B', 2)],
    stations: [{ id: 'fill', kind: 'filling', location: 0, places: 2, queuePlaces: 2, openFromS: 0, openToS: toS }],
    vehicles: [{ id: 'cart', startLocation: 0, availableFromS: 0, availableToS: toS, pickS: 10, dropS: 5 }],
  };
}
const worthIn = (problem: ScheduleProblem) => [...worthOfMore(problem, planSchedule(problem, OPTIONS), OPTIONS)].filter((worth) => worth !== undefined);

describe('what one more would be worth', () => {
  it('is the time known by hand for a second vehicle, proven by the bound without it', () => {
    // One vehicle, work of 100 s. There, back, there, back (4 x 1000) with the basins, then each home, the first way back
    // empty (3 x 1000), four times lifted and set down (4 x 15): 7060. Each with its own vehicle: 1000 + 15 + 1000 + 100 + 1000 + 15 = 3130.
    const [vehicle, place] = worthIn(farApart(100));
    expect(vehicle).toEqual({ what: 'vehicle', visitsMore: 0, latenessSavedS: 0, finishEarlierS: 7060 - 3130, withoutS: 7060, withS: 3130, finishS: 3130 });
    expect(place).toMatchObject({ what: 'place', kind: 'filling', finishEarlierS: 0, withoutS: 7060 });
  });

  it('is nothing where a single long visit binds', () => {
    const problem = farApart(100);
    const alone = { ...problem, visits: problem.visits.slice(0, 1) };
    expect(worthIn(alone).map(({ what, finishEarlierS, visitsMore }) => [what, finishEarlierS, visitsMore])).toEqual([['vehicle', 0, 0], ['place', 0, 0]]);
  });

  it('is a visit more where the shift is too short by less than half an hour', () => {
    const [vehicle, , longer] = worthIn(farApart(100, 6000));
    expect(vehicle).toMatchObject({ visitsMore: 1, finishEarlierS: 0 });
    expect(longer).toMatchObject({ what: 'half hour', visitsMore: 1, finishEarlierS: 0 });
    expect(longer).not.toHaveProperty('withS');
  });

  it('never counts as worth what the gap of the search leaves open', () => {
    const problem = farApart(100);
    const proven = (of: ScheduleProblem, finishS: number) => {
      const plan = planSchedule(of, OPTIONS);
      return [...worthOfMore(of, { ...plan, bound: { ...plan.bound, finishS } }, OPTIONS)].find((worth) => worth !== undefined);
    };
    // The same plan beside weaker bounds: with a second vehicle 3130 is found and is the bound.
    expect(proven(problem, 3131)).toMatchObject({ finishEarlierS: 3930, withoutS: 3131, finishS: 3130 });
    expect(proven(problem, 3130)).toEqual({ what: 'vehicle', visitsMore: 0, latenessSavedS: 0, finishEarlierS: 0, withoutS: 3130, withS: 3130 });
    // A visit that never fits makes the search run in any case; what it finds is after the bound, and so is nothing.
    const lost = { ...problem, visits: [...problem.visits, { ...problem.visits[0]!, id: 'C', basin: 'B-C', deadlineS: 10 }] };
    expect(proven(lost, 3130)).toMatchObject({ visitsMore: 0, finishEarlierS: 0, withoutS: 3130, finishS: 3130 });
  });
});
