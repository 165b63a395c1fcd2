import { startRandom } from '../../seededRandom.ts';

/** A thinned cloud in the basin's frame: places as 16-bit shares of a box, the label of the cell, and colours; shuffled. */
export interface KeptPoints {
  readonly count: number;
  readonly lowMm: readonly [number, number, number];
  readonly highMm: readonly [number, number, number];
  /** x, y, z, label for each point. */
  readonly places: Uint16Array;
  /** Red, green, blue for each point. */
  readonly colours: Uint8Array;
}

export interface PointKeeper {
  /** The next point in file order. */
  readonly add: (label: number, xMm: number, yMm: number, zMm: number, red: number, green: number, blue: number) => void;
  /** What was kept, in an order that is even from beginning to end. */
  readonly finish: () => KeptPoints;
}

/** Keeps an even sample of at most `most` of `expected` points that lie within a box. The same points and seed give the same sample. */
export function keepPoints(box: { readonly lowMm: KeptPoints['lowMm']; readonly highMm: KeptPoints['highMm'] }, expected: number, most: number, seed: number): PointKeeper {
  const { lowMm, highMm } = box;
  const random = startRandom(seed), share = shareOf(most, expected), room = Math.min(most, expected);
  const places = new Uint16Array(room * 4), colours = new Uint8Array(room * 3);
  let count = 0;
  const scaled = (value: number, axis: 0 | 1 | 2) => Math.max(0, Math.min(65_535, Math.round((65_535 * (value - lowMm[axis])) / (highMm[axis] - lowMm[axis]))));
  return {
    add(label, xMm, yMm, zMm, red, green, blue) {
      if (count >= room || (share < 1 && random.uniform() >= share)) return;
      places.set([scaled(xMm, 0), scaled(yMm, 1), scaled(zMm, 2), label], count * 4);
      colours.set([red, green, blue], count * 3);
      count += 1;
    },
    finish: () => ({ count, lowMm, highMm, ...shuffled(places.subarray(0, count * 4), colours.subarray(0, count * 3), seed) }),
  };
}

/** Chance with which each point is kept: four standard deviations below full, so that the last points of the file have it too. */
const shareOf = (most: number, expected: number): number => (most >= expected ? 1 : (most / expected) * (1 - 4 / Math.sqrt(Math.max(16, most))));

/** R.A. Fisher & F. Yates 1938 in the form of R. Durstenfeld 1964 (CACM 7:420). */
function shuffled(places: Uint16Array, colours: Uint8Array, seed: number): { places: Uint16Array; colours: Uint8Array } {
  const count = colours.length / 3, random = startRandom(seed + 1), order = Uint32Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; i -= 1) {
    const j = Math.floor(random.uniform() * (i + 1)), kept = order[i]!;
    order[i] = order[j]!;
    order[j] = kept;
  }
  const to = { places: new Uint16Array(count * 4), colours: new Uint8Array(count * 3) };
  for (let i = 0; i < count; i += 1) {
    const from = order[i]!;
    for (let k = 0; k < 4; k += 1) to.places[i * 4 + k] = places[from * 4 + k]!;
    for (let k = 0; k < 3; k += 1) to.colours[i * 3 + k] = colours[from * 3 + k]!;
  }
  return to;
}
