/** Round numbers from 0 up to a largest value, about as many as asked for. */
export function roundTicks(largest: number, about: number): number[] {
  const rough = largest / about;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 2.5, 5, 10].map((is) => is * power).find((is) => is >= rough) ?? 10 * power;
  return Array.from({ length: Math.floor(largest / step) + 1 }, (_, number) => number * step);
}
