/** A crop that grows otherwise than its model: named, with its figures, because a wider band alone would hide it. */
import { dateOf } from './calendar.ts';
import type { LogBelief } from './growthPrior.ts';
import type { GrowthAlarm } from './lotForecast.ts';

/** One day on which the lot was weighed: what was found, what the model expected uncorrected, and what the lot's rate was then believed to be. */
export interface GrowthCheck {
  readonly day: number;
  readonly quantity: 'dryG' | 'freshG';
  /** ln of the mean mass found. */
  readonly measured: number;
  /** ln of the mass that the model as on the card expected, told only the first look. */
  readonly expected: number;
  /** ln of the lot's assimilation relative to what was believed of such lots before. */
  readonly rate: LogBelief;
}

/** One-sided 5 %. */
const LIMIT = 1.645;

/**
 * Rises on a day on which the lot's rate lies beyond doubt (5 %) on one side of what was believed of such lots, and the gap
 * between model and measurement has grown since the look before. Stays while the rate does. So one poor sample is no
 * alarm, and neither is a gap that closes again.
 */
export function findGrowthAlarms(checks: readonly GrowthCheck[]): GrowthAlarm[] {
  return [sideAlarm(checks, -1), sideAlarm(checks, 1)].flatMap((alarm) => (alarm === undefined ? [] : [alarm]));
}

function sideAlarm(checks: readonly GrowthCheck[], side: -1 | 1): GrowthAlarm | undefined {
  let raised: GrowthCheck | undefined;
  for (let i = 1; i < checks.length; i += 1) {
    const [before, now] = [checks[i - 1]!, checks[i]!];
    if (side * now.rate.mean <= LIMIT * now.rate.sd) raised = undefined;
    else if (raised === undefined && side * (gapOf(now) - gapOf(before)) > 0) raised = now;
  }
  return raised === undefined ? undefined : alarmOf(checks.at(-1)!, raised, side);
}

const gapOf = (check: GrowthCheck) => check.measured - check.expected;

function alarmOf(last: GrowthCheck, raised: GrowthCheck, side: -1 | 1): GrowthAlarm {
  const what = last.quantity === 'dryG' ? 'dry' : 'fresh';
  const measuredG = Math.exp(last.measured);
  const expectedG = Math.exp(last.expected);
  const ratePct = 100 * Math.exp(last.rate.mean);
  return {
    name: side < 0 ? 'growth-below-model' : 'growth-above-model',
    sentence: `This lot has grown ${side < 0 ? 'less' : 'more'} than its model since ${dateOf(raised.day)}: on ${dateOf(last.day)} a plant weighed ${measuredG.toPrecision(3)} g ${what} `
      + `where the model expected ${expectedG.toPrecision(3)} g; the lot makes ${ratePct.toFixed(0)} % of the growth expected of such lots. `
      + (side < 0 ? 'Look at the crop: roots, tip-burn, disease, light at the basin.' : 'Check the planting density, the climate record and the scales.'),
    numbers: { measuredG, expectedG, gapPct: 100 * (measuredG / expectedG - 1), ratePct, rateLowPct: 100 * Math.exp(last.rate.mean - LIMIT * last.rate.sd), rateHighPct: 100 * Math.exp(last.rate.mean + LIMIT * last.rate.sd) },
  };
}
