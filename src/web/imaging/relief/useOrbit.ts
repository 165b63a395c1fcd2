import { useCallback, useEffect, useRef, useState, type PointerEvent, type RefObject } from 'react';
import { moved, turned, type Orbit } from './orbit.ts';

interface Held { readonly x: number; readonly y: number }
interface Hands { readonly onPointerDown: (event: PointerEvent) => void; readonly onPointerMove: (event: PointerEvent) => void; readonly onPointerUp: (event: PointerEvent) => void; readonly onPointerCancel: (event: PointerEvent) => void }

const [TURN_DEG_PER_PX, TILT_DEG_PER_PX, WHEEL] = [0.35, 0.25, 0.0012];
/** A press that moves less than this is a click, px. */
const STILL_PX = 5;

/** Turns and moves the eye by dragging, pinching and the wheel; `clicked` is told of presses that did not move. */
export function useOrbit(canvas: RefObject<HTMLCanvasElement | null>, start: Orbit, clicked: (x: number, y: number) => void): readonly [Orbit, (change: (orbit: Orbit) => Orbit) => void, Hands] {
  const [orbit, setOrbit] = useState(start);
  const held = useRef(new Map<number, Held>());
  const travelled = useRef(0);
  const change = useCallback((by: (orbit: Orbit) => Orbit) => setOrbit(by), []);
  useEffect(() => {
    const on = canvas.current;
    const turnWheel = (event: WheelEvent): void => { event.preventDefault(); setOrbit((is) => moved(is, Math.exp(event.deltaY * WHEEL))); };
    on?.addEventListener('wheel', turnWheel, { passive: false });
    return () => on?.removeEventListener('wheel', turnWheel);
  }, [canvas]);
  const spread = (): number => { const [a, b] = [...held.current.values()]; return a === undefined || b === undefined ? 0 : Math.hypot(a.x - b.x, a.y - b.y); };
  const letGo = (event: PointerEvent): void => { held.current.delete(event.pointerId); };
  const hands: Hands = {
    onPointerDown(event) {
      event.currentTarget.setPointerCapture(event.pointerId);
      if (held.current.size === 0) travelled.current = 0;
      held.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
    },
    onPointerMove(event) {
      const before = held.current.get(event.pointerId);
      if (before === undefined) return;
      const [dx, dy, wide] = [event.clientX - before.x, event.clientY - before.y, spread()];
      held.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
      travelled.current += Math.hypot(dx, dy);
      if (held.current.size === 2 && wide > 0) setOrbit((is) => moved(is, wide / Math.max(1, spread())));
      else if (held.current.size === 1 && travelled.current > STILL_PX) setOrbit((is) => turned(is, -dx * TURN_DEG_PER_PX, dy * TILT_DEG_PER_PX));
    },
    onPointerUp(event) {
      const single = held.current.size === 1;
      letGo(event);
      if (single && travelled.current <= STILL_PX) clicked(event.clientX, event.clientY);
    },
    onPointerCancel: letGo,
  };
  return [orbit, change, hands];
}
