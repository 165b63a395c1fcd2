/** A stream of pseudo-random numbers that is the same on every machine for the same seed. */

export interface SeededRandom {
  /** Uniform in [0, 1). */
  next(): number;
  /** Whole number, uniform in [0, limit); limit at least 1. */
  below(limit: number): number;
}

/**
 * Small fast counter generator with three 32-bit words of state (sfc32, Doty-Humphrey, PractRand, public domain;
 * from memory, unverified). Not for secrets.
 */
export function seedRandom(seed: number): SeededRandom {
  let a = 0x9e3779b9 | 0;
  let b = seed | 0;
  let c = Math.floor(seed / 0x1_0000_0000) | 0;
  let counter = 1;
  const word = (): number => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum | 0;
    return sum >>> 0;
  };
  for (let warmUp = 0; warmUp < 16; warmUp++) word();
  return {
    next: () => word() / 0x1_0000_0000,
    below: (limit) => Math.floor((word() / 0x1_0000_0000) * limit),
  };
}
