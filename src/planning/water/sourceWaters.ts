import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { SourceDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import type { AnalysisRow } from '../../greenhouse/schema/tableRows.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { WaterFlow } from '../../greenhouse/waterBook.ts';
import { cautionsOf, reasonsToKeepApart } from '../../science/chemistry/incompatibilities.ts';
import type { CautionClass } from '../../science/chemistry/cautions.ts';
import type { Composition } from '../../science/chemistry/composition.ts';
import { compositionOfAnalysis } from '../../greenhouse/compositionOfAnalysis.ts';
import { tellsComposition } from '../../greenhouse/tellsComposition.ts';
import { judgeTreatment, type TreatmentVerdict } from './returned/judgeTreatment.ts';
import { fertiliserOf, stockComposition } from '../../greenhouse/productComposition.ts';
import type { KnownWater } from './likelyTankCause.ts';
import type { TankState } from './tankState.ts';
import { trackTank } from './trackTank.ts';

/** A source as it can be drawn from this morning. */
export interface SourceWater {
  readonly source: SourceDescription;
  readonly mmolPerL: Composition;
  readonly availableL: number;
  readonly costPerL: number;
  readonly gramsPerL: Readonly<Record<string, number>>;
  readonly cautions: readonly CautionClass[];
  /** What a treatment needs a person to know; shown where the solution is drawn. */
  readonly treatmentCautions?: readonly CautionClass[];
  /** Where composition and volume come from. */
  readonly basis: string;
}

export interface SourceWaters {
  readonly usable: readonly SourceWater[];
  /** Sources that must not be drawn from, and why. */
  readonly unusable: readonly UnusableSource[];
  /** Return tanks through time, by id. */
  readonly tanks: ReadonlyMap<string, TankState>;
}

export interface UnusableSource {
  readonly source: SourceDescription;
  readonly reason: string;
  /** What is in it, where that is known: a return tank whose treatment does not do, or that is held until a test is back. */
  readonly water?: SourceWater;
  /** True where only a test is waited for. */
  readonly isHeld?: boolean;
}

/**
 * Every source with its composition (of a return tank as tracked, of fresh water the latest analysis, of a stock what it was
 * made from), volume at hand and cost a litre. Draws on record since the volume was last read are taken off; where it was
 * never read, those since `dayStartMs`.
 */
export function readSourceWaters(state: GreenhouseState, readings: readonly Reading[], atMs: number, dayStartMs: number): SourceWaters {
  const usable: SourceWater[] = [];
  const unusable: UnusableSource[] = [];
  const tanks = new Map<string, TankState>();
  for (const source of state.file?.sources ?? []) {
    if (source.kind === 'return') tanks.set(source.id, trackTank(source, state, readings, watersBeside(source, state, atMs), atMs));
    const found = readSource(source, state, tanks.get(source.id), atMs);
    if (typeof found === 'string') { unusable.push({ source, reason: found }); continue; }
    const tank = tanks.get(source.id);
    if (tank === undefined) {
      const volume = volumeAtHand(source, readings, atMs, dayStartMs, state.water.flows);
      usable.push({ source, ...found, availableL: volume.litres, basis: `${found.basis}; ${volume.basis}` });
      continue;
    }
    const verdict = judgeTreatment(source, state.analyses.filter(({ place }) => place === `tank:${source.id}`), atMs);
    const water = treatWater({ source, ...found, availableL: Math.max(0, Math.min(source.capacityL, tank.volumeL)), basis: tank.basis }, verdict);
    if (verdict.forbids === undefined) usable.push(water); else unusable.push({ source, reason: verdict.forbids, water, isHeld: verdict.isHeld });
  }
  return { usable, unusable, tanks };
}

function readSource(source: SourceDescription, state: GreenhouseState, tank: TankState | undefined, atMs: number): Contents | string {
  if (source.kind !== 'fresh' && source.kind !== 'return') return madeUpStock(source, state);
  const found = analysedWater(source, state, atMs);
  return typeof found === 'string' || tank?.mmolPerL === undefined ? found : { ...found, mmolPerL: tank.mmolPerL };
}

/** Waters of the other tanks and pipes: what a sample of this one may have been mistaken for. */
function watersBeside(tank: SourceDescription, state: GreenhouseState, atMs: number): KnownWater[] {
  return (state.file?.sources ?? []).flatMap((source): KnownWater[] => {
    const row = source.id === tank.id ? undefined : latestAnalysis(source, state, atMs);
    return row === undefined ? [] : [{ title: source.title, isFresh: source.kind === 'fresh', mmolPerL: compositionOfAnalysis(row).mmolPerL }];
  });
}

/** What comes out of the treatment: the same, with the iron that the light left in it. Feeds put the rest back by themselves. */
function treatWater(water: SourceWater, { ironShareKept, cautions, basis }: TreatmentVerdict): SourceWater {
  if (basis === '') return water;
  const { Fe } = water.mmolPerL;
  return { ...water, ...(Fe === undefined ? {} : { mmolPerL: { ...water.mmolPerL, Fe: Fe * ironShareKept } }), treatmentCautions: cautions, basis: `${water.basis}; ${basis}` };
}

type Contents = Pick<SourceWater, 'mmolPerL' | 'costPerL' | 'gramsPerL' | 'cautions' | 'basis'>;

function analysedWater(source: SourceDescription, state: GreenhouseState, atMs: number): Contents | string {
  const latest = latestAnalysis(source, state, atMs);
  if (latest === undefined) return `No analysis of ${source.title} (tank:${source.id}) is recorded, so nobody knows what is in it.`;
  const water = compositionOfAnalysis(latest);
  return { mmolPerL: water.mmolPerL, costPerL: source.costPerM3 / 1000, gramsPerL: {}, cautions: [], basis: `analysis ${latest.analysis} of ${latest.at.slice(0, 10)}` };
}

function latestAnalysis(source: SourceDescription, state: GreenhouseState, atMs: number): AnalysisRow | undefined {
  const rows = state.analyses.filter((row) => row.place === `tank:${source.id}` && Date.parse(row.at) <= atMs && tellsComposition(row));
  return rows.reduce<AnalysisRow | undefined>((best, row) => (best === undefined || Date.parse(row.at) >= Date.parse(best.at) ? row : best), undefined);
}

function madeUpStock(source: SourceDescription, state: GreenhouseState): Contents | string {
  const gramsPerL = source.products ?? {};
  const { mmolPerL, unknown } = stockComposition(gramsPerL, state.products);
  if (Object.keys(gramsPerL).length === 0) return `${source.title} does not say what it is made of (products).`;
  if (unknown.length > 0) return `${source.title} holds ${unknown.join(', ')}, whose composition is not known.`;
  const products = Object.keys(gramsPerL).map((id) => fertiliserOf(state.products[id]!)!);
  const apart = products.flatMap((one, i) => products.slice(i + 1).flatMap((other) => reasonsToKeepApart(one, other).map((why) => `${one.name} with ${other.name}: ${why}`)));
  if (apart.length > 0) return `${source.title} puts together what must be kept apart (${apart.join('; ')}).`;
  const disinfectant = products.find((product) => cautionsOf(product).includes('disinfectant'));
  if (disinfectant !== undefined) return `${source.title} holds ${disinfectant.name}: a disinfectant is no feed, and is not dosed with one.`;
  const costPerL = source.costPerM3 / 1000 + Object.entries(gramsPerL).reduce((sum, [id, grams]) => sum + (grams / 1000) * state.products[id]!.pricePerKg, 0);
  return { mmolPerL, costPerL, gramsPerL, cautions: [...new Set(products.flatMap(cautionsOf))], basis: `made up from ${Object.keys(gramsPerL).join(', ')}` };
}

function volumeAtHand(source: SourceDescription, readings: readonly Reading[], atMs: number, dayStartMs: number, flows: readonly WaterFlow[]): { litres: number; basis: string } {
  let latest: Reading | undefined;
  for (const reading of readings) {
    if (reading.place !== `tank:${source.id}` || reading.quantity !== 'volumeL' || !Number.isFinite(reading.value)) continue;
    const ms = Date.parse(reading.at);
    if (ms <= atMs && (latest === undefined || ms >= Date.parse(latest.at))) latest = reading;
  }
  const sinceMs = latest === undefined ? dayStartMs : Date.parse(latest.at);
  const usedL = flows.filter(({ at, from }) => from === `tank:${source.id}` && Date.parse(at) > sinceMs && Date.parse(at) <= atMs).reduce((sum, { litres }) => sum + litres, 0);
  const litres = Math.max(0, Math.min(source.capacityL, latest?.value ?? source.availableL) - usedL);
  const used = usedL > 0 ? `, less ${usedL.toFixed(1)} L drawn since` : '';
  return { litres, basis: `${latest === undefined ? 'volume as described' : `volume read ${latest.at.slice(0, 16).replace('T', ' ')} UTC`}${used}` };
}
