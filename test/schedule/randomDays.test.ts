import { describe, expect, it } from 'vitest';
import { checkScheduleProblem } from '../../src/planning/schedule/checkScheduleProblem.ts';
import { planSchedule } from '../../src/planning/schedule/planSchedule.ts';
import { replanSchedule } from '../../src/planning/schedule/replanSchedule.ts';
import { validateSchedule } from '../../src/planning/schedule/validateSchedule.ts';
import { breakDay, randomDay } from './randomDay.ts';
import { verifySchedule } from './verifySchedule.ts';

const DAYS = 200;
const FAULTS = 50;

describe('random days', () => {
  it(`plans ${DAYS} days that the independent verifier and the validator accept`, () => {
    let visits = 0;
    let leftOut = 0;
    for (let day = 1; day <= DAYS; day++) {
      const problem = randomDay(day);
      expect(checkScheduleProblem(problem)).toEqual([]);
      const schedule = planSchedule(problem, { seed: day, iterations: 60 });
      expect(verifySchedule(problem, schedule), `day ${day}`).toEqual([]);
      expect(validateSchedule(problem, schedule), `day ${day}`).toEqual([]);
      expect(schedule.bound.finishS).toBeLessThanOrEqual(schedule.finishS);
      visits += problem.visits.length;
      leftOut += schedule.leftOut.length;
    }
    console.log(`random days: ${DAYS} accepted, ${visits} visits, ${leftOut} left out for their windows`);
  });

  it(`plans the rest of ${FAULTS} broken days again, keeping what is under way`, () => {
    for (let day = 1; day <= FAULTS; day++) {
      const problem = randomDay(1000 + day);
      const schedule = planSchedule(problem, { seed: day, iterations: 60 });
      const broken = breakDay(day, problem, schedule);
      const next = replanSchedule(broken, schedule, { seed: day, iterations: 60 });
      expect(verifySchedule(broken, next), `day ${day}`).toEqual([]);
      expect(validateSchedule(broken, next), `day ${day}`).toEqual([]);
    }
  });

  it('gives the same plan bit for bit for the same seed and iterations', () => {
    for (const day of [3, 11, 38]) {
      const problem = randomDay(day);
      const one = JSON.stringify(planSchedule(problem, { seed: 7, iterations: 500 }));
      expect(JSON.stringify(planSchedule(structuredClone(problem), { seed: 7, iterations: 500 }))).toBe(one);
    }
  });
});
