import { compositionOfAnalysis } from '../../greenhouse/compositionOfAnalysis.ts';
import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { SourceDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { tellsComposition } from '../../greenhouse/tellsComposition.ts';
import { NO_WATER } from '../../greenhouse/waterBook.ts';
import type { KnownWater } from './likelyTankCause.ts';
import type { TankState } from './tankState.ts';
import { TankTracker } from './tankTracker.ts';

/** Where an instrument does not say how sure it is (common practice, no source): share of the capacity; share of the value. */
const LEVEL_SD_SHARE = 0.01;
const CONDUCTIVITY_SD_SHARE = 0.03;

/**
 * Contents of a return tank at an instant: its last analysis and level, plus what was drained into it and less what was
 * drawn from it by the water book, corrected by whatever was read since. `others` are the waters that a sample may have
 * been mistaken for. Readings in any order; those of other places do not count.
 */
export function trackTank(source: SourceDescription, state: GreenhouseState, readings: readonly Reading[], others: readonly KnownWater[], atMs: number): TankState {
  const place = `tank:${source.id}`;
  const earlier = state.water.earlier[place];
  const facts = factsOf(place, source, state, readings, atMs);
  const level = facts.findIndex(({ kind }) => kind === 'volume');
  const tracker = new TankTracker(source.id, startL(source, facts, level, earlier?.litres ?? 0), earlier ?? NO_WATER, earlier !== undefined, others);
  for (const { tell } of facts) tell(tracker);
  return tracker.finish(atMs);
}

interface Fact { readonly ms: number; readonly kind: 'flow' | 'volume' | 'analysis' | 'conductivity'; readonly litres: number; readonly tell: (tracker: TankTracker) => void }
const ORDER: Readonly<Record<Fact['kind'], number>> = { flow: 0, volume: 1, analysis: 2, conductivity: 3 };

/** Everything that is known of a tank up to now, oldest first. */
function factsOf(place: string, source: SourceDescription, state: GreenhouseState, readings: readonly Reading[], atMs: number): Fact[] {
  const facts: Fact[] = [
    ...state.water.flows.filter(({ from, to }) => from === place || to === place).map((flow): Fact => ({ ms: Date.parse(flow.at), kind: 'flow', litres: flow.to === place ? flow.litres : -flow.litres, tell: (tracker) => tracker.move(flow) })),
    ...state.analyses.filter((row) => row.place === place && tellsComposition(row)).map((row): Fact => ({ ms: Date.parse(row.at), kind: 'analysis', litres: 0, tell: (tracker) => tracker.observeAnalysis(Date.parse(row.at), compositionOfAnalysis(row)) })),
    ...readings.filter((reading) => reading.place === place).flatMap((reading) => readFact(reading, source)),
  ];
  return facts.filter(({ ms }) => ms <= atMs).sort((a, b) => a.ms - b.ms || ORDER[a.kind] - ORDER[b.kind]);
}

function readFact({ at, quantity, value, sd }: Reading, source: SourceDescription): Fact[] {
  const ms = Date.parse(at);
  if (!Number.isFinite(value) || !Number.isFinite(ms) || value < 0) return [];
  if (quantity === 'volumeL') {
    const litres = Math.min(value, source.capacityL);
    return [{ ms, kind: 'volume', litres, tell: (tracker) => tracker.observeVolume(ms, litres, sd ?? LEVEL_SD_SHARE * source.capacityL) }];
  }
  return quantity === 'ecMsPerCm25' ? [{ ms, kind: 'conductivity', litres: 0, tell: (tracker) => tracker.observeConductivity(ms, value, Math.max(sd ?? CONDUCTIVITY_SD_SHARE * value, 0.005)) }] : [];
}

/** What it held before the first fact: by the first level less what moved before it; by the description where there is no level. */
function startL({ availableL, capacityL }: SourceDescription, facts: readonly Fact[], level: number, earlierL: number): number {
  const movedL = facts.slice(0, Math.max(0, level)).reduce((sum, { kind, litres }) => sum + (kind === 'flow' ? litres : 0), 0);
  return level < 0 ? Math.min(capacityL, Math.max(0, availableL + earlierL)) : Math.max(0, facts[level]!.litres - movedL);
}
