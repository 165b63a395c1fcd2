import type { BaySeason } from '../../desk/contract.ts';
import { roundTicks } from '../parts/roundTicks.ts';

export interface SeasonFrame { readonly width: number; readonly height: number; readonly left: number; readonly right: number; readonly top: number; readonly bottom: number }

export interface SeasonLayout {
  /** Light: a bar a day inside (sun below, lamps above), a stepped line outside. */
  readonly bars: readonly { readonly date: string; readonly x: number; readonly width: number; readonly sunY: number; readonly sunHeight: number; readonly lampY: number; readonly lampHeight: number }[];
  readonly outside: string;
  readonly lightTicks: readonly { readonly y: number; readonly text: string }[];
  /** Temperature: band of the coldest to the warmest hour inside, means inside and outside. */
  readonly band: string;
  readonly insideC: string;
  readonly outsideC: string;
  readonly airTicks: readonly { readonly y: number; readonly text: string }[];
  readonly x: (place: number) => number;
  readonly dates: readonly { readonly x: number; readonly date: string }[];
}

/** Light and temperature of one bay by day, each in a frame of its own with the same days across. */
export function laySeason({ days }: BaySeason, frame: SeasonFrame): SeasonLayout {
  const step = (frame.width - frame.left - frame.right) / Math.max(1, days.length);
  const x = (place: number): number => frame.left + place * step;
  const base = frame.height - frame.bottom;
  const high = Math.max(1, ...days.flatMap(({ outsideMol, insideMol }) => [outsideMol, insideMol]));
  const lightY = (mol: number): number => base - (mol / high) * (base - frame.top);
  const [cold, warm] = [Math.min(0, ...days.flatMap((day) => [day.outsideC, day.coldestC])), Math.max(5, ...days.flatMap((day) => [day.outsideC, day.warmestC]))];
  const airY = (c: number): number => base - ((c - cold) / (warm - cold)) * (base - frame.top);
  const line = (of: (day: BaySeason['days'][number]) => number, y: (value: number) => number): string => `M${days.map((day, i) => `${round(x(i + 0.5))} ${round(y(of(day)))}`).join('L')}`;
  return {
    bars: days.map((day, i) => {
      const [sun, top] = [lightY(day.insideMol - day.lampMol), lightY(day.insideMol)];
      return { date: day.date, x: round(x(i) + step * 0.1), width: round(step * 0.8), sunY: round(sun), sunHeight: round(base - sun), lampY: round(top), lampHeight: round(sun - top) };
    }),
    outside: line(({ outsideMol }) => outsideMol, lightY), lightTicks: roundTicks(high, 4).map((mol) => ({ y: lightY(mol), text: String(mol) })),
    band: `${line(({ warmestC }) => warmestC, airY)}L${days.map((day, i) => `${round(x(i + 0.5))} ${round(airY(day.coldestC))}`).reverse().join('L')}Z`,
    insideC: line(({ insideC }) => insideC, airY), outsideC: line(({ outsideC }) => outsideC, airY),
    airTicks: tens(cold, warm).map((c) => ({ y: airY(c), text: String(c) })),
    x, dates: days.flatMap(({ date }, i) => (i % 14 === 7 ? [{ x: x(i + 0.5), date }] : [])),
  };
}

const tens = (from: number, to: number): number[] => Array.from({ length: Math.floor(to / 10) - Math.ceil(from / 10) + 1 }, (_, i) => 10 * (Math.ceil(from / 10) + i));
const round = (value: number): number => Math.round(value * 10) / 10;
