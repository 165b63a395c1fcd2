/**
 * How near the plan of a whole floor (600 basins, 10 stations, 1,440 trips) comes to its bound, and how soon a first plan is there.
 * Run: npx tsx bench/largeFloor.ts [iterations]
 */
import { checkScheduleProblem } from '../src/planning/schedule/checkScheduleProblem.ts';
import { replanSchedule } from '../src/planning/schedule/replanSchedule.ts';
import { planSchedule } from '../src/planning/schedule/planSchedule.ts';
import { validateSchedule } from '../src/planning/schedule/validateSchedule.ts';
import { largeFloor } from '../test/schedule/largeFloor.ts';
import { breakDay } from '../test/schedule/randomDay.ts';
import type { LargeFloorOptions } from '../test/schedule/largeFloor.ts';

const times: number[] = [];
const iterations = Number(process.argv[2] ?? 8000);
const CASES: readonly (readonly [string, LargeFloorOptions])[] = [
  ['12 vehicles, filling binds', {}],
  ['12 vehicles, half service times', { serviceShare: 0.5 }],
  ['6 vehicles, vehicles and stations full', { vehicles: 6, serviceShare: 0.5 }],
  ['6 vehicles, the same, any number may wait', { vehicles: 6, serviceShare: 0.5, queuePlaces: null }],
];
for (const [title, options] of CASES) {
  const problem = largeFloor(1, options);
  const refusals = checkScheduleProblem(problem);
  if (refusals.length > 0) throw new Error(refusals[0]!.message);
  for (const tries of [0, iterations]) {
    const startMs = performance.now();
    const plan = planSchedule(problem, { seed: 1, iterations: tries });
    const seconds = (performance.now() - startMs) / 1000;
    const violations = validateSchedule(problem, plan);
    console.log(`${title}: ${tries} changes, ${seconds.toFixed(2)} s, ends ${(plan.finishS / 60).toFixed(1)} min, bound ${(plan.bound.finishS / 60).toFixed(1)} min (${plan.bound.binds}), gap ${plan.gapPct.toFixed(2)} %, ${violations.length} violations`);
  }
}

const problem = largeFloor(1);
const plan = planSchedule(problem, { seed: 1, iterations: 0 });
for (let fault = 1; fault <= 40; fault++) {
  const broken = breakDay(fault, problem, plan);
  if (checkScheduleProblem(broken).length > 0) continue;
  const startMs = performance.now();
  const next = replanSchedule(broken, plan, { seed: 1, iterations: 200 });
  times.push((performance.now() - startMs) / 1000);
  if (validateSchedule(broken, next).length > 0) throw new Error(`fault ${fault}: the validator refuses the new plan`);
}
times.sort((a, b) => a - b);
console.log(`12 vehicles: ${times.length} faults in the middle of the day planned again, median ${times[Math.floor(times.length / 2)]!.toFixed(2)} s, slowest ${times.at(-1)!.toFixed(2)} s`);
