import type { PlantHistory, ScannedPlant } from '../../desk/contract.ts';
import { roundTicks } from '../parts/roundTicks.ts';

export interface HistoryPoint { readonly x: number; readonly y: number; readonly low: number | undefined; readonly high: number | undefined; readonly scan: PlantHistory; readonly value: number }
export interface HistoryLayout {
  readonly name: string;
  readonly unit: string;
  readonly points: readonly HistoryPoint[];
  readonly path: string;
  readonly ticks: readonly { readonly value: number; readonly y: number }[];
}

interface Frame { readonly width: number; readonly height: number; readonly left: number; readonly bottom: number; readonly top: number; readonly right: number }

/** Fresh mass over the scans with its intervals; the area from above where mass was not told at each of them. */
export function layHistory({ history }: Pick<ScannedPlant, 'history'>, frame: Frame): HistoryLayout | undefined {
  if (history.length === 0) return undefined;
  const byMass = history.every(({ freshG }) => freshG !== undefined);
  const value = (is: PlantHistory): number => (byMass ? is.freshG! : is.areaMm2 / 100);
  const times = history.map(({ takenAt }) => Date.parse(takenAt));
  const [from, to] = [Math.min(...times), Math.max(...times)];
  const most = 1.08 * Math.max(1e-6, ...history.map((is) => Math.max(value(is), byMass ? is.highG ?? 0 : 0)));
  const x = (time: number): number => (to === from ? (frame.left + frame.width - frame.right) / 2 : frame.left + ((time - from) / (to - from)) * (frame.width - frame.left - frame.right));
  const y = (is: number): number => frame.height - frame.bottom - (is / most) * (frame.height - frame.top - frame.bottom);
  const points = history.map((is, i): HistoryPoint => ({ x: x(times[i]!), y: y(value(is)), low: byMass && is.lowG !== undefined ? y(is.lowG) : undefined, high: byMass && is.highG !== undefined ? y(is.highG) : undefined, scan: is, value: value(is) }));
  return {
    name: byMass ? 'Fresh mass' : 'Area from above', unit: byMass ? 'g' : 'cm²', points,
    path: points.map((point, i) => `${i === 0 ? 'M' : 'L'}${point.x.toFixed(1)} ${point.y.toFixed(1)}`).join(''),
    ticks: roundTicks(most, 3).map((tick) => ({ value: tick, y: y(tick) })),
  };
}
