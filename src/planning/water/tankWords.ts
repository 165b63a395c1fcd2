import type { AnalysedWater } from '../../greenhouse/compositionOfAnalysis.ts';
import type { Composition } from '../../science/chemistry/composition.ts';
import { listOf, shown } from '../words/plainWords.ts';
import type { MovedBatch } from './likelyTankCause.ts';
import type { TankFlag } from './tankState.ts';

const stamp = (ms: number): string => `${new Date(ms).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
const litres = (value: number): string => `${Math.round(value)} L`;
/** A batch explains a level where it comes within this share of what is missing (common practice, no source). */
const NEAR_SHARE = 0.15;

/** The sentences with which a tank says what it rests on and what does not fit. */
export const tankWords = {
  basis: (analysis: AnalysedWater | undefined, inL: number, outL: number, levelMs: number | undefined): string => [
    analysis === undefined ? 'never analysed' : `analysis ${analysis.analysis} of ${analysis.at.slice(0, 10)}${inL + outL > 0 ? `, plus ${litres(inL)} that came and less ${litres(outL)} that went since` : ''}`,
    levelMs === undefined ? 'volume as described' : `volume read ${stamp(levelMs)}`,
  ].join('; '),
  volumeFlag: (ms: number, expected: number, measured: number, again: boolean, batches: readonly MovedBatch[]): TankFlag => ({
    at: new Date(ms).toISOString(), quantity: 'volume',
    sentence: `Level of ${stamp(ms)}: ${litres(measured)} where what came and went explains ${litres(expected)}${again ? '; a second reading says the same, so the count starts again from it' : '; not used'}.`,
    likelyCause: missingBatch(measured - expected, batches) ?? (measured < expected
      ? (again ? 'a leak, or solution that was drawn without a ticket' : 'a probe that drifts, else a leak or a draw without a ticket')
      : (again ? 'solution or water that came in without a ticket' : 'a probe that drifts, else solution or water that came in without a ticket')),
  }),
  conductivityFlag: (ms: number, expected: number, measured: number, again: boolean): TankFlag => ({
    at: new Date(ms).toISOString(), quantity: 'conductivity',
    sentence: `Conductivity of ${stamp(ms)}: ${measured.toFixed(2)} mS/cm where what came and went explains ${expected.toFixed(2)}${again ? '; a second reading says the same, so the contents are scaled to it' : '; not used'}.`,
    likelyCause: again ? 'a batch that went into another tank than its ticket says, or water that ran in: have the tank analysed' : 'a probe that drifts or is dirty, else a wrong ticket',
  }),
  analysisFlag: (ms: number, { analysis, mmolPerL }: AnalysedWater, far: readonly (keyof Composition)[], expected: Composition, cause: string, isOther: boolean): TankFlag => ({
    at: new Date(ms).toISOString(), quantity: 'analysis',
    sentence: `Analysis ${analysis} of ${stamp(ms)} does not fit what came and went: ${listOf(far.slice(0, 3).map((name) => `${name} ${shown(mmolPerL[name] ?? 0, 2)} mmol/L where ${shown(expected[name] ?? 0, 2)} was expected`))}; ${isOther ? 'not used until a second one says the same' : 'it is used, and the difference is booked as unexplained'}.`,
    likelyCause: cause,
  }),
};

/** The one batch whose litres are what the level misses. */
function missingBatch(missL: number, batches: readonly MovedBatch[]): string | undefined {
  const near = batches.filter(({ came, litres: of }) => (missL < 0) === came && Math.abs(Math.abs(missL) - of) < NEAR_SHARE * of)
    .sort((a, b) => Math.abs(Math.abs(missL) - a.litres) - Math.abs(Math.abs(missL) - b.litres))[0];
  if (near === undefined) return undefined;
  return near.came ? `a wrong ticket: the ${litres(near.litres)} from ${near.basin} did not come into this tank` : `a wrong ticket: the ${litres(near.litres)} for ${near.basin} were not drawn from this tank`;
}
