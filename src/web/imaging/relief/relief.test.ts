import { describe, expect, it } from 'vitest';
import type { HeightPicture } from '../picture/heightPicture.ts';
import { hitHeights } from './hitHeights.ts';
import { eyeOf, lookingAt, moved, turned, type Orbit } from './orbit.ts';
import { pacePoints } from './pacePoints.ts';

const ORBIT: Orbit = { turnDeg: 0, tiltDeg: 45, farMm: 1000, atXMm: 10, atYMm: 20 };

describe('the eye', () => {
  it('stands on the near side at a turn of nothing, on the right at a quarter turn, and looks down from above', () => {
    const [x, y, z] = eyeOf(ORBIT);
    expect([x, y, z].map(Math.round)).toEqual([10, 20 - 707, 707]);
    expect(eyeOf({ ...ORBIT, turnDeg: 90 }).map(Math.round)).toEqual([717, 20, 707]);
    expect(eyeOf(lookingAt(ORBIT, 0, 0)).map(Math.round)).toEqual([0, -707, 707]);
  });
  it('never goes under the rafts, over its head, into the leaves or out of sight', () => {
    expect([turned(ORBIT, -10, -90).tiltDeg, turned(ORBIT, -10, 90).tiltDeg, turned(ORBIT, -10, 0).turnDeg, moved(ORBIT, 0.01).farMm, moved(ORBIT, 100).farMm]).toEqual([8, 89, 350, 250, 9000]);
  });
});

describe('a press in relief', () => {
  // A block 100 mm high in the middle of a field of 10 mm cells; the rest is level.
  const picture: HeightPicture = {
    columns: 9, rows: 9, cellMm: 10, leftMm: -45, nearMm: -45, heightFromMm: -100, heightStepMm: 0.1, coloured: false,
    heights: Uint16Array.from({ length: 81 }, (_, cell) => (cell === 40 ? 2000 : 1000)), labels: new Uint16Array(81), colours: new Uint8Array(243),
  };
  it('from straight above hits the cell below; from the side the block that stands in the way', () => {
    expect(hitHeights(picture, [20, 0, 3000], [0, 0, -1])).toBe(42);
    expect(hitHeights(picture, [200, 0, 200], [-2, 0, -1.5])).toBe(40);
    expect(hitHeights(picture, [0, 0, 500], [0, 0, 1])).toBeUndefined();
    expect(hitHeights(picture, [500, 500, 500], [0, 0, -1])).toBeUndefined();
  });
});

describe('pace of drawing', () => {
  function drawn(frameMs: number, all: number) {
    const calls: { from: number; count: number; fresh: boolean }[] = [];
    let step: ((now: number) => void) | undefined;
    let now = 0;
    const pace = pacePoints({ all: () => all, draw: (from, count, fresh) => calls.push({ from, count, fresh }) }, (next) => { step = next; return 1; }, () => { step = undefined; });
    const frame = () => { const run = step; step = undefined; now += frameMs; run?.(now); };
    const move = (frames: number) => { for (let i = 0; i < frames; i += 1) { pace.moved(); frame(); } };
    const rest = (frames: number) => { for (let i = 0; i < frames; i += 1) frame(); };
    return { calls, move, rest, waits: () => step !== undefined };
  }
  it('draws a share while it moves and smaller ones on a slow device, then adds the rest without drawing twice, then rests', () => {
    const slow = drawn(200, 2_000_000);
    slow.move(20);
    expect(slow.calls.every(({ from, fresh }) => from === 0 && fresh)).toBe(true);
    expect(slow.calls.at(-1)!.count).toBe(30_000);
    const before = slow.calls.length;
    slow.rest(500);
    const rest = slow.calls.slice(before);
    expect(rest.every(({ fresh }) => !fresh)).toBe(true);
    expect(rest.reduce((at, { from, count }) => { expect(from).toBe(at); return at + count; }, 30_000)).toBe(2_000_000);
    expect(slow.waits()).toBe(false);
  });
  it('draws everything at once on a fast device', () => {
    const fast = drawn(10, 1_000_000);
    fast.move(40);
    expect(fast.calls.at(-1)).toEqual({ from: 0, count: 1_000_000, fresh: true });
    fast.rest(3);
    expect(fast.waits()).toBe(false);
  });
});
