import { bisect } from './bisect.ts';
import type { EquilibriumProblem } from './equilibriumProblem.ts';
import { ROW_ACID, ROW_BASE } from './equationSums.ts';
import { ABSENT, type EquilibriumState } from './equilibriumState.ts';
import { CARBON, PHOSPHATE, PROTON, SULFATE, TOTAL_CHARGE, TOTAL_PHOSPHATE, TOTAL_SULFATE } from './equilibriumSystem.ts';
import { chargeOfTotals } from './newtonSpeciation.ts';
import { solveSmall } from './solveSmall.ts';

const [LEAST_IONIC_STRENGTH, MOST_IONIC_STRENGTH] = [1e-9, 20];

/**
 * The slow, safe way, for waters on which Newton's method fails. Three nested one-dimensional searches that only ever halve an interval:
 * the ionic strength that reproduces itself; inside it pH, carbon or the adjusted ion, in each of which the charge balance is monotone;
 * inside that the free ligands, at the minimum of a convex function. Returns whether a solution lies inside the intervals.
 */
export function bracketSpeciation(problem: EquilibriumProblem, state: EquilibriumState): boolean {
  let found = false;
  const rises = (strength: number): boolean => {
    state.applyStrength(strength, state.solutes);
    found = searchScalar(problem, state);
    return state.strength > strength;
  };
  rises(bisect(LEAST_IONIC_STRENGTH, MOST_IONIC_STRENGTH, rises));
  return found;
}

/** The unknown that the charge balance (or the alkalinity) decides, as an interval of something that it rises with. */
interface ScalarSearch {
  readonly low: number;
  readonly high: number;
  readonly set: (value: number) => void;
  /** Negative when the value must rise. */
  readonly excess: () => number;
}

function searchScalar(problem: EquilibriumProblem, state: EquilibriumState): boolean {
  const search = scalarSearch(problem, state);
  if (search === undefined) { minimiseLigands(problem, state); return true; }
  const at = (value: number): number => { search.set(value); minimiseLigands(problem, state); return search.excess(); };
  const { low, high } = search;
  // Where no value inside will do, the nearest end stands, without the search for it.
  if (at(high) < 0 || at(low) > 0) return false;
  at(bisect(low, high, (value) => at(value) < 0));
  return true;
}

function scalarSearch(problem: EquilibriumProblem, state: EquilibriumState): ScalarSearch | undefined {
  const { lnActivity, totals, sums } = state;
  const alkalinity = (): number => sums[ROW_BASE]! - sums[ROW_ACID]!;
  const { carbon, protons, chargeAdjust } = problem;
  if (carbon.by === 'alkalinity') {
    const settle = adjustInside(problem, state);
    return { low: -60, high: 3, set: (x) => { lnActivity[CARBON] = x; }, excess: () => { settle(); return alkalinity() - carbon.eqPerKg; } };
  }
  if (protons.by !== 'pH') {
    const wanted = protons.by === 'alkalinity' ? protons.eqPerKg : chargeOfTotals(totals);
    return { low: -Math.LN10, high: 16 * Math.LN10, set: (x) => { lnActivity[PROTON] = -x; }, excess: () => alkalinity() - wanted };
  }
  if (chargeAdjust === undefined) return undefined;
  const sign = Math.sign(TOTAL_CHARGE[chargeAdjust]!);
  return { low: 0, high: 20, set: (x) => { totals[chargeAdjust] = x; }, excess: () => sign * (chargeOfTotals(totals) - alkalinity()) };
}

/** With pH and alkalinity both stated, the adjusted ion follows from the charges at once. */
function adjustInside({ chargeAdjust, carbon }: EquilibriumProblem, { totals }: EquilibriumState): () => void {
  if (chargeAdjust === undefined || carbon.by !== 'alkalinity') return () => undefined;
  const charge = TOTAL_CHARGE[chargeAdjust]!;
  return () => { totals[chargeAdjust] = Math.max(0, totals[chargeAdjust]! - (chargeOfTotals(totals) - carbon.eqPerKg) / charge); };
}

const matrix = new Float64Array(16);
const right = new Float64Array(4);

/**
 * Free ligands at given pH and activity coefficients: the minimum of F = sum of species - sum of total times ln activity (carriers
 * eliminated), which is convex, by damped Newton steps that must lower F. Its gradient is the error of the mass balances.
 */
function minimiseLigands(problem: EquilibriumProblem, state: EquilibriumState): void {
  const ligands = presentLigands(problem, state);
  state.evaluate();
  for (let round = 0; round < 200; round += 1) {
    const errors = ligands.map(([u, total]) => state.sums[u]! - total);
    if (errors.every((error, k) => Math.abs(error) < 1e-13 * ligands[k]![1])) return;
    ligands.forEach(([u], row) => {
      right[row] = -errors[row]!;
      ligands.forEach(([v], column) => { matrix[4 * row + column] = state.slopes[4 * u + v]!; });
    });
    if (!solveSmall(matrix, right, ligands.length, 4) || !takeStep(ligands, errors, state)) return;
  }
}

type Ligand = readonly [unknown: number, total: number];

function presentLigands({ carbon }: EquilibriumProblem, { totals, lnActivity }: EquilibriumState): readonly Ligand[] {
  const all: readonly Ligand[] = [[SULFATE, totals[TOTAL_SULFATE]!], [PHOSPHATE, totals[TOTAL_PHOSPHATE]!], [CARBON, carbon.by === 'total' ? carbon.molPerKg : 0]];
  for (const [u, total] of all) {
    if (total > 0 && lnActivity[u] === ABSENT) lnActivity[u] = Math.log(total);
    if (total === 0 && (u !== CARBON || carbon.by === 'none' || carbon.by === 'total')) lnActivity[u] = ABSENT;
  }
  return all.filter(([, total]) => total > 0);
}

/** Halves the step until it no longer runs far beyond the minimum along it; false when no step helps any more. */
function takeStep(ligands: readonly Ligand[], errors: readonly number[], state: EquilibriumState): boolean {
  const start = ligands.map(([u]) => state.lnActivity[u]!);
  const steps = ligands.map((_, k) => right[k]!);
  const norm = (values: readonly number[]): number => values.reduce((sum, v, k) => Math.max(sum, Math.abs(v) / ligands[k]![1]), 0);
  let share = Math.min(1, 6 / Math.max(1e-300, ...steps.map(Math.abs)));
  const slopeBefore = errors.reduce((sum, error, k) => sum + error * steps[k]!, 0);
  for (let k = 0; k < 60; k += 1, share *= 0.5) {
    ligands.forEach(([u], i) => { state.lnActivity[u] = start[i]! + share * steps[i]!; });
    state.evaluate();
    const now = ligands.map(([u, total]) => state.sums[u]! - total);
    const slope = now.reduce((sum, error, i) => sum + error * steps[i]!, 0);
    if (slope <= 0.9 * Math.abs(slopeBefore) || norm(now) < 1e-13) return true;
  }
  return false;
}
