import type { ReadingRange } from '../../desk/contract.ts';

/** A gap of more than this many usual steps breaks the line: nothing was read there. */
const GAP_STEPS = 4;
const EDGE = 3;

/** A line through readings over time, broken where readings are missing. */
export function sparkPath({ points, least, most }: ReadingRange, width: number, height: number): string {
  const times = points.map((point) => Date.parse(point.at));
  const [from, to] = [times[0] ?? 0, times.at(-1) ?? 1];
  const gap = GAP_STEPS * ((to - from) / Math.max(1, points.length - 1));
  const x = (time: number): number => EDGE + ((time - from) / Math.max(1, to - from)) * (width - 2 * EDGE);
  const y = (value: number): number => (most === least ? height / 2 : EDGE + ((most - value) / (most - least)) * (height - 2 * EDGE));
  return points.map((point, index) => {
    const time = times[index]!;
    const breaks = index === 0 || time - times[index - 1]! > gap;
    return `${breaks ? 'M' : 'L'}${x(time).toFixed(1)} ${y(point.value).toFixed(1)}`;
  }).join('');
}
