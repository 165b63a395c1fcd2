/** exp(-x) for the hot loops of growth models: a table and a short series, some four times as fast as the general function. */

const STEPS = 64;
const STEP = Math.LN2 / STEPS;
/** exp(-x) below this is 0 here: 2^-63. */
const FARTHEST = 63 * Math.LN2;

/** 2^(-j/64) for j = 0..63, then whole powers 2^-k for k = 0..63. */
const PARTS = Float64Array.from({ length: STEPS }, (_, j) => 2 ** (-j / STEPS));
const POWERS = Float64Array.from({ length: 64 }, (_, k) => 2 ** -k);

/** exp(-x) for x >= 0, to 1e-13 of itself; 0 where it is below 1.1e-19. x is finite and not negative: not checked. */
export function fallingExp(x: number): number {
  if (x >= FARTHEST) return 0;
  const n = (x / STEP) | 0;
  const r = n * STEP - x;
  const series = 1 + r * (1 + r * (0.5 + r * (1 / 6 + r * (1 / 24 + r * (1 / 120)))));
  return POWERS[n >> 6]! * PARTS[n & 63]! * series;
}
