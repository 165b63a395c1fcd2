import type { LotOutlook, Quantiles } from '../../desk/contract.ts';
import { roundTicks } from '../parts/roundTicks.ts';
import { daysBetween } from '../words/times.ts';

export interface FanFrame { readonly width: number; readonly height: number; readonly left: number; readonly right: number; readonly top: number; readonly bottom: number }

export interface FanLayout {
  readonly outer: string;
  readonly inner: string;
  readonly middle: string;
  readonly samples: readonly { readonly x: number; readonly y: number; readonly words: string }[];
  readonly x: (date: string) => number;
  readonly y: (value: number) => number;
  readonly ticksG: readonly number[];
  readonly ticksDate: readonly string[];
}

/** Works out the paths of a forecast fan: 5 to 95 %, 25 to 75 %, the median, and the samples that were weighed. */
export function layFan(lot: LotOutlook, frame: FanFrame, alsoG: readonly number[]): FanLayout | undefined {
  const dates = [...lot.days.map((day) => day.date), ...lot.samples.map((sample) => sample.date)].sort();
  const [first, last] = [dates[0], dates.at(-1)];
  if (first === undefined || last === undefined || lot.days.length < 2) return undefined;
  const span = Math.max(1, daysBetween(first, last));
  const topG = 1.05 * Math.max(...lot.days.map((day) => day.freshG.p95), ...lot.samples.map((sample) => sample.meanFreshG), ...alsoG);
  const x = (date: string): number => frame.left + (daysBetween(first, date) / span) * (frame.width - frame.left - frame.right);
  const y = (value: number): number => frame.height - frame.bottom - (value / topG) * (frame.height - frame.top - frame.bottom);
  const edge = (name: keyof Quantiles) => lot.days.map((day) => `${round(x(day.date))} ${round(y(day.freshG[name]))}`);
  const band = (low: keyof Quantiles, high: keyof Quantiles) => `M${edge(high).join('L')}L${edge(low).reverse().join('L')}Z`;
  return {
    outer: band('p05', 'p95'), inner: band('p25', 'p75'), middle: `M${edge('p50').join('L')}`, x, y,
    samples: lot.samples.map((sample) => ({ x: x(sample.date), y: y(sample.meanFreshG), words: `${sample.date}: ${sample.meanFreshG} g, mean of ${sample.plants} plants` })),
    ticksG: roundTicks(topG, 5),
    ticksDate: everyWeek(first, span, Math.max(7, 7 * Math.ceil(span / 7 / 6))),
  };
}

function everyWeek(first: string, span: number, step: number): string[] {
  const at = (days: number) => new Date(Date.parse(`${first}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
  return Array.from({ length: Math.floor(span / step) + 1 }, (_, number) => at(number * step));
}

const round = (value: number): number => Math.round(value * 10) / 10;
