import type { HeightPicture } from './heightPicture.ts';

/** Height that 99.5 of 100 plant cells do not reach, mm; at least 10. */
export function tallestMm({ heights, labels, heightFromMm, heightStepMm }: HeightPicture): number {
  const plant = heights.filter((height, cell) => height !== 0 && labels[cell] !== 0).sort();
  return Math.max(10, heightFromMm + heightStepMm * (plant[Math.floor(0.995 * (plant.length - 1))] ?? 0));
}
