/**
 * Halves an interval, at whose low end `isBelow` is true and at whose high end it is false, until no number lies between its ends; returns
 * the high end. It always ends, after some 60 rounds. `isBelow` must be monotone.
 */
export function bisect(low: number, high: number, isBelow: (value: number) => boolean): number {
  for (;;) {
    const middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) return high;
    if (isBelow(middle)) low = middle; else high = middle;
  }
}
