import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { AnalysisRow } from '../../greenhouse/schema/tableRows.ts';
import type { BasinState } from '../../greenhouse/state.ts';
import type { Composition } from '../../science/chemistry/composition.ts';
import { compositionOfAnalysis, type AnalysedWater } from '../../greenhouse/compositionOfAnalysis.ts';
import { litresAtLevel } from '../../greenhouse/basinGeometry.ts';
import { SolutionTracker } from './solutionTracker.ts';
import type { SolutionEstimate } from './solutionEstimate.ts';

export interface SolutionInputs {
  readonly basin: BasinState;
  /** Readings of this basin, any order. */
  readonly readings: readonly Reading[];
  /** Laboratory analyses of this basin's water, any order. */
  readonly analyses: readonly AnalysisRow[];
  /** mmol taken up with each litre absorbed; absent where no plants stand in it. */
  readonly uptakeMmolPerL: Composition | undefined;
  /** What such water is made like: taken for the proportions of its ions where a level and a conductivity are all that is known. */
  readonly likelyMmolPerL: Composition | undefined;
  /** Water that the plants of this basin transpire in a span of time, litres. */
  readonly litresBetween: (fromMs: number, toMs: number) => number;
  readonly atMs: number;
}

/** Where an instrument does not say how sure it is (common practice, no source). */
const LEVEL_SD_MM = 3;
const CONDUCTIVITY_SD_SHARE = 0.03;

/**
 * Volume and composition of a basin now: its last filling, less what was transpired and taken up since, corrected by
 * level and conductivity readings according to their uncertainty (one-dimensional Kalman 1960 updates), and by analyses.
 * Readings beyond 3.5 standard deviations are flagged and not absorbed; when a second one says the same, the balance
 * starts again from it and the difference stands in the balance as unexplained. Where no filling was recorded, a level
 * and a conductivity start a balance with the proportions of the crop's target, and say so.
 */
export function estimateSolution(inputs: SolutionInputs): SolutionEstimate {
  const { basin, atMs } = inputs;
  const facts = collectFacts(inputs);
  const tracker = new SolutionTracker(inputs.uptakeMmolPerL ?? {}, inputs.litresBetween, inputs.likelyMmolPerL);
  if (basin.filled !== undefined && Date.parse(basin.filled.at) <= atMs) tracker.renew(Date.parse(basin.filled.at), basin.filled.volumeL, basin.filled.mmolPerL, basin.filled.counted);
  for (const fact of facts) {
    if (fact.kind === 'volume') tracker.observeVolume(fact.ms, fact.value, fact.sd);
    else if (fact.kind === 'conductivity') tracker.observeConductivity(fact.ms, fact.value, fact.sd);
    else if (fact.kind === 'pH') tracker.observePH(fact.ms, fact.value);
    else tracker.observeAnalysis(fact.ms, fact.row);
  }
  return tracker.finish(atMs);
}

interface Measured<Kind extends string> { readonly kind: Kind; readonly ms: number; readonly value: number; readonly sd: number }
type Fact = Measured<'volume'> | Measured<'conductivity'> | Measured<'pH'> | { readonly kind: 'analysis'; readonly ms: number; readonly row: AnalysedWater };

/** Everything that was observed since the last filling or wash, oldest first; a level before a conductivity of the same instant. */
function collectFacts({ basin, readings, analyses, atMs }: SolutionInputs): Fact[] {
  const since = Math.max(...[basin.filled?.at, basin.washedAt].map((at) => (at === undefined ? -Infinity : Date.parse(at))));
  const facts = [...readings.flatMap((reading) => readFact(reading, basin)), ...analyses.map((row): Fact => ({ kind: 'analysis', ms: Date.parse(row.at), row: compositionOfAnalysis(row) }))];
  const order = { volume: 0, analysis: 1, conductivity: 2, pH: 3 } as const;
  return facts.filter(({ ms }) => ms > since && ms <= atMs).sort((a, b) => a.ms - b.ms || order[a.kind] - order[b.kind]);
}

function readFact(reading: Reading, basin: BasinState): Fact[] {
  const { value, quantity } = reading;
  const ms = Date.parse(reading.at);
  if (!Number.isFinite(value) || !Number.isFinite(ms)) return [];
  if (quantity === 'levelMm' && value >= 0) return [{ kind: 'volume', ms, value: litresAtLevel(basin.type, value), sd: litresAtLevel(basin.type, reading.sd ?? LEVEL_SD_MM) }];
  if (quantity === 'volumeL' && value >= 0) return [{ kind: 'volume', ms, value, sd: reading.sd ?? litresAtLevel(basin.type, LEVEL_SD_MM) }];
  if (quantity === 'ecMsPerCm25' && value >= 0) return [{ kind: 'conductivity', ms, value, sd: Math.max(reading.sd ?? CONDUCTIVITY_SD_SHARE * value, 0.005) }];
  if (quantity === 'pH' && value > 0 && value < 14) return [{ kind: 'pH', ms, value, sd: reading.sd ?? 0.1 }];
  return [];
}
