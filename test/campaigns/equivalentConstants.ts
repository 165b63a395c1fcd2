import { basename } from 'node:path';
import type { Mutation } from './numericConstants.ts';

interface Equivalent {
  readonly file: string;
  /** What stands in the line of the constant. */
  readonly inLine: RegExp;
  readonly reason: string;
}

const START = 'a first guess: the search ends at the same water';
const STOP = 'when a search stops: the balances of what it found are checked apart';

/** Constants that steer a search or a store of results and change no answer beyond its last digits. */
const EQUIVALENTS: readonly Equivalent[] = [
  { file: 'guessSpeciation.ts', inLine: /./, reason: START },
  { file: 'bracketSpeciation.ts', inLine: /./, reason: 'ends and steps of a search by halving: the same water lies between them' },
  { file: 'newtonSpeciation.ts', inLine: /MAX_ROUNDS =|TOLERANCE =|MAX_STEP =|LIGANDS_FIRST =|1e-12/, reason: STOP },
  { file: 'newtonSpeciation.ts', inLine: /Float64Array\(|Int32Array\(/, reason: 'room for more unknowns than there are' },
  { file: 'equilibriumConditions.ts', inLine: /KEPT =/, reason: 'how many temperatures are kept: the others are worked out again' },
  { file: 'saturation.ts', inLine: /kept\.size/, reason: 'how many temperatures are kept: the others are worked out again' },
  { file: 'equilibriumState.ts', inLine: /ABSENT =/, reason: 'stands for nothing: any number of which the exponential is zero' },
  { file: 'equilibriumState.ts', inLine: /POWERS = 5/, reason: 'room in a table, more than is used' },
  { file: 'equationSums.ts', inLine: /\[ROW_ACID, ROW_BASE\]|ROWS = 5/, reason: 'room in a table, more than is used' },
  { file: 'speciation.ts', inLine: /CHECKED_TO =|NOTHING_MOL_PER_KG =|1e-12/, reason: 'a check of rounding, far from what converges and what does not' },
  { file: 'nonNegativeLeastSquares.ts', inLine: /./, reason: STOP },
  { file: 'solveSmall.ts', inLine: /1e-300/, reason: 'the smallest pivot that is not nothing' },
  { file: 'fertiliserRecipe.ts', inLine: /ALKALINITY_WEIGHT =/, reason: 'outweighs every nutrient as long as it is large' },
  { file: 'moistAir.ts', inLine: /vapourPa \/ 610\.8|dew = 237\.3/, reason: 'a first guess: the search ends at the same dew point' },
  { file: 'moistAir.ts', inLine: /step < 20|dew \+ 0\.005|< 1e-9/, reason: 'steps of a search: the dew point found is checked against published tables' },
  { file: 'transpiration.ts', inLine: /step < 20|< 1e-7|saturationGrowth =/, reason: 'steps of a search: the balance at the leaf temperature found is checked apart' },
  { file: 'transpirationTable.ts', inLine: /POINTS =|leafAreaIndex: 0\.01|< 1e-6/, reason: 'where a cubic is fitted: it is compared with the exact balance to 0.1 %' },
  { file: 'transpirationTable.ts', inLine: /\[0, 1, 2, 3\]/, reason: 'counts columns; one more is not used' },
  { file: 'bayHeat.ts', inLine: /> 1e-6/, reason: 'when a search by halving stops' },
  { file: 'sun.ts', inLine: /step < 4/, reason: 'rounds of a search that has converged by then' },
  { file: 'monthlyWeather.ts', inLine: /round < 20/, reason: 'rounds of a search that has converged by then' },
  { file: 'fallingExp.ts', inLine: /1 \/ 120/, reason: 'last term of a series: 5 % of it is 6e-14 of the result, below the stated 1e-13' },
  { file: 'fallingExp.ts', inLine: /length: 64/, reason: 'room in a table, more than is used' },
  { file: 'expolinear.ts', inLine: /x > 30|SHORT_STEP =/, reason: 'where one form of an expression takes over from another that gives the same' },
  { file: 'reducedTomato.ts', inLine: /DAY_S - 1e-6/, reason: 'room for rounding in a sum of steps' },
  { file: 'growthChecks.ts', inLine: /COMPARE_ONLY =/, reason: 'any error so wide teaches nothing' },
];

/** Why a changed constant changes no result, where that is so. Judged by a person, not by the tests. */
export const reasonOfEquivalence = ({ path, text }: Mutation): string | undefined =>
  EQUIVALENTS.find(({ file, inLine }) => basename(path) === file && inLine.test(text))?.reason;
