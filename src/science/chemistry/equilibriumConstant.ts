import { ZERO_CELSIUS_K } from './waterProperties.ts';

/** log10 of an equilibrium constant: its value at 25 C and how it changes with temperature. */
export type EquilibriumConstant =
  /** Heat of reaction, kJ/mol, taken as constant (van 't Hoff). */
  | { readonly log10At25: number; readonly heatKJPerMol: number }
  /** log10 K = a1 + a2 T + a3/T + a4 log10 T + a5/T^2, T in kelvin; missing terms are zero. */
  | { readonly analytic: readonly number[] };

const GAS_CONSTANT_KJ_PER_MOL_K = 8.31446e-3;
const REFERENCE_K = 25 + ZERO_CELSIUS_K;

/** log10 K at a temperature, 0 to 50 C. */
export function log10KAt(constant: EquilibriumConstant, temperatureC: number): number {
  const T = temperatureC + ZERO_CELSIUS_K;
  if ('analytic' in constant) {
    const [a1 = 0, a2 = 0, a3 = 0, a4 = 0, a5 = 0] = constant.analytic;
    return a1 + a2 * T + a3 / T + a4 * Math.log10(T) + a5 / (T * T);
  }
  return constant.log10At25 - (constant.heatKJPerMol / (Math.LN10 * GAS_CONSTANT_KJ_PER_MOL_K)) * (1 / T - 1 / REFERENCE_K);
}

export const vantHoff = (log10At25: number, heatKJPerMol = 0): EquilibriumConstant => ({ log10At25, heatKJPerMol });
export const analytic = (...coefficients: readonly number[]): EquilibriumConstant => ({ analytic: coefficients });
