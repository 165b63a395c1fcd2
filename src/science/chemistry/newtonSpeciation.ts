import type { EquilibriumProblem } from './equilibriumProblem.ts';
import { ROW_ACID, ROW_BASE } from './equationSums.ts';
import { ABSENT, type EquilibriumState } from './equilibriumState.ts';
import { solveSmall } from './solveSmall.ts';
import { CARBON, PHOSPHATE, PROTON, SULFATE, TOTAL_CHARGE, TOTAL_PHOSPHATE, TOTAL_SULFATE, TOTALS } from './equilibriumSystem.ts';

const MAX_ROUNDS = 60;
/** Largest relative error left in any balance and in the ionic strength. */
const TOLERANCE = 1e-9;
/** Largest change of a ln activity in one step: a factor of 400. */
const MAX_STEP = 6;

/** Logarithmic error of a ligand above which H+ waits for it. */
const LIGANDS_FIRST = 0.7;

const COLUMNS = 4;
const matrix = new Float64Array(COLUMNS * COLUMNS);
const right = new Float64Array(4);
const unknowns = new Int32Array(4);

/**
 * Newton's method on the logarithms of the free ligands and of H+, on logarithmic residuals, with the activity coefficients renewed in
 * every round. Returns the rounds it took, or 0 when it did not converge (then `state` is of no use). `state` holds conditions, totals
 * and a first guess of the activities and the ionic strength.
 */
export function newtonSpeciation(problem: EquilibriumProblem, state: EquilibriumState): number {
  const count = listUnknowns(problem, state);
  let adjustment = 0;
  for (let round = 1; round <= MAX_ROUNDS; round += 1) {
    const before = state.strength;
    state.applyStrength(before, state.solutes);
    state.evaluate();
    if (problem.chargeAdjust !== undefined) adjustment = adjustCharge(problem.chargeAdjust, state);
    const worst = stepUnknowns(problem, state, count);
    if (!Number.isFinite(worst)) return 0;
    const drift = Math.abs(state.strength - before) / state.strength;
    if (worst < TOLERANCE && drift < TOLERANCE && adjustment < TOLERANCE) return round;
  }
  return 0;
}

/** Which activities are unknown: ligands that are present, carbon where its amount is stated, H+ where pH is not. */
function listUnknowns(problem: EquilibriumProblem, state: EquilibriumState): number {
  let count = 0;
  if (state.totals[TOTAL_SULFATE]! > 0) unknowns[count++] = SULFATE; else state.lnActivity[SULFATE] = ABSENT;
  if (state.totals[TOTAL_PHOSPHATE]! > 0) unknowns[count++] = PHOSPHATE; else state.lnActivity[PHOSPHATE] = ABSENT;
  const { by } = problem.carbon;
  if (by === 'alkalinity' || (by === 'total' && problem.carbon.molPerKg > 0)) unknowns[count++] = CARBON;
  else if (by !== 'air') state.lnActivity[CARBON] = ABSENT;
  if (problem.protons.by !== 'pH') unknowns[count++] = PROTON;
  return count;
}

/** Charge of the totals when phosphate is H2PO4- and carbon CO2, eq/kg: what electroneutrality asks the alkalinity to be. */
export function chargeOfTotals(totals: ArrayLike<number>): number {
  let sum = 0;
  for (let t = 0; t < TOTALS.length; t += 1) sum += TOTAL_CHARGE[t]! * totals[t]!;
  return sum;
}

/** Sets the adjusted total to what the alkalinity of the species now asks for; returns the relative change. */
function adjustCharge(index: number, state: EquilibriumState): number {
  const charge = TOTAL_CHARGE[index]!, old = state.totals[index]!;
  const others = chargeOfTotals(state.totals) - charge * old;
  const wanted = Math.max(0, (state.sums[ROW_BASE]! - state.sums[ROW_ACID]! - others) / charge);
  state.totals[index] = wanted;
  return Math.abs(wanted - old) / Math.max(wanted, 1e-12);
}

/** Alkalinity that the species must add up to, eq/kg. */
function wantedAlkalinity(problem: EquilibriumProblem, state: EquilibriumState): number {
  if (problem.carbon.by === 'alkalinity') return problem.carbon.eqPerKg;
  return problem.protons.by === 'alkalinity' ? problem.protons.eqPerKg : chargeOfTotals(state.totals);
}

/** One Newton step; returns the largest relative error before it, NaN when there is no step. */
function stepUnknowns(problem: EquilibriumProblem, state: EquilibriumState, count: number): number {
  let worst = 0, worstLigand = 0;
  for (let row = 0; row < count; row += 1) {
    const error = fillRow(problem, state, row, count);
    worst = Math.max(worst, Math.abs(error));
    if (!isAlkalinityRow(problem, unknowns[row]!)) worstLigand = worst;
    right[row] = -error;
  }
  // A wrong ligand makes a wrong alkalinity, so far from the solution the ligands go first. The alkalinity row is always the last.
  const moving = worstLigand > LIGANDS_FIRST && worstLigand < Infinity && isAlkalinityRow(problem, unknowns[count - 1]!) ? count - 1 : count;
  if (!solveSmall(matrix, right, moving, COLUMNS)) return Number.NaN;
  for (let row = 0; row < moving; row += 1) {
    const step = Math.max(-MAX_STEP, Math.min(MAX_STEP, right[row]!));
    state.lnActivity[unknowns[row]!]! += step;
  }
  return worst;
}

/** H+ stands for the alkalinity; so does carbon where an alkalinity is what it has to make. */
const isAlkalinityRow = (problem: EquilibriumProblem, unknown: number): boolean =>
  unknown === PROTON || (unknown === CARBON && problem.carbon.by === 'alkalinity');

/** Fills one row of the Newton matrix and returns the logarithmic error of its equation. */
function fillRow(problem: EquilibriumProblem, state: EquilibriumState, row: number, count: number): number {
  const unknown = unknowns[row]!;
  const { sums, slopes } = state;
  if (isAlkalinityRow(problem, unknown)) return fillAlkalinityRow(problem, state, row, count);
  for (let k = 0; k < count; k += 1) matrix[COLUMNS * row + k] = slopes[COLUMNS * unknown + unknowns[k]!]! / sums[unknown]!;
  return Math.log(sums[unknown]! / ligandTotal(problem, state, unknown));
}

function ligandTotal(problem: EquilibriumProblem, state: EquilibriumState, unknown: number): number {
  if (unknown === CARBON) return problem.carbon.by === 'total' ? problem.carbon.molPerKg : 0;
  return state.totals[unknown === SULFATE ? TOTAL_SULFATE : TOTAL_PHOSPHATE]!;
}

/** Bases = acids + alkalinity; a negative alkalinity stands on the side of the bases, so that both sides have a logarithm. */
function fillAlkalinityRow(problem: EquilibriumProblem, state: EquilibriumState, row: number, count: number): number {
  const { sums, slopes } = state;
  const wanted = wantedAlkalinity(problem, state);
  const bases = sums[ROW_BASE]! + Math.max(0, -wanted), acids = sums[ROW_ACID]! + Math.max(0, wanted);
  for (let k = 0; k < count; k += 1) {
    const j = unknowns[k]!;
    matrix[COLUMNS * row + k] = slopes[COLUMNS * ROW_BASE + j]! / bases - slopes[COLUMNS * ROW_ACID + j]! / acids;
  }
  return Math.log(bases / acids);
}
