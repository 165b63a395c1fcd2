import { describe, expect, it } from 'vitest';
import { foldEvents } from '../../src/greenhouse/evolve.ts';
import type { GreenhouseEvent } from '../../src/greenhouse/events.ts';
import { readGreenhouseFolder } from '../../src/greenhouse/files/readGreenhouseFolder.ts';
import { importFolder } from '../../src/greenhouse/importFolder.ts';
import type { Reading } from '../../src/greenhouse/journalEvent.ts';
import type { MorningPlan } from '../../src/planning/morningPlan.ts';
import { planMorning } from '../../src/planning/planMorning.ts';
import { loadLinearSolver } from '../../src/planning/solver/loadLinearSolver.ts';
import { compartmentIsHere, readCompartment } from './compartment.ts';
import { compartmentFolder } from './compartmentFolder.ts';

const DATES = ['2022-02-09', '2022-02-16', '2022-02-23', '2022-03-02', '2022-03-09'];

if (!compartmentIsHere) console.log('the measured compartment is not on this machine: its tests are skipped');

describe.skipIf(!compartmentIsHere)('the morning plan on a measured lettuce compartment', () => {
  it('plans five mornings and forecasts the final harvest (third Autonomous Greenhouse Challenge, 2022, compartment a; TMY3 Port Angeles outdoors)', async () => {
    const compartment = readCompartment();
    const solver = await loadLinearSolver();
    const rows: string[] = [];
    for (const date of DATES) {
      const plan = planOn(compartmentFolder(compartment, date), `${date}T14:00:00.000Z`, solver);
      const { harvest } = compartment;
      const lot = plan.lots.find((each) => each.lot === 'MEASURED-A');
      const day = lot?.days.find((each) => each.date === harvest.date);
      expect(day, `forecast of ${harvest.date} on ${date}`).toBeDefined();
      checkPlan(plan);
      const error = (100 * (day!.freshG.p50 - harvest.meanFreshG)) / harvest.meanFreshG;
      const inside = harvest.meanFreshG >= day!.freshG.p05 && harvest.meanFreshG <= day!.freshG.p95;
      rows.push(`| ${date} | ${day!.freshG.p50.toFixed(0)} (${day!.freshG.p05.toFixed(0)} to ${day!.freshG.p95.toFixed(0)}) | ${harvest.meanFreshG.toFixed(0)} | ${error.toFixed(0)} | ${inside ? 'yes' : 'no'} | ${((100 * (day!.dryG.p50 - harvest.meanDryG)) / harvest.meanDryG).toFixed(0)} | ${plan.visits.length} | ${plan.feeds.length} |`);
    }
    console.log(`forecast of the mean head at the final harvest of ${compartment.harvest.heads} heads, ${compartment.harvest.date}\n| made on | fresh g, median (90 % band) | weighed g | error % | in band | dry error % | visits | feeds |\n|---|---|---|---|---|---|---|---|\n${rows.join('\n')}`);
  }, 300_000);

  it('gives the same plan from the same files, and plans nothing from what is dated later', async () => {
    const compartment = readCompartment();
    const solver = await loadLinearSolver();
    const at = '2022-02-23T14:00:00.000Z';
    const files = compartmentFolder(compartment, '2022-02-23');
    const once = planOn(files, at, solver);
    expect(JSON.stringify(planOn(files, at, solver))).toBe(JSON.stringify(once));
    for (const sample of once.lots.flatMap((lot) => lot.samples)) expect(sample.date < '2022-02-23').toBe(true);
  }, 200_000);
});

function planOn(files: Record<string, string>, at: string, solver: Awaited<ReturnType<typeof loadLinearSolver>>): MorningPlan {
  const folder = readGreenhouseFolder(files);
  if (!folder.ok) throw new Error(folder.refusals.map((each) => `${each.path} ${each.message}`).slice(0, 5).join('\n'));
  const events = importFolder(folder.value, [], at).map((draft, i) => ({ ...draft, id: `e${i}`, sequence: i + 1, recordedAt: at, previousHash: '', hash: '' }) as GreenhouseEvent);
  const readings = folder.value.readings.map((row): Reading => ({ ...row, at: new Date(row.at).toISOString() }));
  const plan = planMorning({ state: foldEvents(events), readings, at }, solver);
  if (!plan.ok) throw new Error(plan.refusals.map((each) => `${each.path} ${each.message}`).join('\n'));
  return plan.value;
}

/** What must hold on any morning, whatever the data. */
function checkPlan(plan: MorningPlan): void {
  expect(plan.timeline.boundAt <= plan.timeline.finishAt).toBe(true);
  expect(plan.basins.length).toBe(24);
  for (const basin of plan.basins.filter((each) => each.lot !== undefined)) expect(basin.water !== undefined || basin.waterUnknown !== undefined).toBe(true);
  expect(plan.feeds.length).toBeGreaterThan(0);
  expect(plan.visits.length).toBeGreaterThan(0);
  for (const ticket of plan.feeds) {
    for (const draw of ticket.draws) expect(Number.isFinite(draw.litres) && draw.litres > 0).toBe(true);
    expect(ticket.cost + 1e-6).toBeGreaterThanOrEqual(ticket.costLowerBound);
  }
  expect(JSON.stringify(plan)).not.toMatch(/NaN|Infinity/);
}
