import { describe, expect, it } from 'vitest';
import { planSchedule } from '../../src/planning/schedule/planSchedule.ts';
import type { ScheduleProblem } from '../../src/planning/schedule/scheduleProblem.ts';
import { seedRandom } from '../../src/planning/schedule/seededRandom.ts';
import { shortestFinish } from './tinyOptimum.ts';
import { verifySchedule } from './verifySchedule.ts';

/** Two or three basins with one or two stops, one or two vehicles, two or three stations without or with endless waiting places. */
function tinyDay(seed: number): ScheduleProblem {
  const random = seedRandom(seed);
  const n = 6;
  const matrix = (least: number): number[][] => Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_v, j) => (i === j ? 0 : least + random.below(12))));
  const stations = ['a', 'b', 'c'].map((id, i) => ({
    id, kind: i < 2 ? 'x' : 'y', location: i, places: 1, queuePlaces: random.below(2) === 0 ? null : 0, openFromS: 0, openToS: 10_000 }));
  const stop = (kind = random.below(2)) => (kind === 0
    ? { alternatives: [{ station: 'c', serviceS: 5 + random.below(25) }] }
    : { alternatives: [{ station: 'a', serviceS: 5 + random.below(25) }, { station: 'b', serviceS: 5 + random.below(25) }] });
  const visits = Array.from({ length: 2 + random.below(2) }, (_, i) => ({
    id: `V${i}`, basin: `B${i}`, startLocation: 3 + i, endLocation: 3 + i, priority: 1, must: true, why: 'tiny', releaseS: random.below(2) * random.below(20),
    stops: random.below(3) === 0 && i < 2 ? [stop(0), stop(1)] : [stop()] }));
  return {
    locations: ['A', 'B', 'C', 'D', 'E', 'F'], travelEmptyS: matrix(3), travelLoadedS: matrix(5), stations,
    vehicles: Array.from({ length: 1 + random.below(2) }, (_, k) => ({ id: `W${k}`, startLocation: k, availableFromS: 0, availableToS: 10_000, pickS: 2, dropS: 1 })),
    visits,
  };
}

describe('tiny days, every one tried to the end', () => {
  it('finds the shortest finish, and no bound lies above it', () => {
    let proven = 0;
    for (let day = 1; day <= 40; day++) {
      const problem = tinyDay(day);
      const plans = [1, 2, 3].map((seed) => planSchedule(problem, { seed, iterations: 5000 }));
      const schedule = plans.reduce((best, one) => (one.finishS < best.finishS ? one : best));
      const shortest = shortestFinish(problem);
      expect(verifySchedule(problem, schedule)).toEqual([]);
      expect(schedule.leftOut).toEqual([]);
      expect(schedule.bound.finishS, `bound of day ${day}`).toBeLessThanOrEqual(shortest);
      expect(schedule.finishS, `day ${day}`).toBe(shortest);
      if (schedule.bound.finishS === shortest) proven++;
    }
    console.log(`tiny days: best of three searches equals a full enumeration on 40 of 40; the bound proves ${proven} of them`);
  });
});
