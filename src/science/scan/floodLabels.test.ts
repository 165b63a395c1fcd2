import { describe, expect, it } from 'vitest';
import type { CoverMap } from './coverMap.ts';
import { floodLabels, type Seed } from './floodLabels.ts';
import { closeLoops, openLoops } from './loops/openLoops.ts';

const COLUMNS = 120, ROWS = 40;
const grid = { columns: COLUMNS, rows: ROWS, cellMm: 4, leftMm: -240, nearMm: -80 };
const seeds: readonly Seed[] = [-120, 120].map((xMm) => ({ raft: 0, xMm, yMm: 0, reach: 1 }));

/** Leaves everywhere, as high as `heightAt` says along x. */
function mapOf(heightAt: (xMm: number) => number): CoverMap {
  const heightMm = Float32Array.from({ length: COLUMNS * ROWS }, (_, cell) => heightAt(-238 + 4 * (cell % COLUMNS))), cover = heightMm.map(() => 1);
  return { cover, heightMm, smoothMm: heightMm, smoothCover: cover, raft: new Uint8Array(heightMm.length), emptyShare: 0 };
}

/** Where along the middle row the first plant ends. */
function border(map: CoverMap, reach: readonly number[] = [1, 1]): number {
  const { label } = floodLabels(map, grid, seeds.map((seed, i) => ({ ...seed, reach: reach[i]! })));
  const row = label.slice(20 * COLUMNS, 21 * COLUMNS);
  return -240 + 4 * row.lastIndexOf(0) + 4;
}

describe('flooding from two positions over closed leaves', () => {
  it('meets halfway on level ground', () => expect(Math.abs(border(mapOf(() => 50)))).toBeLessThanOrEqual(4));
  it('halfway also where a tall plant stands beside a low one: a step down costs as much as a step up', () => {
    // 75 mm up or down over one cell: sqrt(4^2 + (0.7 x 75)^2) - 4 = 48.7 mm more way for whoever crosses it.
    expect(border(mapOf((x) => (x < -40 ? 125 : 50)))).toBe(-24);
    expect(border(mapOf((x) => (x > 40 ? 125 : 50)))).toBe(24);
  });
  it('a plant that reaches 1.5 times as far gets 1.5 times as much', () => expect(Math.abs(border(mapOf(() => 50), [1.5, 1]) - 24)).toBeLessThanOrEqual(6));
  it('leaves no trace in loops that are used again', () => {
    const before = Array.from({ length: 4 }, () => openLoops());
    before.forEach(closeLoops);
    border(mapOf((x) => 50 + 20 * Math.sin(x / 9)));
    const after = Array.from({ length: 4 }, () => openLoops());
    for (const { code } of after) expect(new Uint8Array(code.memory.buffer).subarray(1024).every((byte) => byte === 0)).toBe(true);
    after.forEach(closeLoops);
  });
});
