/** A crop that grows otherwise than its model: named, with its figures, because a wider band alone would hide it. */
import { dateOf } from './calendar.ts';
import type { GrowthAlarm } from './lotForecast.ts';

/** One day on which the lot was weighed: what was found, what was forecast, and what the model uncorrected would have had. */
export interface GrowthCheck {
  readonly day: number;
  readonly quantity: 'dryG' | 'freshG';
  /** ln of the mean mass found. */
  readonly measured: number;
  /** ln of the mass that was forecast from all looks before, and the spread of measured around it. */
  readonly forecast: number;
  readonly forecastSd: number;
  /** ln of the mass that the model as on the card expected, told only the first look. */
  readonly expected: number;
}

/** Shortfall, in standard deviations, that each check may have for nothing; and the gathered shortfall at which the alarm rises. */
const ALLOWANCE = 0.25;
const LIMIT = 2;

/**
 * Adds up by how much each weighing fell short of its own forecast, in standard deviations (cumulative sum of E.S. Page 1954,
 * Biometrika 41:100-115, allowance 0.25, limit 2: both chosen on invented lots, bench/cropCalibration.ts).
 * The forecast has learnt from all weighings before, so that a lot that is merely slower than its model raises nothing for long:
 * the sum grows only while the gap does. Rises where it passes the limit and the gap to the uncorrected model has grown since
 * the weighing before; stays until later weighings have made up for all of it.
 */
export function findGrowthAlarms(checks: readonly GrowthCheck[]): GrowthAlarm[] {
  return [sideAlarm(checks, -1), sideAlarm(checks, 1)].flatMap((alarm) => (alarm === undefined ? [] : [alarm]));
}

function sideAlarm(checks: readonly GrowthCheck[], side: -1 | 1): GrowthAlarm | undefined {
  let gathered = 0;
  let raised: GrowthCheck | undefined;
  checks.forEach((check, i) => {
    // The second weighing sets the lot's rate: it is learnt from, not judged.
    if (i > 0) gathered = Math.max(0, gathered + side * (check.measured - check.forecast) / check.forecastSd - ALLOWANCE);
    const gapBefore = i === 0 ? 0 : gapOf(checks[i - 1]!);
    if (gathered === 0) raised = undefined;
    else if (raised === undefined && gathered > LIMIT && side * (gapOf(check) - gapBefore) > 0) raised = check;
  });
  return raised === undefined ? undefined : alarmOf(checks.at(-1)!, raised, side, gathered);
}

/** ln measured / uncorrected model. */
const gapOf = (check: GrowthCheck) => check.measured - check.expected;

function alarmOf(last: GrowthCheck, raised: GrowthCheck, side: -1 | 1, gatheredSd: number): GrowthAlarm {
  const what = last.quantity === 'dryG' ? 'dry' : 'fresh';
  const [measuredG, forecastG, expectedG] = [Math.exp(last.measured), Math.exp(last.forecast), Math.exp(last.expected)];
  return {
    name: side < 0 ? 'growth-below-model' : 'growth-above-model',
    sentence: `Since ${dateOf(raised.day)} this lot has been growing ${side < 0 ? 'less' : 'more'} than its model even after corrections: on ${dateOf(last.day)} a plant weighed `
      + `${measuredG.toPrecision(3)} g ${what}; ${forecastG.toPrecision(3)} g were forecast, ${expectedG.toPrecision(3)} g by the model uncorrected. `
      + (side < 0 ? 'Look at the crop: roots, tip-burn, disease, light at the basin.' : 'Check the planting density, the climate record and the scales.'),
    numbers: { measuredG, forecastG, expectedG, gapPct: 100 * (measuredG / expectedG - 1), gatheredSd },
  };
}
