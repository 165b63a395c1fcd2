import { describe, expect, it } from 'vitest';
import { startBoxSums } from './boxSum.ts';
import { openLoops } from './loops/openLoops.ts';
import { surfaceDensity } from './surfaceDensity.ts';

const grid = { columns: 60, rows: 60, cellMm: 5, leftMm: -150, nearMm: -150 };

/** Density in the middle of a grid whose cells hold these points. */
function middle(of: (x: number, y: number) => { readonly points: number; readonly coloured: number }): number {
  const loops = openLoops(), cells = Array.from({ length: 3600 }, (_, k) => of(k % 60, Math.floor(k / 60)));
  const points = loops.put(Float32Array.from(cells, (cell) => cell.points)), coloured = loops.put(Float32Array.from(cells, (cell) => cell.coloured));
  const sum = startBoxSums(loops, grid), density = surfaceDensity(loops, grid, { points, coloured, allPoints: sum(points, 1), allColoured: sum(coloured, 1) });
  return loops.view(Float32Array, density.place, density.columns * 30)[15 * density.columns + 15]!;
}

describe('points a cell on one surface', () => {
  it('on bare raft: the mean, a cell in a wide shadow left out', () => {
    expect(middle(() => ({ points: 3, coloured: 0 }))).toBe(3);
    expect(middle((x) => (x < 30 ? { points: 3, coloured: 0 } : { points: 0, coloured: 0 }))).toBeCloseTo(3, 0);
  });
  it('in a canopy: that of the leaves, though raft in its gaps has half as many', () => {
    expect(middle((x, y) => (x % 12 < 4 && y % 12 < 4 ? { points: 2, coloured: 0 } : { points: 4, coloured: 4 }))).toBe(4);
  });
  it('cells at a border, where both are seen, say nothing', () => {
    expect(middle((x, y) => ((x + y) % 2 === 0 ? { points: 9, coloured: 5 } : { points: 2, coloured: 0 }))).toBe(2);
  });
});
