import { describe, expect, it } from 'vitest';
import { loadLinearSolver } from '../../src/planning/solver/loadLinearSolver.ts';
import { seasonHouse } from '../../src/twin/season/seasonHouse.ts';
import { simulateSeason, type SeasonRun } from '../../src/twin/season/simulateSeason.ts';
import { demoFolder } from './demoFolder.ts';

const START = '2025-11-24';
const run = (policy: SeasonRun['policy']): SeasonRun => ({ seed: 31, startDate: START, warmUpWeeks: 16, weeks: 6, level: 0.7, swing: 0, knownDays: 28, policy });
const PLANNER = { weeksAhead: 4, daysAfter: 80, relativeGap: 0.003, maxNodes: 60 };

/** A short season of one seed; the thirty whole ones are bench/season.ts. */
describe('a season of sowing', () => {
  it('fills nearly all order lines with the plan, and far fewer where half of it is sown', async () => {
    const solver = await loadLinearSolver();
    const house = seasonHouse(demoFolder().state, START, '2026-09-01');
    const plan = simulateSeason(house, run({ kind: 'plan', settings: PLANNER }), solver);
    const half = simulateSeason(house, run({ kind: 'calendar', margin: 0.5 }), solver);
    const share = ({ filled, lines }: typeof plan) => filled / lines;
    console.log(`season test, 6 weeks: plan ${(100 * share(plan)).toFixed(1)} % of ${plan.lines} lines, half the calendar rule ${(100 * share(half)).toFixed(1)} %`);
    expect(plan.lines).toBe(half.lines);
    expect(share(plan)).toBeGreaterThan(0.95);
    expect(plan.unitsCut / plan.unitsOrdered).toBeLessThan(1.35);
    expect(share(half)).toBeLessThan(0.8);
    expect(simulateSeason(house, run({ kind: 'calendar', margin: 0.5 }), solver)).toEqual(half);
  }, 120_000);
});
