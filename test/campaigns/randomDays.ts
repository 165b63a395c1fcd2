/**
 * Random days and random faults in the middle of a day, each plan put before the independent verifier and the validator.
 * Run: npx tsx test/campaigns/randomDays.ts [days 1000] [faults 1000] [first seed 100000]
 */
import { checkScheduleProblem } from '../../src/planning/schedule/checkScheduleProblem.ts';
import { planSchedule } from '../../src/planning/schedule/planSchedule.ts';
import { replanSchedule } from '../../src/planning/schedule/replanSchedule.ts';
import type { Schedule } from '../../src/planning/schedule/schedule.ts';
import type { ScheduleProblem } from '../../src/planning/schedule/scheduleProblem.ts';
import { validateSchedule } from '../../src/planning/schedule/validateSchedule.ts';
import { breakDay, randomDay } from '../schedule/randomDay.ts';
import { verifySchedule } from '../schedule/verifySchedule.ts';

const [days = 1000, faults = 1000, firstSeed = 100_000] = process.argv.slice(2).map(Number);
let refused = 0;
let slowestS = 0;

function judge(what: string, problem: ScheduleProblem, schedule: Schedule): void {
  const found = [...checkScheduleProblem(problem), ...verifySchedule(problem, schedule), ...validateSchedule(problem, schedule)];
  if (found.length === 0 && schedule.bound.finishS <= schedule.finishS) return;
  refused += 1;
  console.log(`${what} refused: ${JSON.stringify(found[0] ?? schedule.bound)}`);
}

for (let i = 0; i < Math.max(days, faults); i++) {
  const problem = randomDay(firstSeed + i);
  const schedule = planSchedule(problem, { seed: i, iterations: 40 });
  if (i < days) judge(`day ${firstSeed + i}`, problem, schedule);
  if (i >= faults) continue;
  const broken = breakDay(firstSeed + i, problem, schedule);
  const startMs = performance.now();
  const next = replanSchedule(broken, schedule, { seed: i, iterations: 40 });
  slowestS = Math.max(slowestS, (performance.now() - startMs) / 1000);
  judge(`fault ${firstSeed + i}`, broken, next);
}
console.log(`${days} random days and ${faults} faults: ${refused} refused; slowest new plan ${slowestS.toFixed(2)} s`);
process.exit(refused === 0 ? 0 : 1);
