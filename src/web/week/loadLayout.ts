import type { WeekResource } from '../../desk/contract.ts';
import { dayMonth } from '../words/times.ts';

interface LoadBar { readonly date: string; readonly x: number; readonly width: number; readonly y: number; readonly height: number; readonly overY: number; readonly overHeight: number; readonly isOver: boolean; readonly levelledY: number; readonly moves: boolean; readonly label: string | undefined }

export interface LoadDrawing {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  /** The capacity of each day, as steps. */
  readonly capacity: string;
  readonly bars: readonly LoadBar[];
  readonly marks: readonly { readonly y: number; readonly text: string }[];
}

const WIDTH = 560, HEIGHT = 170, LEFT = 44, TOP = 20, FOOT = 24, GAP = 4;
/** Days between two dates on the axis. */
const LABEL_EVERY = 3;

/** Hours by day: a bar up to the capacity, what is over it above, and where the day stands once visits have moved. */
export function layLoads({ loadMin, levelledMin, capacityMin }: WeekResource, dates: readonly string[]): LoadDrawing {
  const most = Math.max(1, ...loadMin, ...levelledMin, ...capacityMin);
  const yOf = (minutes: number) => TOP + (HEIGHT - TOP - FOOT) * (1 - minutes / most);
  const step = (WIDTH - LEFT) / dates.length;
  const xOf = (i: number) => LEFT + i * step;
  const full = Math.max(...capacityMin);
  return {
    width: WIDTH, height: HEIGHT, left: LEFT,
    capacity: capacityMin.map((minutes, i) => `${i === 0 ? 'M' : 'L'}${xOf(i)} ${yOf(minutes)}H${xOf(i + 1)}`).join(''),
    bars: dates.map((date, i) => {
      const [load, capacity] = [loadMin[i]!, capacityMin[i]!];
      const within = Math.min(load, capacity);
      return {
        date, x: xOf(i) + GAP / 2, width: step - GAP, y: yOf(within), height: yOf(0) - yOf(within), overY: yOf(load), overHeight: yOf(within) - yOf(load),
        isOver: load > capacity, levelledY: yOf(levelledMin[i]!), moves: Math.abs(levelledMin[i]! - load) > 0.05, label: i % LABEL_EVERY === 0 ? dayMonth(date) : undefined,
      };
    }),
    marks: [0, 0.5, 1].map((share) => ({ y: yOf(share * full), text: `${Math.round((share * full) / 6) / 10}` })),
  };
}
