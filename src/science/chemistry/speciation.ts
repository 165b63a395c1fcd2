import { accepted, refused, type Outcome, type Refusal } from '../refusal.ts';
import { bracketSpeciation } from './bracketSpeciation.ts';
import { equilibriumConditions, IONIC_SPECIES, type EquilibriumConditions } from './equilibriumConditions.ts';
import type { EquilibriumProblem, NearbySolution } from './equilibriumProblem.ts';
import { ROW_ACID, ROW_BASE } from './equationSums.ts';
import { EquilibriumState } from './equilibriumState.ts';
import { ACTIVITY_CLASS, CARBON, PHOSPHATE, PROTON, speciesIndex, SULFATE, TOTAL_PHOSPHATE, TOTAL_SULFATE } from './equilibriumSystem.ts';
import { guessSpeciation } from './guessSpeciation.ts';
import { conductivityUsPerCm } from './ionConductivity.ts';
import { chargeOfTotals, newtonSpeciation } from './newtonSpeciation.ts';
import { VALIDITY } from './validity.ts';

/** A water with everything in it worked out. Molal: per kilogram of water. */
export interface Speciation extends NearbySolution {
  readonly temperatureC: number;
  readonly pH: number;
  /** Total alkalinity relative to CO2, H2PO4-, NH4+, H3BO3, H4SiO4. */
  readonly alkalinityEqPerKg: number;
  readonly inorganicCarbonMolPerKg: number;
  /** 100 (cations - anions) / (cations + anions) over all species; 0 where there are no ions. */
  readonly chargeErrorPct: number;
  readonly waterActivity: number;
  /** In the order of TOTALS; differs from the problem where an ion was adjusted. */
  readonly totalsMolPerKg: readonly number[];
  /** In the order of SPECIES_NAMES. */
  readonly molPerKg: readonly number[];
  /** Of each activity class; `log10GammaOf` looks up a species. */
  readonly log10GammaByClass: readonly number[];
  readonly method: 'newton' | 'bracketing';
  readonly rounds: number;
}

const state = new EquilibriumState();
/** Largest relative error that a balance of a result may have. Anything worse is refused, whichever way it was found. */
const CHECKED_TO = 1e-8;

/**
 * Solves a water. The problem must be complete and free of contradictions (see `EquilibriumProblem`); amounts finite and not negative.
 * Refused: charge balance by an ion that would turn negative, an alkalinity that the pH cannot have, anything that does not converge.
 * Method: Newton in logarithms, and nested bracketing where that fails; the balances of either are checked before anything is returned.
 */
export function solveEquilibrium(stated: EquilibriumProblem): Outcome<Speciation> {
  const problem = withoutTraces(stated);
  const conditions = equilibriumConditions(problem.temperatureC);
  prepare(problem, conditions);
  const rounds = newtonSpeciation(problem, state);
  if (rounds > 0 && balancesHold(problem)) return accepted(collect('newton', rounds));
  prepare(problem, conditions);
  const inside = bracketSpeciation(problem, state);
  if (inside && balancesHold(problem)) return accepted(collect('bracketing', 0));
  return refused([explainFailure(problem, inside)]);
}

/** Less than a few thousand ions in a litre is nothing, and its logarithm would overflow. */
const NOTHING_MOL_PER_KG = 1e-20;

function withoutTraces(stated: EquilibriumProblem): EquilibriumProblem {
  return stated.carbon.by === 'total' && stated.carbon.molPerKg < NOTHING_MOL_PER_KG ? { ...stated, carbon: { by: 'none' } } : stated;
}

function prepare(problem: EquilibriumProblem, conditions: EquilibriumConditions): void {
  state.conditions = conditions;
  for (let t = 0; t < state.totals.length; t += 1) state.totals[t] = problem.totalsMolPerKg[t]! < NOTHING_MOL_PER_KG ? 0 : problem.totalsMolPerKg[t]!;
  guessSpeciation(problem, state);
}

const close = (value: number, wanted: number, scale: number): boolean => Math.abs(value - wanted) <= CHECKED_TO * scale;

/** Every stated amount against the species, and the charges where they were to balance. */
function balancesHold({ carbon, protons, chargeAdjust }: EquilibriumProblem): boolean {
  const { sums, totals } = state;
  if (!(state.strength <= VALIDITY.ionicStrengthMolPerKg.highest)) return false;
  const alkalinity = sums[ROW_BASE]! - sums[ROW_ACID]!;
  const turnover = sums[ROW_BASE]! + sums[ROW_ACID]! + 1e-12;
  const electroneutral = protons.by === 'charge' || chargeAdjust !== undefined;
  return close(sums[SULFATE]!, totals[TOTAL_SULFATE]!, totals[TOTAL_SULFATE]!)
    && close(sums[PHOSPHATE]!, totals[TOTAL_PHOSPHATE]!, totals[TOTAL_PHOSPHATE]!)
    && (carbon.by !== 'total' || close(sums[CARBON]!, carbon.molPerKg, carbon.molPerKg))
    && (carbon.by !== 'alkalinity' || close(alkalinity, carbon.eqPerKg, turnover))
    && (protons.by !== 'alkalinity' || close(alkalinity, protons.eqPerKg, turnover))
    && (!electroneutral || close(alkalinity, chargeOfTotals(totals), Math.max(turnover, state.strength)));
}

function collect(method: Speciation['method'], rounds: number): Speciation {
  return {
    temperatureC: state.conditions.temperatureC,
    pH: -state.lnActivity[PROTON]! / Math.LN10,
    ionicStrengthMolPerKg: state.strength,
    solutesMolPerKg: state.solutes,
    lnActivities: copyOf(state.lnActivity),
    alkalinityEqPerKg: state.sums[ROW_BASE]! - state.sums[ROW_ACID]!,
    inorganicCarbonMolPerKg: state.sums[CARBON]!,
    chargeErrorPct: chargeErrorPct(),
    waterActivity: state.waterActivity,
    totalsMolPerKg: copyOf(state.totals),
    molPerKg: copyOf(state.molPerKg),
    log10GammaByClass: copyOf(state.log10Gamma),
    method, rounds,
  };
}

/** Plain arrays: making one costs a tenth of what a typed array of this size does. */
function copyOf(values: Float64Array): number[] {
  const copy: number[] = [];
  for (let i = 0; i < values.length; i += 1) copy.push(values[i]!);
  return copy;
}

function chargeErrorPct(): number {
  const { sign, chargeAbs } = state.conditions.conductivity;
  let difference = 0, sum = 0;
  for (let i = 0; i < IONIC_SPECIES.length; i += 1) {
    const charge = chargeAbs[i]! * state.molPerKg[IONIC_SPECIES[i]!]!;
    difference += sign[i]! * charge;
    sum += charge;
  }
  return sum > 0 ? (100 * difference) / sum : 0;
}

function explainFailure({ chargeAdjust, carbon }: EquilibriumProblem, inside: boolean): Refusal {
  const { highest } = VALIDITY.ionicStrengthMolPerKg;
  if (inside && state.strength > highest) {
    return { code: 'value-out-of-range', path: 'totals', value: state.strength, limit: highest, unit: 'mol/kg', severity: 'error',
      message: 'the ionic strength is beyond every model; check amounts, pH and CO2' };
  }
  if (!inside && carbon.by === 'alkalinity') {
    return { code: 'infeasible', path: 'alkalinityMeqPerKg', value: 1000 * carbon.eqPerKg, unit: 'meq/kg', severity: 'error',
      message: 'at this pH the water has more (or less) alkalinity than that without any bicarbonate; check pH and alkalinity' };
  }
  if (chargeAdjust !== undefined) {
    return { code: 'infeasible', path: 'chargeAdjust', severity: 'error',
      message: 'the charges cannot be balanced with this ion: its amount would be negative; name an ion of the other sign, or check the analysis' };
  }
  return { code: 'not-converged', path: '', severity: 'error', message: 'the equilibrium did not converge; check the amounts' };
}

const ionic = new Float64Array(IONIC_SPECIES.length);

/** Conductivity of a speciated water at its own temperature, uS/cm. See `conductivityUsPerCm` for method and validity. */
export function speciatedEcUsPerCm(speciation: Speciation): number {
  for (let i = 0; i < ionic.length; i += 1) ionic[i] = speciation.molPerKg[IONIC_SPECIES[i]!]!;
  return conductivityUsPerCm(equilibriumConditions(speciation.temperatureC).conductivity, ionic);
}

/** Molality of one species by name ("Ca+2", "HPO4-2"), mol/kg. Throws on a name that is not in the table. */
export const speciesMolPerKg = (speciation: Speciation, name: string): number => speciation.molPerKg[speciesIndex(name)]!;

/** log10 of the activity coefficient of one species by name. */
export const log10GammaOf = (speciation: Speciation, name: string): number => speciation.log10GammaByClass[ACTIVITY_CLASS[speciesIndex(name)]!]!;
