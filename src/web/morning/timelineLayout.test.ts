import { describe, expect, it } from 'vitest';
import type { PlanSheet, SheetVisit } from '../../desk/contract.ts';
import { drawAcross, drawDown } from './timelineFrame.ts';
import { layTimeline, sliceTimeline } from './timelineLayout.ts';

const at = (minutes: number) => new Date(Date.UTC(2026, 3, 14, 6, minutes)).toISOString();
const visit = (id: string, from: number, to: number, urgency: 'must' | 'may' = 'may'): SheetVisit => ({
  visit: id, basin: id, urgency, what: '', reason: '', fromBerth: 'a', toBerth: 'a', leavesBerthAt: at(from), backAt: at(to), weightKg: 0,
  stops: [{ stop: 0, kind: 'filling', station: 'fill', arriveAt: at(from), startAt: at(from), endAt: at(to) }],
  trips: [{ vehicle: 'cart', from: 'a', to: 'fill', emptyFrom: 'h', emptyDepartAt: at(from - 3), pickAt: at(from - 2), departAt: at(from - 1), arriveAt: at(from) }],
});
const sheet = {
  visits: [visit('A', 5, 15, 'must'), visit('B', 10, 20), visit('C', 15, 25), visit('D', 25, 120)],
  timeline: { startAt: at(0), finishAt: at(120), boundAt: at(90), gapPct: 0, binds: '', bounds: {}, stations: [{ id: 'fill', title: 'Filling', kind: 'filling', places: 2, busyShare: 0.5 }], vehicles: [{ id: 'cart', title: 'Cart', busyShare: 0.25, emptyM: 0, loadedM: 0 }] },
} as unknown as PlanSheet;

describe('the timeline of a day', () => {
  const layout = layTimeline(sheet, { 'B/0': { result: 'done', at: at(20), by: 'p' }, 'C/0': { result: 'failed', at: at(20), by: 'p' } });
  const stops = layout.bars.filter((bar) => bar.lane === 'fill');

  it('gives basins that are at a station at the same time a track each, and uses a track again', () => {
    expect(stops.map((bar) => [bar.visit, bar.track, bar.startS, bar.endS])).toEqual([['A', 0, 300, 900], ['B', 1, 600, 1200], ['C', 0, 900, 1500], ['D', 0, 1500, 7200]]);
    expect(layout.lanes.map((lane) => [lane.id, lane.tracks, lane.note])).toEqual([['fill', 2, '50 % busy'], ['cart', 1, '25 % busy']]);
  });
  it('says what became of each stop', () => expect(stops.map((bar) => bar.standing)).toEqual(['must', 'done', 'failed', 'planned']));
  it('draws loaded and empty travel of vehicles', () => {
    expect(layout.bars.find((bar) => bar.lane === 'cart')).toMatchObject({ startS: 180, endS: 300 });
    expect(layout.traces[0]).toEqual({ lane: 'cart', startS: 120, endS: 180 });
  });
  it('knows bound and finish in seconds from its start', () => expect([layout.boundS, layout.finishS, layout.lengthS]).toEqual([5400, 7200, 7200]));

  it.each([['across', drawAcross], ['down', drawDown]] as const)('draws every bar inside the sheet and no two of a track on each other (%s)', (_name, draw) => {
    const frame = draw(layout);
    for (const bar of frame.bars) {
      expect(bar.box.x).toBeGreaterThanOrEqual(0);
      expect(bar.box.x + bar.box.width).toBeLessThanOrEqual(frame.width + 1.5);
      expect(bar.box.y + bar.box.height).toBeLessThanOrEqual(frame.height + 1.5);
    }
    const boxes = frame.bars.filter((bar) => bar.lane === 'fill').map((bar) => bar.box);
    for (const [index, a] of boxes.entries()) for (const b of boxes.slice(index + 1)) expect(overlap(a, b)).toBe(false);
  });
  it('cuts an hour out of the day: what lies outside is gone, what reaches over an end is cut', () => {
    const hour = sliceTimeline(layout, 600, 4200);
    expect(hour.bars.filter((bar) => bar.lane === 'fill').map((bar) => [bar.visit, bar.startS, bar.endS])).toEqual([['A', 0, 300], ['B', 0, 600], ['C', 300, 900], ['D', 900, 3600]]);
    expect([hour.lengthS, hour.boundS, hour.finishS]).toEqual([3600, 4800, 6600]);
    expect(sliceTimeline(layout, 900, 1000).bars.some((bar) => bar.visit === 'A')).toBe(false);
  });
  it('writes the number along a wide bar, up a narrow one, and not at all where it cannot be read', () => {
    const frame = drawAcross(layout);
    expect(frame.bars.find((bar) => bar.visit === 'D' && bar.lane === 'fill')?.label).toEqual({ size: 11, upright: true });
    expect(drawAcross({ ...layout, lengthS: 720_000 }).bars.find((bar) => bar.visit === 'A')?.label).toBeUndefined();
    const narrow = { ...layout, bars: [{ ...stops[0]!, basin: 'B017', startS: 0, endS: 60 }] };
    expect(drawAcross(narrow).bars[0]?.label).toMatchObject({ upright: false });
  });
});

interface Box { readonly x: number; readonly y: number; readonly width: number; readonly height: number }
const overlap = (a: Box, b: Box) => a.x + a.width > b.x + 0.01 && b.x + b.width > a.x + 0.01 && a.y + a.height > b.y + 0.01 && b.y + b.height > a.y + 0.01;
