import type { TimelineBar, TimelineCount, TimelineLane, TimelineLayout } from './timelineLayout.ts';

interface Box { readonly x: number; readonly y: number; readonly width: number; readonly height: number }
export interface Point { readonly x: number; readonly y: number }
interface Ends { readonly x1: number; readonly y1: number; readonly x2: number; readonly y2: number }
interface Place { readonly x: number; readonly y: number; readonly anchor: 'start' | 'middle' | 'end'; readonly turnDeg?: number }

export interface FramedBar extends TimelineBar { readonly key: string; readonly box: Box; readonly label?: { readonly size: number; readonly upright: boolean } }

/** A timeline with every coordinate worked out, in CSS pixels. */
export interface TimelineFrame {
  readonly width: number;
  readonly height: number;
  readonly lanes: readonly { readonly id: string; readonly kind: TimelineLane['kind']; readonly words: string; readonly noteWords: string; readonly box: Box; readonly title: Place; readonly note: Place }[];
  readonly bars: readonly FramedBar[];
  readonly traces: readonly { readonly key: string; readonly ends: Ends }[];
  readonly counts: readonly { readonly key: string; readonly box: Box; readonly people: number; readonly fits: boolean }[];
  /** Where a bar would be drawn. */
  readonly boxOf: (lane: string, track: number, startS: number, endS: number) => Box;
  /** Seconds that lie between two points, and the lane of a point. */
  readonly secondsBetween: (from: Point, to: Point) => number;
  readonly laneAt: (point: Point) => string | undefined;
  /** The key of the arrows along time, and of those across it. */
  readonly runs: 'across' | 'down';
  readonly lineAt: (s: number) => { readonly ends: Ends; readonly label: Place };
  readonly momentAt: (s: number, row: number) => { readonly ends: Ends; readonly label: Place };
}

const SMALLEST_LABEL_PX = 7;
const LABEL_PX = 11;
/** Width of a digit or capital letter in ems. */
const DIGIT_WIDTH = 0.58;
const BOLD_WIDTH = 0.68;

/** Measures of a timeline that runs across, CSS pixels of its own drawing. */
export interface AcrossSizes { readonly width: number; readonly gutter: number; readonly top: number; readonly track: number; readonly gap: number; readonly labelPx: number; readonly smallestPx: number }

/** The whole width of a desk's screen; half of it, where two stand side by side; a wall screen that is read from 3 m. */
export const ACROSS = {
  desk: { width: 1340, gutter: 128, top: 66, track: 34, gap: 8, labelPx: LABEL_PX, smallestPx: SMALLEST_LABEL_PX },
  half: { width: 660, gutter: 128, top: 66, track: 34, gap: 8, labelPx: LABEL_PX, smallestPx: SMALLEST_LABEL_PX },
  wall: { width: 1600, gutter: 230, top: 80, track: 52, gap: 8, labelPx: 27, smallestPx: 17 },
} as const satisfies Record<string, AcrossSizes>;

/** Time from left to right, one row a track. */
export function drawAcross(layout: TimelineLayout, sizes: AcrossSizes = ACROSS.desk): TimelineFrame {
  const { width, gutter, top, track, gap } = sizes;
  const x = (s: number): number => gutter + (s / layout.lengthS) * (width - gutter - 4);
  const starts = stack(layout.lanes, track, gap, top);
  const bottom = starts.end;
  const laneTop = (lane: string, at: number): number => (starts.of.get(lane) ?? top) + at * track;
  const boxOf = (lane: string, at: number, startS: number, endS: number): Box => ({ x: x(startS), y: laneTop(lane, at) + 2, width: Math.max(1.5, x(endS) - x(startS)), height: track - 4 });
  return {
    width, height: bottom, boxOf, runs: 'across',
    secondsBetween: (from, to) => ((to.x - from.x) * layout.lengthS) / (width - gutter - 4),
    laneAt: (point) => layout.lanes.find((lane) => point.y >= laneTop(lane.id, 0) && point.y < laneTop(lane.id, lane.tracks))?.id,
    counts: layout.counts.map((count) => countOf(count, boxOf(count.lane, 0, count.startS, count.endS), 11)),
    lanes: layout.lanes.map((lane) => {
      const y = laneTop(lane.id, 0);
      return { id: lane.id, kind: lane.kind, words: lane.title, noteWords: lane.note, box: { x: gutter, y, width: width - gutter, height: lane.tracks * track }, title: { x: 0, y: y + 0.44 * track, anchor: 'start' }, note: { x: 0, y: y + 0.86 * track, anchor: 'start' } };
    }),
    bars: layout.bars.map((bar) => framed(bar, boxOf(bar.lane, bar.track, bar.startS, bar.endS), sizes)),
    traces: layout.traces.map((trace, number) => { const y = laneTop(trace.lane, 0) + track / 2; return { key: String(number), ends: { x1: x(trace.startS), y1: y, x2: x(trace.endS), y2: y } }; }),
    lineAt: (s) => ({ ends: { x1: x(s), y1: top - 6, x2: x(s), y2: bottom }, label: x(s) > width - 24 ? { x: width, y: top - 10, anchor: 'end' } : { x: x(s), y: top - 10, anchor: 'middle' } }),
    momentAt: (s, row) => ({ ends: { x1: x(s), y1: 4 + row * 15, x2: x(s), y2: bottom }, label: x(s) > width * 0.6 ? { x: x(s) - 6, y: 13 + row * 15, anchor: 'end' } : { x: x(s) + 6, y: 13 + row * 15, anchor: 'start' } }),
  };
}

const DOWN = { width: 358, gutter: 40, top: 96, perMinute: 3.1, closePerMinute: 15, gap: 4 };

/** Time from top to bottom, one column a track: for a phone. */
export function drawDown(layout: TimelineLayout): TimelineFrame {
  const { width, gutter, top, gap } = DOWN;
  const perMinute = layout.lengthS > 3600 ? DOWN.perMinute : DOWN.closePerMinute;
  const tracks = layout.lanes.reduce((sum, lane) => sum + lane.tracks, 0);
  const track = (width - gutter - gap * (layout.lanes.length - 1)) / tracks;
  const y = (s: number): number => top + (s / 60) * perMinute;
  const starts = stack(layout.lanes, track, gap, gutter);
  const bottom = y(layout.lengthS) + 24;
  const laneLeft = (lane: string, at: number): number => (starts.of.get(lane) ?? gutter) + at * track;
  const boxOf = (lane: string, at: number, startS: number, endS: number): Box => ({ x: laneLeft(lane, at) + 1, y: y(startS), width: track - 2, height: Math.max(1.5, y(endS) - y(startS)) });
  return {
    width, height: bottom, boxOf, runs: 'down',
    secondsBetween: (from, to) => ((to.y - from.y) * 60) / perMinute,
    laneAt: (point) => layout.lanes.find((lane) => point.x >= laneLeft(lane.id, 0) && point.x < laneLeft(lane.id, lane.tracks))?.id,
    counts: layout.counts.map((count) => countOf(count, boxOf(count.lane, 0, count.startS, count.endS), 9)),
    lanes: layout.lanes.map((lane) => {
      const x = laneLeft(lane.id, 0);
      const middle = x + (lane.tracks * track) / 2;
      return { id: lane.id, kind: lane.kind, words: lane.title, noteWords: '', box: { x, y: top, width: lane.tracks * track, height: bottom - top }, title: { x: middle + 4, y: top - 8, anchor: 'start', turnDeg: -90 }, note: { x: middle, y: top - 8, anchor: 'start' } };
    }),
    bars: layout.bars.map((bar) => framed(bar, boxOf(bar.lane, bar.track, bar.startS, bar.endS))),
    traces: layout.traces.map((trace, number) => { const x = laneLeft(trace.lane, 0) + track / 2; return { key: String(number), ends: { x1: x, y1: y(trace.startS), x2: x, y2: y(trace.endS) } }; }),
    lineAt: (s) => ({ ends: { x1: gutter - 4, y1: y(s), x2: width, y2: y(s) }, label: { x: 0, y: y(s) + 4, anchor: 'start' } }),
    momentAt: (s) => ({ ends: { x1: 0, y1: y(s), x2: width, y2: y(s) }, label: { x: width - 2, y: y(s) - 4, anchor: 'end' } }),
  };
}

function stack(lanes: readonly TimelineLane[], track: number, gap: number, from: number): { readonly of: ReadonlyMap<string, number>; readonly end: number } {
  const of = new Map<string, number>();
  let at = from;
  for (const lane of lanes) {
    of.set(lane.id, at);
    at += lane.tracks * track + gap;
  }
  return { of, end: at };
}

const countOf = ({ startS, people }: TimelineCount, box: Box, roomPx: number): TimelineFrame['counts'][number] => ({ key: String(startS), box, people, fits: box.width >= roomPx && box.height >= roomPx });

function framed(bar: TimelineBar, box: Box, { labelPx, smallestPx }: Pick<AcrossSizes, 'labelPx' | 'smallestPx'> = ACROSS.desk): FramedBar {
  const key = `${bar.lane}-${bar.visit}-${bar.startS}`;
  const widthPerPx = bar.basin.length * (bar.standing === 'must' ? BOLD_WIDTH : DIGIT_WIDTH);
  const upright = Math.min(labelPx, box.height, box.width / widthPerPx);
  const turned = Math.min(labelPx, box.width + 1, box.height / widthPerPx);
  const size = Math.max(upright, turned);
  return size < smallestPx ? { ...bar, key, box } : { ...bar, key, box, label: { size, upright: upright >= turned } };
}
