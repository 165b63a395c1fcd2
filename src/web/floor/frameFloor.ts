import type { BoundsM, PointM } from '../../desk/contract.ts';

/** Pixels a metre below which basin numbers cannot be read: the map scrolls sideways instead of shrinking further. */
const LEAST_PX_PER_M = 17;
const LEAST_PX_PER_M_PHONE = 22;

/** Size of the map in metres, the width that it needs on screen, and a round length for its scale bar. */
export function frameFloor(bounds: BoundsM, narrow: boolean) {
  const widthM = Math.max(1, bounds.right - bounds.left);
  const heightM = Math.max(1, bounds.bottom - bounds.top);
  const scaleM = [50, 20, 10, 5, 2].find((length) => length <= widthM / 4) ?? 1;
  return { widthM, heightM, scaleM, leastPx: Math.round(widthM * (narrow ? LEAST_PX_PER_M_PHONE : LEAST_PX_PER_M)) };
}

export function boxAround([x, y]: PointM, [width, height]: PointM) {
  return { x: x - width / 2, y: y - height / 2, width, height };
}
