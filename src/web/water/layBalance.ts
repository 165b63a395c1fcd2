import type { Balance, BalancePart } from './balanceOf.ts';

export interface BalanceFrame { readonly width: number; readonly gutter: number; readonly trunk: number; readonly most: number; readonly slot: number; readonly top: number }

export interface LaidBand extends BalancePart {
  readonly path: string;
  /** The bar at the outer end of the band. */
  readonly bar: { readonly x: number; readonly y: number; readonly height: number };
  readonly label: { readonly x: number; readonly y: number; readonly anchor: 'start' | 'end' };
}

export interface BalanceLayout {
  readonly width: number;
  readonly height: number;
  readonly bands: readonly LaidBand[];
  readonly trunk: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
}

const BAR = 7;
const LEAST = 1.5;

/**
 * Bands from the left through the basins to the right, each as thick as its amount. At the outer ends they stand apart so that
 * every label has room; at the basins they lie on each other. Undefined where nothing flows.
 */
export function layBalance(balance: Balance, frame: BalanceFrame): BalanceLayout | undefined {
  const largest = Math.max(total(balance.ins), total(balance.outs));
  if (!(largest > 0)) return undefined;
  const scale = frame.most / largest;
  const sides = [balance.ins, balance.outs].map((parts) => parts.map((part) => ({ part, thick: Math.max(LEAST, part.amount * scale) })));
  const spread = sides.map((parts) => parts.reduce((sum, { thick }) => sum + Math.max(thick, frame.slot), 0));
  const inner = sides.map((parts) => parts.reduce((sum, { thick }) => sum + thick, 0));
  const height = Math.max(...spread, ...inner) + frame.top + 8;
  const middle = frame.top + (height - frame.top - 8) / 2;
  const trunk = { x: (frame.width - frame.trunk) / 2, y: middle - Math.max(...inner) / 2, width: frame.trunk, height: Math.max(...inner) };
  const bands = sides.flatMap((parts, side) => laySide(parts, side === 0, { frame, middle, trunk, spread: spread[side]!, inner: inner[side]! }));
  return { width: frame.width, height, bands, trunk };
}

interface Place { readonly frame: BalanceFrame; readonly middle: number; readonly trunk: BalanceLayout['trunk']; readonly spread: number; readonly inner: number }

function laySide(parts: readonly { readonly part: BalancePart; readonly thick: number }[], isLeft: boolean, { frame, middle, trunk, spread, inner }: Place): LaidBand[] {
  let outerY = middle - spread / 2;
  let innerY = middle - inner / 2;
  const outerX = isLeft ? frame.gutter : frame.width - frame.gutter;
  const innerX = isLeft ? trunk.x : trunk.x + trunk.width;
  return parts.map(({ part, thick }) => {
    const room = Math.max(thick, frame.slot);
    const y = outerY + (room - thick) / 2;
    const laid: LaidBand = {
      ...part, path: bandPath(outerX + (isLeft ? BAR : -BAR), y, innerX, innerY, thick),
      bar: { x: isLeft ? outerX : outerX - BAR, y, height: thick },
      label: { x: isLeft ? outerX - 8 : outerX + 8, y: outerY + room / 2, anchor: isLeft ? 'end' : 'start' },
    };
    outerY += room;
    innerY += thick;
    return laid;
  });
}

function bandPath(x0: number, y0: number, x1: number, y1: number, thick: number): string {
  const xm = (x0 + x1) / 2;
  const n = (value: number) => Math.round(value * 10) / 10;
  return `M${n(x0)} ${n(y0)}C${n(xm)} ${n(y0)} ${n(xm)} ${n(y1)} ${n(x1)} ${n(y1)}V${n(y1 + thick)}C${n(xm)} ${n(y1 + thick)} ${n(xm)} ${n(y0 + thick)} ${n(x0)} ${n(y0 + thick)}Z`;
}

const total = (parts: readonly BalancePart[]): number => parts.reduce((sum, { amount }) => sum + amount, 0);
