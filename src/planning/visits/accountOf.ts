import type { BasinAccount } from '../../greenhouse/basinAccount.ts';
import { scaleComposition } from '../../science/chemistry/composition.ts';
import { toInstant } from '../day/shiftDay.ts';
import type { SolutionEstimate } from '../water/solutionEstimate.ts';

/** What the balance of a basin comes to, for the journal: it is closed when the first stop that changes water or plants is done. */
export function accountOf(water: SolutionEstimate, atMs: number): { account?: BasinAccount } {
  if (!water.known) return {};
  const { volumeL, mmolPerL, volumeSdL, strengthSdShare, balance: { from, transpiredL, uptakeMmol, unexplainedL, unexplainedMmol } } = water.solution;
  return { account: { at: toInstant(atMs), from, volumeL, mmol: scaleComposition(mmolPerL, volumeL), transpiredL, uptakeMmol, unexplainedL, unexplainedMmol, volumeSdL, strengthSdShare } };
}
