const LONGEST_LITERALS = 32;
const LONGEST_MATCH = 264;
const FARTHEST = 8192;

/** Packs bytes as LZF (M. Lehmann, LibLZF): a plain greedy search with one remembered place for each three bytes. */
export function packLzf(bytes: Uint8Array): Uint8Array {
  const out: number[] = [];
  const places = new Map<number, number>();
  let literalsFrom = 0;
  let at = 0;
  const giveLiterals = (end: number) => {
    for (let from = literalsFrom; from < end; from += LONGEST_LITERALS) {
      const run = bytes.subarray(from, Math.min(end, from + LONGEST_LITERALS));
      out.push(run.length - 1, ...run);
    }
  };
  while (at < bytes.length) {
    const key = at + 2 < bytes.length ? bytes[at]! << 16 | bytes[at + 1]! << 8 | bytes[at + 2]! : -1;
    const place = places.get(key);
    if (key >= 0) places.set(key, at);
    if (place === undefined || at - place > FARTHEST) { at += 1; continue; }
    let length = 3;
    while (length < LONGEST_MATCH && at + length < bytes.length && bytes[place + length] === bytes[at + length]) length += 1;
    giveLiterals(at);
    const distance = at - place - 1;
    if (length - 2 < 7) out.push((length - 2) << 5 | distance >> 8, distance & 255);
    else out.push(7 << 5 | distance >> 8, length - 9, distance & 255);
    at += length;
    literalsFrom = at;
  }
  giveLiterals(bytes.length);
  return Uint8Array.from(out);
}
