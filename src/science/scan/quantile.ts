/** The share-quantile of numbers, linear between order statistics; sorts the typed array in place. NaN for none. */
export function quantileOf(values: Float64Array | Float32Array, share: number): number {
  values.sort();
  return quantileOfSorted(values, share);
}

export function quantileOfSorted(values: Float64Array | Float32Array, share: number): number {
  if (values.length === 0) return NaN;
  const at = share * (values.length - 1);
  const below = Math.floor(at);
  const low = values[below]!;
  return low + (at - below) * ((values[below + 1] ?? low) - low);
}
