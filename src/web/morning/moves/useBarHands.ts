import { useLayoutEffect, useMemo, useRef, type KeyboardEvent, type MouseEvent, type PointerEvent } from 'react';
import type { FramedBar, Point, TimelineFrame } from '../timelineFrame.ts';
import { dragged, hasMoved, moveByKey, stationsLike, type StopMove } from './stopMove.ts';
import type { StopMoves } from './useStopMoves.ts';

/** What a bar listens to while stops may be moved: mouse or pen, and keys. A finger scrolls; on a phone a form moves stops. */
export interface BarHands {
  readonly onPointerDown: (bar: FramedBar, event: PointerEvent<Element>) => void;
  readonly onPointerMove: (event: PointerEvent<Element>) => void;
  readonly onPointerUp: () => void;
  readonly onPointerCancel: () => void;
  readonly onClick: (event: MouseEvent) => void;
  readonly onKeyDown: (bar: FramedBar, event: KeyboardEvent<Element>) => void;
}

interface Grip { readonly from: Point; readonly move: StopMove; latest: StopMove | undefined }

const LEAST_DRAG_PX = 4;

/** The hands stay the same object while things move, so that the bars are not drawn again. `fromS`: start of the part of the day that is drawn. */
export function useBarHands(moves: StopMoves | undefined, frame: TimelineFrame, fromS: number): BarHands | undefined {
  const now = useRef({ moves, frame, fromS });
  useLayoutEffect(() => { now.current = { moves, frame, fromS }; });
  const grip = useRef<Grip | undefined>(undefined);
  const wasDragged = useRef(false);
  const may = moves !== undefined;
  return useMemo(() => (!may ? undefined : {
    onPointerDown(bar, event) {
      wasDragged.current = false;
      if (event.button !== 0 || event.pointerType === 'touch') return;
      event.currentTarget.setPointerCapture(event.pointerId);
      grip.current = { from: pointOf(event), move: moveOf(bar, now.current.fromS), latest: undefined };
    },
    onPointerMove(event) {
      const { moves: ask, frame: drawn } = now.current;
      if (grip.current === undefined || ask === undefined) return;
      const { from, move } = grip.current;
      const to = pointOf(event);
      if (grip.current.latest === undefined && Math.hypot(to.x - from.x, to.y - from.y) < LEAST_DRAG_PX) return;
      const lane = drawn.laneAt(to);
      const station = lane !== undefined && stationsLike(ask.plan.sheet, move.planned.station).includes(lane) ? lane : grip.current.latest?.station ?? move.station;
      grip.current.latest = dragged(move, drawn.secondsBetween(from, to), station);
      wasDragged.current = true;
      ask.change(grip.current.latest);
    },
    onPointerUp() {
      const latest = grip.current?.latest;
      grip.current = undefined;
      if (latest === undefined) return;
      if (hasMoved(latest)) now.current.moves?.tryIt(latest); else now.current.moves?.cancel();
    },
    onPointerCancel() { grip.current = undefined; now.current.moves?.cancel(); },
    onClick(event) { if (wasDragged.current) event.preventDefault(); },
    onKeyDown(bar, event) {
      const { moves: ask, frame: drawn } = now.current;
      if (ask === undefined) return;
      const own = ask.move?.visit === bar.visit && ask.move.stop === bar.stop ? ask.move : undefined;
      if (event.key === 'Escape') { ask.cancel(); return; }
      if (event.key === 'PageDown' || event.key === 'PageUp') { event.preventDefault(); focusNext(bar, event, drawn); return; }
      if (event.key === 'Enter' && own !== undefined && hasMoved(own)) { event.preventDefault(); ask.tryIt(own); return; }
      const next = moveByKey(own ?? moveOf(bar, now.current.fromS), event.key, event.shiftKey, drawn.runs, stationsLike(ask.plan.sheet, bar.lane));
      if (next === undefined) return;
      event.preventDefault();
      ask.change(next);
    },
  }), [may]);
}

const moveOf = ({ visit, basin, stop = 0, lane, startS, endS, track }: FramedBar, fromS: number): StopMove =>
  ({ visit, basin, stop, station: lane, startS: startS + fromS, lengthS: endS - startS, planned: { station: lane, startS: startS + fromS, track } });

/** The pointer in the coordinates of the drawing. */
function pointOf(event: PointerEvent<Element>): Point {
  const matrix = event.currentTarget.closest('svg')?.getScreenCTM();
  const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix?.inverse());
  return { x, y };
}

export const isMovable = ({ stop, standing }: FramedBar): boolean => stop !== undefined && (standing === 'must' || standing === 'planned');

/** Page keys go from stop to stop in the order of time. */
function focusNext(bar: FramedBar, event: KeyboardEvent<Element>, { bars }: TimelineFrame): void {
  const inOrder = bars.filter(isMovable).sort((a, b) => a.startS - b.startS);
  const next = inOrder[inOrder.findIndex(({ key }) => key === bar.key) + (event.key === 'PageDown' ? 1 : -1)];
  if (next !== undefined) event.currentTarget.closest('svg')?.querySelector<SVGAElement>(`[data-bar="${CSS.escape(next.key)}"]`)?.focus();
}
