import { describe, expect, it } from 'vitest';
import type { CoverMap } from './coverMap.ts';
import { plantReach } from './plantReach.ts';

const grid = { columns: 60, rows: 30, cellMm: 10, leftMm: -300, nearMm: -150 };
const layout = { rimHeightMm: 60, innerMm: [600, 300], rafts: [{ id: 'r', centreMm: [0, 0], sizeMm: [580, 280], positions: [-200, 0, 200].map((xMm, id) => ({ id, xMm, yMm: 0 })) }] } as const;

/** Discs of leaves, 80 mm in radius, of these heights. */
function mapOf(heights: readonly number[]): CoverMap {
  const heightMm = Float32Array.from({ length: 1800 }, (_, cell) => {
    const x = -295 + 10 * (cell % 60), y = -145 + 10 * Math.floor(cell / 60), near = [-200, 0, 200].findIndex((at) => Math.hypot(x - at, y) < 80);
    return near < 0 ? NaN : heights[near]!;
  });
  const cover = heightMm.map((height) => (height > 0 ? 1 : 0));
  return { cover, heightMm, smoothMm: heightMm, smoothCover: cover, raft: new Uint8Array(1800), emptyShare: 0 };
}

describe('how far plants reach', () => {
  it('as far as they are taller than the middle one, within 1.35', () => {
    const over = (heights: readonly number[]) => { const [a, b, c] = plantReach(mapOf(heights), grid, layout, [])[0]!; return [a! / b!, c! / b!]; };
    expect(over([50, 40, 36])).toEqual([expect.closeTo(1.25, 6), expect.closeTo(0.9, 6)]);
    expect(over([90, 40, 0.5])).toEqual([expect.closeTo(1.35, 6), expect.closeTo(1 / 1.35, 6)]);
  });
  it('on a raft with a quarter of the cover half as far', () => {
    const whole = mapOf([40, 40, 40]), quarter = { ...whole, cover: whole.cover.map((cover) => cover / 4) };
    expect(plantReach(quarter, grid, layout, [])[0]![1]! / plantReach(whole, grid, layout, [])[0]![1]!).toBeCloseTo(0.5, 6);
  });
  it('an earlier radius of 121 mm beside 100 mm, as tall: 1.21^0.7; one that is not known counts as the middle one', () => {
    const earlier = [{ raft: 'r', position: 0, radiusMm: 121 }, { raft: 'r', position: 1, radiusMm: 100 }, { raft: 'other', position: 1, radiusMm: 90 }];
    const [first, second, third] = plantReach(mapOf([40, 40, 40]), grid, layout, earlier)[0]!;
    expect(first! / second!).toBeCloseTo(1.21 ** 0.7, 9);
    expect(third).toBe(second);
  });
  it('with an earlier scan a plant that is 1.2 times as tall reaches 1.2^0.5 times as far', () => {
    const earlier = [0, 1, 2].map((position) => ({ raft: 'r', position, radiusMm: 70 }));
    const [first, second] = plantReach(mapOf([48, 40, 40]), grid, layout, earlier)[0]!;
    expect(first! / second!).toBeCloseTo(1.2 ** 0.5, 6);
  });
});
