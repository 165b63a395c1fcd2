import type { SolutionFlag } from './solutionEstimate.ts';

const stamp = (ms: number): string => `${new Date(ms).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
const litres = (value: number): string => `${Math.round(value)} L`;
const strength = (value: number): string => `${value.toFixed(2)} mS/cm`;

/** How a balance began: a recorded filling, an earlier balance (when its plants changed), an analysis, or a level and a conductivity with the proportions of a recipe. */
export type StartKind = 'filled' | 'counted' | 'measured' | 'assumed';

const STARTED: Readonly<Record<StartKind, string>> = { filled: 'filled', counted: 'counted on from', measured: 'analysed', assumed: 'no filling recorded; proportions of the crop\'s target, with the sodium and chloride of returned or fresh water, at the conductivity measured' };

/** The sentences with which an estimate says what it rests on and what does not fit. */
export const words = {
  level: (ms: number, value: number, miss: number): string => `level of ${stamp(ms)} says ${litres(value)}${Math.abs(miss) < 0.5 ? '' : `, ${litres(Math.abs(miss))} ${miss < 0 ? 'less' : 'more'} than the balance`}`,
  conductivity: (ms: number, value: number, expected: number): string => `conductivity of ${stamp(ms)} says ${strength(value)}, the balance ${strength(expected)}`,
  analysis: (ms: number, analysis: string): string => `analysis ${analysis} of ${stamp(ms)}`,
  basis: (started: StartKind, ms: number, startL: number, transpiredL: number, corrections: readonly (string | undefined)[]): string =>
    [`${STARTED[started]} ${stamp(ms)} with ${litres(startL)}, less ${litres(transpiredL)} transpired`, ...corrections.filter((is) => is !== undefined)].join('; '),
  unknown: (hasVolume: boolean, hasWater: boolean): string => {
    if (hasVolume) return 'No filling and no analysis of this water is recorded, only its level.';
    return hasWater ? 'An analysis is recorded but neither a filling nor a level.' : 'No filling, level or analysis of this water is recorded.';
  },
  volumeFlag: (ms: number, expected: number, measured: number, again: boolean): SolutionFlag => ({
    at: new Date(ms).toISOString(), quantity: 'volume', expected, measured, unit: 'L',
    sentence: `Level of ${stamp(ms)}: ${litres(measured)} where filling and transpiration explain ${litres(expected)}${again ? '; a second reading says the same, so the balance starts again from it' : '; not used'}.`,
    likelyCause: measured < expected ? (again ? 'a leak, or less was filled than the ticket said' : 'a probe that drifts, else a leak') : (again ? 'a filling that was not recorded' : 'a probe that drifts, else a filling that was not recorded'),
  }),
  conductivityFlag: (ms: number, expected: number, measured: number, again: boolean, volumeDoubted: boolean): SolutionFlag => ({
    at: new Date(ms).toISOString(), quantity: 'conductivity', expected, measured, unit: 'mS/cm',
    sentence: `Conductivity of ${stamp(ms)}: ${strength(measured)} where the balance has ${strength(expected)}${again ? '; a second reading says the same, so the balance is scaled to it' : '; not used'}.`,
    likelyCause: volumeDoubted ? 'level and conductivity are both off: a filling that was not recorded, or a leak' : again ? 'a wrong ticket, or a stock that is not what its label says' : 'a probe that drifts or is dirty, else a wrong ticket',
  }),
  driftFlag: (ms: number, value: number, upward: boolean, readings: number): SolutionFlag => ({
    at: new Date(ms).toISOString(), quantity: 'conductivity', expected: value, measured: value, unit: 'mS/cm',
    sentence: `The last ${readings} conductivities up to ${stamp(ms)} all lean ${upward ? 'above' : 'below'} what the balance expects (now ${strength(value)}).`,
    likelyCause: upward ? 'a probe that drifts, else salts that the crop leaves behind: check the probe in a standard' : 'a probe that drifts or is dirty, else water that was added without a ticket: check the probe in a standard',
  }),
  analysisFlag: (ms: number, analysis: string, expected: number, measured: number): SolutionFlag => ({
    at: new Date(ms).toISOString(), quantity: 'analysis', expected, measured, unit: 'mS/cm',
    sentence: `Analysis ${analysis} of ${stamp(ms)} amounts to ${strength(measured)} where the balance had ${strength(expected)}; the analysis is used and the difference booked as unexplained.`,
    likelyCause: 'a wrong ticket, a stock that is not what its label says, or another basin was sampled',
  }),
};
