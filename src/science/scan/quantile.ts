/** The share-quantile of numbers, linear between order statistics; sorts the typed array in place. NaN for none. */
export function quantileOf(values: Float64Array, share: number): number {
  if (values.length === 0) return NaN;
  values.sort();
  const at = share * (values.length - 1), below = Math.floor(at), low = values[below]!;
  return low + (at - below) * ((values[below + 1] ?? low) - low);
}
