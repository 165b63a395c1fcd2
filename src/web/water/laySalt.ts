import type { TankProjection } from '../../desk/contract.ts';
import { roundTicks } from '../parts/roundTicks.ts';
import { daysBetween } from '../words/times.ts';

export interface SaltFrame { readonly width: number; readonly height: number; readonly left: number; readonly right: number; readonly top: number; readonly bottom: number }

export interface SaltLayout {
  readonly band: string;
  readonly line: string;
  readonly limitY: number;
  readonly dischargeX?: number;
  readonly ticks: readonly { readonly value: number; readonly y: number }[];
  readonly dates: readonly { readonly date: string; readonly x: number }[];
}

/** A component of a return tank over the coming days: line, band of one standard deviation, limit. Undefined for fewer than two days. */
export function laySalt({ days, limitMmolPerL, dischargeBy }: TankProjection, frame: SaltFrame): SaltLayout | undefined {
  const [first, last] = [days[0], days.at(-1)];
  if (first === undefined || last === undefined || days.length < 2) return undefined;
  const span = Math.max(1, daysBetween(first.date, last.date));
  const top = 1.12 * Math.max(limitMmolPerL, ...days.map(({ high }) => high));
  const x = (date: string): number => round(frame.left + (daysBetween(first.date, date) / span) * (frame.width - frame.left - frame.right));
  const y = (value: number): number => round(frame.height - frame.bottom - (Math.max(0, value) / top) * (frame.height - frame.top - frame.bottom));
  const along = (of: (day: TankProjection['days'][number]) => number) => days.map((day) => `${x(day.date)} ${y(of(day))}`);
  const step = Math.max(1, Math.ceil(days.length / (frame.width < 400 ? 4 : 5)));
  return {
    band: `M${along(({ high }) => high).join('L')}L${along(({ low }) => low).reverse().join('L')}Z`, line: `M${along(({ mmolPerL }) => mmolPerL).join('L')}`,
    limitY: y(limitMmolPerL), ...(dischargeBy === undefined ? {} : { dischargeX: x(dischargeBy) }),
    ticks: roundTicks(top, 4).map((value) => ({ value, y: y(value) })),
    dates: days.filter((_, number) => number % step === 0).map(({ date }) => ({ date, x: x(date) })),
  };
}

const round = (value: number): number => Math.round(value * 10) / 10;
