import type { EquilibriumProblem, NearbySolution } from './equilibriumProblem.ts';
import { ABSENT, type EquilibriumState } from './equilibriumState.ts';
import { CARBON, PHOSPHATE, PROTON, SULFATE, TOTAL_CHARGE, TOTAL_PHOSPHATE, TOTAL_SULFATE, TOTALS } from './equilibriumSystem.ts';

/** First dissociation constant of carbonic acid, good enough for a guess. */
const FIRST_CARBONIC = 10 ** -6.35;
const SMALLEST = 1e-12;

/** A first guess of activities and ionic strength, from the amounts alone. */
export function guessSpeciation(problem: EquilibriumProblem, state: EquilibriumState): void {
  const { totals, lnActivity } = state;
  if (problem.chargeAdjust !== undefined) totals[problem.chargeAdjust] = Math.max(totals[problem.chargeAdjust]!, 1e-9);
  let strength = 1e-7, solutes = 0, charge = 0;
  for (let t = 0; t < TOTALS.length; t += 1) {
    const amount = totals[t]!, z = TOTAL_CHARGE[t]!;
    strength += 0.5 * amount * z * z;
    solutes += amount;
    charge += amount * z;
  }
  state.strength = Math.min(strength, 2);
  state.solutes = solutes;
  lnActivity[SULFATE] = lnOr(0.5 * totals[TOTAL_SULFATE]!);
  lnActivity[PHOSPHATE] = lnOr(0.5 * totals[TOTAL_PHOSPHATE]!);
  lnActivity[PROTON] = Math.log(guessProtons(problem, charge, totals[TOTAL_PHOSPHATE]!));
  lnActivity[CARBON] = guessCarbon(problem, state);
  if (problem.near !== undefined) takeNearby(problem, problem.near, state);
}

/** What is stated (pH, CO2 of the air) or absent stays as it was guessed. */
function takeNearby({ protons, carbon }: EquilibriumProblem, near: NearbySolution, state: EquilibriumState): void {
  const stated = [false, false, carbon.by === 'air', protons.by === 'pH'];
  for (let j = 0; j < stated.length; j += 1) {
    if (!stated[j] && state.lnActivity[j]! > ABSENT && near.lnActivities[j]! > ABSENT) state.lnActivity[j] = near.lnActivities[j]!;
  }
  state.strength = near.ionicStrengthMolPerKg;
  state.solutes = near.solutesMolPerKg;
}

const lnOr = (amount: number): number => (amount > 0 ? Math.log(amount) : ABSENT);

function guessProtons(problem: EquilibriumProblem, charge: number, phosphate: number): number {
  if (problem.protons.by === 'pH') return 10 ** -problem.protons.pH;
  const alkalinity = problem.protons.by === 'alkalinity' ? problem.protons.eqPerKg : charge;
  if (alkalinity < -1e-5) return -alkalinity;
  if (alkalinity < 1e-6) return phosphate > 0 ? 1e-5 : 1e-7;
  if (problem.carbon.by === 'total' && problem.carbon.molPerKg > alkalinity) return FIRST_CARBONIC * (problem.carbon.molPerKg / alkalinity - 0.99);
  if (problem.carbon.by === 'air') return Math.max(1e-10, (FIRST_CARBONIC * 10 ** (problem.carbon.log10PCO2Atm - 1.47)) / alkalinity);
  return phosphate > alkalinity ? 10 ** -6.5 : 1e-9;
}

function guessCarbon({ carbon }: EquilibriumProblem, state: EquilibriumState): number {
  const ratio = 1 + FIRST_CARBONIC / Math.exp(state.lnActivity[PROTON]!);
  switch (carbon.by) {
    case 'none': return ABSENT;
    case 'air': return state.conditions.lnCarbonDioxideSolubility + Math.LN10 * carbon.log10PCO2Atm;
    case 'total': return lnOr(carbon.molPerKg / ratio);
    case 'alkalinity': return Math.log(Math.max(SMALLEST, carbon.eqPerKg) / Math.max(1e-3, ratio - 1));
  }
}
