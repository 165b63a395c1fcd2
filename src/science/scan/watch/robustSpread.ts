/** Middle and spread of numbers of which some may be wild: median and 1.4826 times the median distance from it (F.R. Hampel 1974, JASA 69:383-393). */
export function robustSpread(values: readonly number[]): { readonly middle: number; readonly sd: number } {
  const middle = median(values);
  return { middle, sd: 1.4826 * median(values.map((value) => Math.abs(value - middle))) };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
