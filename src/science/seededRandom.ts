/** A reproducible stream of random numbers: the same seed gives the same numbers on every machine. */
export interface RandomStream {
  /** Uniform in [0, 1). */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
  /** Whole number from 0 to below n. */
  below(n: number): number;
}

/**
 * Starts a stream from a 32-bit seed.
 * Generator: 32-bit counter with a mixing function (mulberry32, T. Ettinger 2017, public domain); period 2^32, enough for
 * ensembles and invented greenhouses, not for cryptography. Normals by Box & Muller 1958.
 */
export function startRandom(seed: number): RandomStream {
  let state = seed >>> 0;
  let spare: number | undefined;
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const normal = () => {
    if (spare !== undefined) { const kept = spare; spare = undefined; return kept; }
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  return { uniform, normal, below: (n) => Math.floor(uniform() * n) };
}

/** A seed for a named part of a whole, so that one more part does not change the others' numbers (FNV-1a, 32 bit). */
export function seedFor(seed: number, name: string): number {
  let hash = (0x811c9dc5 ^ seed) >>> 0;
  for (let i = 0; i < name.length; i += 1) hash = Math.imul(hash ^ name.charCodeAt(i), 0x01000193) >>> 0;
  return hash;
}
