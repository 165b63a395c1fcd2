/** What the water that a basin lost says of the leaf area that transpired it. */
import type { MeanObservation } from './lotForecast.ts';

export interface WaterLost {
  /** Day in the middle of the span. */
  readonly date: string;
  /** Litres per m2 of basin that left it between two levels, solution taken away or added left out. */
  readonly litresPerM2: number;
  /** Standard error of that, relative: the levels, evaporation past the rafts, drips. */
  readonly relativeSd: number;
  readonly plantsPerM2: number;
  /** Litres per m2 that a canopy of this leaf area index would have transpired in the same span and air; rises with it. */
  readonly litresOf: (leafAreaIndex: number) => number;
}

/** Error of the transpiration model itself, the same at each look: 108 g/m2/h computed, 115 measured, rms 15.9 (Graamans et al. 2017). */
const MODEL_RELATIVE_SD = 0.14;
const LEAST_INDEX = 0.02;
const MOST_INDEX = 8;
/** Below this percent of water per percent of leaf area the water says nothing of leaves: a closed canopy transpires what the light allows (own choice). */
const LEAST_ELASTICITY = 0.1;

/**
 * Leaf area per plant that explains the water, with an error that grows as the canopy closes (delta method: the error of the water
 * divided by the elasticity of water to leaf area). Nothing where the canopy no longer shows in the water, or the water is none that a
 * canopy of 0.02 to 8 m2/m2 would lose.
 */
export function observeWater({ date, litresPerM2, relativeSd, plantsPerM2, litresOf }: WaterLost): MeanObservation | undefined {
  if (!(litresPerM2 > litresOf(LEAST_INDEX) && litresPerM2 < litresOf(MOST_INDEX))) return undefined;
  const index = solveIndex(litresPerM2, litresOf);
  const elasticity = Math.log(litresOf(index * 1.05) / litresOf(index / 1.05)) / (2 * Math.log(1.05));
  if (!(elasticity >= LEAST_ELASTICITY)) return undefined;
  return {
    date, quantity: 'leafAreaM2', mean: index / plantsPerM2, relativeSd: Math.min(2, Math.max(0.005, relativeSd / elasticity)),
    sharedRelativeSd: Math.min(2, MODEL_RELATIVE_SD / elasticity), instrument: 'water', from: 'water lost from the basin',
  };
}

/** Halves the logarithm of the interval until it is 1e-6 wide. */
function solveIndex(litres: number, litresOf: (leafAreaIndex: number) => number): number {
  let [low, high] = [LEAST_INDEX, MOST_INDEX];
  while (high / low > 1 + 1e-6) {
    const middle = Math.sqrt(low * high);
    if (litresOf(middle) < litres) low = middle;
    else high = middle;
  }
  return Math.sqrt(low * high);
}
