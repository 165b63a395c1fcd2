import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { SourceDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { cautionsOf, reasonsToKeepApart } from '../../science/chemistry/incompatibilities.ts';
import type { CautionClass } from '../../science/chemistry/cautions.ts';
import type { Composition } from '../../science/chemistry/composition.ts';
import { compositionOfAnalysis } from '../../greenhouse/compositionOfAnalysis.ts';
import { fertiliserOf, stockComposition } from '../../greenhouse/productComposition.ts';

/** A source as it can be drawn from this morning. */
export interface SourceWater {
  readonly source: SourceDescription;
  readonly mmolPerL: Composition;
  readonly availableL: number;
  readonly costPerL: number;
  readonly gramsPerL: Readonly<Record<string, number>>;
  readonly cautions: readonly CautionClass[];
  /** Where composition and volume come from. */
  readonly basis: string;
}

export interface SourceWaters {
  readonly usable: readonly SourceWater[];
  /** Sources that must not be drawn from, and why. */
  readonly unusable: readonly { readonly source: SourceDescription; readonly reason: string }[];
}

/** What was drawn from a source today. */
export interface DrawnLitres { readonly source: string; readonly litres: number; readonly atMs: number }

/**
 * Every source with its composition (latest analysis, or what the stock was made from), volume at hand and cost a litre.
 * What was `drawn` since the volume was last read is taken off.
 */
export function readSourceWaters(state: GreenhouseState, readings: readonly Reading[], atMs: number, drawn: readonly DrawnLitres[] = []): SourceWaters {
  const usable: SourceWater[] = [];
  const unusable: { source: SourceDescription; reason: string }[] = [];
  for (const source of state.file?.sources ?? []) {
    const found = source.kind === 'fresh' || source.kind === 'return' ? analysedWater(source, state, atMs) : madeUpStock(source, state);
    if (typeof found === 'string') { unusable.push({ source, reason: found }); continue; }
    const volume = volumeAtHand(source, readings, atMs, drawn.filter((is) => is.source === source.id));
    usable.push({ source, ...found, availableL: volume.litres, basis: `${found.basis}; ${volume.basis}` });
  }
  return { usable, unusable };
}

type Contents = Pick<SourceWater, 'mmolPerL' | 'costPerL' | 'gramsPerL' | 'cautions' | 'basis'>;

function analysedWater(source: SourceDescription, state: GreenhouseState, atMs: number): Contents | string {
  const rows = state.analyses.filter((row) => row.place === `tank:${source.id}` && Date.parse(row.at) <= atMs);
  const latest = rows.reduce<(typeof rows)[number] | undefined>((best, row) => (best === undefined || Date.parse(row.at) >= Date.parse(best.at) ? row : best), undefined);
  if (latest === undefined) return `No analysis of ${source.title} (tank:${source.id}) is recorded, so nobody knows what is in it.`;
  const water = compositionOfAnalysis(latest);
  return { mmolPerL: water.mmolPerL, costPerL: source.costPerM3 / 1000, gramsPerL: {}, cautions: [], basis: `analysis ${latest.analysis} of ${latest.at.slice(0, 10)}` };
}

function madeUpStock(source: SourceDescription, state: GreenhouseState): Contents | string {
  const gramsPerL = source.products ?? {};
  const { mmolPerL, unknown } = stockComposition(gramsPerL, state.products);
  if (Object.keys(gramsPerL).length === 0) return `${source.title} does not say what it is made of (products).`;
  if (unknown.length > 0) return `${source.title} holds ${unknown.join(', ')}, whose composition is not known.`;
  const products = Object.keys(gramsPerL).map((id) => fertiliserOf(state.products[id]!)!);
  const apart = products.flatMap((one, i) => products.slice(i + 1).flatMap((other) => reasonsToKeepApart(one, other).map((why) => `${one.name} with ${other.name}: ${why}`)));
  if (apart.length > 0) return `${source.title} puts together what must be kept apart (${apart.join('; ')}).`;
  const costPerL = source.costPerM3 / 1000 + Object.entries(gramsPerL).reduce((sum, [id, grams]) => sum + (grams / 1000) * state.products[id]!.pricePerKg, 0);
  return { mmolPerL, costPerL, gramsPerL, cautions: [...new Set(products.flatMap(cautionsOf))], basis: `made up from ${Object.keys(gramsPerL).join(', ')}` };
}

function volumeAtHand(source: SourceDescription, readings: readonly Reading[], atMs: number, drawn: readonly DrawnLitres[]): { litres: number; basis: string } {
  let latest: Reading | undefined;
  for (const reading of readings) {
    if (reading.place !== `tank:${source.id}` || reading.quantity !== 'volumeL' || !Number.isFinite(reading.value)) continue;
    const ms = Date.parse(reading.at);
    if (ms <= atMs && (latest === undefined || ms >= Date.parse(latest.at))) latest = reading;
  }
  const readMs = latest === undefined ? -Infinity : Date.parse(latest.at);
  const usedL = drawn.filter((is) => is.atMs > readMs).reduce((sum, { litres }) => sum + litres, 0);
  const litres = Math.max(0, Math.min(source.capacityL, latest?.value ?? source.availableL) - usedL);
  const used = usedL > 0 ? `, less ${usedL.toFixed(1)} L drawn today` : '';
  return { litres, basis: `${latest === undefined ? 'volume as described' : `volume read ${latest.at.slice(0, 16).replace('T', ' ')} UTC`}${used}` };
}
