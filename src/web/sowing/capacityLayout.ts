import type { PlaceByWeek } from '../../desk/contract.ts';
import { dayMonth } from '../words/times.ts';

interface CapacityBar { readonly from: string; readonly x: number; readonly width: number; readonly standingY: number; readonly standingHeight: number; readonly sownY: number; readonly sownHeight: number; readonly binds: boolean; readonly label: string | undefined }

export interface CapacityDrawing {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly limitY: number;
  readonly bars: readonly CapacityBar[];
  readonly marks: readonly { readonly y: number; readonly text: string }[];
}

const WIDTH = 560, HEIGHT = 200, LEFT = 38, TOP = 18, FOOT = 24, GAP = 2;
/** Weeks between two dates on the axis. */
const LABEL_EVERY = 4;

/** Bars by week from the bottom up: lots that stand, then lots to be sown. Weeks after the last plant are left out. */
export function layCapacity({ weeks, basins, usableBasins }: PlaceByWeek): CapacityDrawing {
  const last = weeks.reduce((latest, { standing, sown }, i) => (standing + sown > 0.05 ? i : latest), 0);
  const shown = weeks.slice(0, last + 1);
  const most = Math.max(basins, ...shown.map(({ standing, sown }) => standing + sown));
  const yOf = (count: number) => TOP + (HEIGHT - TOP - FOOT) * (1 - count / most);
  const step = (WIDTH - LEFT) / shown.length;
  return {
    width: WIDTH, height: HEIGHT, left: LEFT, limitY: yOf(usableBasins),
    bars: shown.map(({ from, standing, sown, binds }, i) => ({
      from, x: LEFT + i * step + GAP / 2, width: step - GAP, standingY: yOf(standing), standingHeight: yOf(0) - yOf(standing),
      sownY: yOf(standing + sown), sownHeight: yOf(standing) - yOf(standing + sown), binds, label: i % LABEL_EVERY === 0 ? dayMonth(from) : undefined,
    })),
    marks: [0, 0.5, 1].map((share) => ({ y: yOf(share * basins), text: String(Math.round(share * basins)) })),
  };
}
