/** Each day on which a lot was weighed, set beside the uncorrected model and what the lot's rate was then believed to be. */
import { meanOf } from './assimilate.ts';
import type { GrowthCheck } from './growthAlarms.ts';
import type { LogBelief } from './growthPrior.ts';
import type { Look } from './sampleLooks.ts';

/** Runs the lot with these looks, telling what the members would have shown at each of them before it acts. */
export type RunWithLooks = (looks: readonly Look[], beforeLook: (look: Look, predicted: Float64Array) => void) => void;

type Weighing = Look & { readonly quantity: 'dryG' | 'freshG' };
const isWeighing = (look: Look): look is Weighing => look.quantity === 'dryG' || look.quantity === 'freshG';

/** The error of a look that is only compared: so wide that it teaches nothing. */
const COMPARE_ONLY = 1e6;

/**
 * Checks from the second weighing on, of dry mass where there is any. The first weighing sets the uncorrected run.
 * `rateOn` tells the belief about the lot's rate after the looks of a day.
 */
export function checkGrowth(looks: readonly Look[], rateOn: ReadonlyMap<number, LogBelief>, run: RunWithLooks): GrowthCheck[] {
  const quantity = looks.some((look) => look.quantity === 'dryG') ? 'dryG' : 'freshG';
  const [first, ...later] = looks.filter(isWeighing).filter((look) => look.quantity === quantity);
  if (first === undefined || later.length === 0) return [];
  const checks: GrowthCheck[] = [];
  run([first, ...later.map((look) => ({ ...look, logSd: COMPARE_ONLY }))], (look, predicted) => {
    if (look.logSd < COMPARE_ONLY) return;
    checks.push({ day: look.day, quantity, measured: look.logMean, expected: meanOf(predicted), rate: rateOn.get(look.day)! });
  });
  return checks;
}
