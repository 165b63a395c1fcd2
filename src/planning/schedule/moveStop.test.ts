import { expect, it } from 'vitest';
import { randomDay } from '../../../test/schedule/randomDay.ts';
import { verifySchedule } from '../../../test/schedule/verifySchedule.ts';
import { pinSchedule } from './pinSchedule.ts';
import { planSchedule } from './planSchedule.ts';
import { seedRandom } from './seededRandom.ts';
import type { StopMove } from './moveStop.ts';
import { tryMove } from './tryMove.ts';
import { validateSchedule } from './validateSchedule.ts';

const DAYS = 6;
const MOVES_A_DAY = 4;

it('says of random moves what the independent verifier says, moves nothing else, and keeps every pin that it says it keeps', () => {
  let [moves, broken, kept] = [0, 0, 0];
  for (let seed = 1; seed <= DAYS; seed++) {
    const problem = randomDay(seed);
    const schedule = planSchedule(problem, { seed, iterations: 100 });
    const random = seedRandom(seed);
    for (let number = 0; number < MOVES_A_DAY && schedule.stops.length > 0; number++) {
      const stop = schedule.stops[random.below(schedule.stops.length)]!;
      const { alternatives } = problem.visits.find(({ id }) => id === stop.visit)!.stops[stop.stop]!;
      const move: StopMove = { visit: stop.visit, stop: stop.stop, station: alternatives[random.below(alternatives.length)]!.station, startS: Math.max(0, stop.startS + 60 * (random.below(41) - 20)) };
      const tried = tryMove(problem, schedule, move);
      expect(tried.broken.length === 0).toBe(verifySchedule(problem, tried.schedule).length === 0);
      expect(tried.schedule.stops.filter(({ visit }) => visit !== move.visit)).toEqual(schedule.stops.filter(({ visit }) => visit !== move.visit));
      expect(tried.schedule.stops.find((is) => is.visit === move.visit && is.stop === move.stop)).toMatchObject({ station: move.station, startS: move.startS });
      const around = pinSchedule(problem, schedule, [move], { seed, iterations: 50 });
      expect(validateSchedule(around.problem, around.schedule)).toEqual([]);
      if (around.failed.length === 0) expect(around.schedule.stops.find((is) => is.visit === move.visit && is.stop === move.stop)).toMatchObject({ station: move.station, startS: move.startS });
      moves++;
      if (tried.broken.length > 0) broken++;
      if (around.failed.length === 0) kept++;
    }
  }
  console.log(`${moves} moves: ${broken} break a rule as they are; a plan around the stop was found for ${kept}`);
  expect([broken > moves / 2, kept > moves / 2]).toEqual([true, true]);
});

it('leaves the plan as it is where a stop stays', () => {
  const problem = randomDay(3);
  const schedule = planSchedule(problem, { seed: 3, iterations: 50 });
  for (const { visit, stop, station, startS } of schedule.stops) expect(tryMove(problem, schedule, { visit, stop, station, startS })).toEqual({ schedule, broken: [] });
});
