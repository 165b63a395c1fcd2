/** Draws a shuffled cloud so that turning it never waits: a share of the points while it moves, the rest added stretch by stretch when it rests. */
export interface Pace {
  /** Something changed: draw again from the start. */
  readonly moved: () => void;
  /** More points came: draw them too. */
  readonly more: () => void;
  readonly close: () => void;
}

export interface Drawing {
  /** Points that there are; 0 also where a surface is drawn instead. */
  readonly all: () => number;
  /** Draws points; `fresh`: onto an empty canvas instead of over what stands there. */
  readonly draw: (from: number, count: number, fresh: boolean) => void;
}

/** Frames between these make the share neither smaller nor larger, ms. */
const [FAST_MS, SLOW_MS] = [35, 90];
const [LEAST, MOST] = [30_000, 1_500_000];
const REST_MS = 160;

export function pacePoints({ all, draw }: Drawing, next: (step: (now: number) => void) => number = requestAnimationFrame, cancel: (frame: number) => void = cancelAnimationFrame): Pace {
  let share = 120_000, drawn = 0, frame: number | undefined, changedAt = 0, changed = false, drewAt: number | undefined;
  const request = (): void => { frame ??= next(step); };

  function step(now: number): void {
    frame = undefined;
    if (drewAt !== undefined) share = fitted(share, now - drewAt);
    drewAt = undefined;
    if (changed) {
      changed = false;
      changedAt = now;
      drawn = Math.min(share, all());
      draw(0, drawn, true);
      drewAt = now;
    } else if (now - changedAt > REST_MS && drawn < all()) {
      const count = Math.min(share, all() - drawn);
      draw(drawn, count, false);
      drawn += count;
      drewAt = now;
    }
    if (changed || drawn < all()) request();
  }

  return {
    moved() { changed = true; request(); },
    more: request,
    close() { if (frame !== undefined) cancel(frame); frame = undefined; },
  };
}

const fitted = (share: number, tookMs: number): number => {
  if (tookMs > SLOW_MS) return Math.max(LEAST, Math.round(share * 0.7));
  return tookMs < FAST_MS ? Math.min(MOST, Math.round(share * 1.3)) : share;
};
