import { ACTIVITY_CLASSES } from './equilibriumSystem.ts';

/** The activity rules as arrays, one entry per class of species. */
const CHARGE_SQUARED = Float64Array.from(ACTIVITY_CLASSES, ({ charge }) => charge * charge);
const SIZE_A = Float64Array.from(ACTIVITY_CLASSES, ({ rule }) => (typeof rule === 'object' ? rule.sizeA : 0));
const LINEAR = Float64Array.from(ACTIVITY_CLASSES, ({ rule }) => (typeof rule === 'object' ? rule.linear : 0));
const RULE = Int8Array.from(ACTIVITY_CLASSES, ({ rule }) => ['davies', 'neutral'].indexOf(rule as string));
const DAVIES = 0, NEUTRAL = 1;

const DAVIES_LINEAR = 0.3;
const NEUTRAL_LINEAR = 0.1;

/**
 * log10 activity coefficients of all classes at an ionic strength (mol/kg), into `log10Gamma`.
 * Ions: -A z2 sqrt(I)/(1 + B a sqrt(I)) + b I (Truesdell & Jones 1974) or -A z2 (sqrt(I)/(1 + sqrt(I)) - 0.3 I) (Davies 1962); 0.1 I for
 * uncharged species. Valid to about 0.1 mol/kg, 0.5 at best.
 */
export function activityCoefficients(strength: number, debyeA: number, debyeB: number, log10Gamma: Float64Array): void {
  const root = Math.sqrt(strength);
  const davies = -debyeA * (root / (1 + root) - DAVIES_LINEAR * strength);
  for (let k = 0; k < log10Gamma.length; k += 1) {
    const rule = RULE[k];
    log10Gamma[k] = rule === DAVIES ? CHARGE_SQUARED[k]! * davies
      : rule === NEUTRAL ? NEUTRAL_LINEAR * strength
        : (-debyeA * CHARGE_SQUARED[k]! * root) / (1 + debyeB * SIZE_A[k]! * root) + LINEAR[k]! * strength;
  }
}

/** Activity of water: Raoult's law with 0.017 instead of 0.018 kg/mol (Garrels & Christ 1965). */
export const waterActivityAt = (soluteMolPerKg: number): number => Math.max(1e-3, 1 - 0.017 * soluteMolPerKg);
