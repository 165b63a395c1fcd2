/** Indexes of the keys, grouped by key; a key of -1 belongs to no group. */
export function groupBy(keys: readonly number[], groups: number): [Int32Array<ArrayBuffer>, Int32Array<ArrayBuffer>] {
  const start = new Int32Array(groups + 1);
  for (const key of keys) if (key >= 0) start[key + 1]! += 1;
  for (let g = 0; g < groups; g += 1) start[g + 1]! += start[g]!;
  const at = start.slice(), members = new Int32Array(start[groups]!);
  keys.forEach((key, i) => { if (key >= 0) members[at[key]!++] = i; });
  return [start, members];
}
