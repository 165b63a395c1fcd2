import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { ReadingRange } from '../contract.ts';

const TITLES: Readonly<Record<string, readonly [title: string, unit: string]>> = {
  ecMsPerCm25: ['conductivity at 25 °C', 'mS/cm'], pH: ['acidity, pH', ''], levelMm: ['water level', 'mm'], volumeL: ['volume', 'L'],
  waterC: ['water temperature', '°C'], airC: ['air temperature', '°C'], rhPct: ['relative humidity', '%'], co2Ppm: ['carbon dioxide', 'ppm'],
  ppfdUmolM2S: ['light', 'µmol/(m²·s)'], globalWm2: ['global radiation', 'W/m²'],
};

/** Readings of one place, oldest first, gathered by quantity. */
export function readingRanges(readings: readonly Reading[]): ReadingRange[] {
  const byQuantity = new Map<string, Reading[]>();
  for (const reading of readings) byQuantity.set(reading.quantity, [...(byQuantity.get(reading.quantity) ?? []), reading]);
  return [...byQuantity.entries()].map(([quantity, own]) => rangeOf(quantity, own)).sort((a, b) => (a.title < b.title ? -1 : 1));
}

function rangeOf(quantity: string, own: readonly Reading[]): ReadingRange {
  const [title, unit] = TITLES[quantity] ?? [quantity, '1'];
  const values = own.map((is) => is.value);
  const last = own.at(-1)!;
  return {
    quantity, title, unit, count: own.length, least: Math.min(...values), most: Math.max(...values), last: last.value, lastAt: last.at,
    points: own.map(({ at, value }) => ({ at, value })),
  };
}
