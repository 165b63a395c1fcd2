import { cellAt, heightMm, type HeightPicture } from './heightPicture.ts';

/**
 * How much higher each cell of a scan stands than the same place at another scan, mm; NaN where either saw nothing. The other scan may
 * have cells of another size: its cell that holds the middle of this one is taken.
 */
export function compareHeights(now: HeightPicture, before: HeightPicture): Float32Array {
  const change = new Float32Array(now.heights.length);
  for (let row = 0, cell = 0; row < now.rows; row += 1) {
    const y = now.nearMm + (row + 0.5) * now.cellMm;
    for (let column = 0; column < now.columns; column += 1, cell += 1) {
      const [here, there] = [heightMm(now, cell), heightMm(before, cellAt(before, now.leftMm + (column + 0.5) * now.cellMm, y))];
      change[cell] = here === undefined || there === undefined ? Number.NaN : here - there;
    }
  }
  return change;
}

/** Reach of the scale: 98 of 100 cells changed by less; at least 5 mm. */
export function reachOf(change: Float32Array): number {
  const sizes = change.filter((_, i) => i % 7 === 0).filter((value) => !Number.isNaN(value)).map(Math.abs).sort();
  return Math.max(5, Math.ceil(sizes[Math.floor(0.98 * (sizes.length - 1))] ?? 5));
}
