/**
 * A pool of solution from which a crop absorbs water, and what it leaves behind. Water absorbed and bled is made up, so that
 * the volume stays: V dC/dt = W (c_in - u - s C) + B (c_in - C), B = b W.
 * Savvas et al. 2005, Eur. J. Hort. Sci. (abstract): the plateau is where the uptake ratio equals the make-up's concentration.
 */
export interface SaltPool {
  readonly volumeL: number;
  readonly startMmolPerL: number;
  /** Water that the crop absorbs, W. */
  readonly absorbedLPerDay: number;
  /** Of the water that makes up, c_in. */
  readonly makeUpMmolPerL: number;
  /** Taken up with each litre absorbed whatever the concentration, u. */
  readonly uptakeMmolPerL: number;
  /** Taken up with each litre absorbed as a share of the concentration, s. */
  readonly uptakeShare: number;
  /** Litres discharged for each litre absorbed, b. */
  readonly bleedShare: number;
}

/** Concentration after so many days, mmol/L: the exact solution. Volume and absorption above zero. */
export function concentrationAfter(pool: SaltPool, days: number): number {
  const turns = (days * pool.absorbedLPerDay) / pool.volumeL;
  const loss = pool.uptakeShare + pool.bleedShare;
  const gain = gainPerTurn(pool);
  if (loss === 0) return pool.startMmolPerL + gain * turns;
  return gain / loss + (pool.startMmolPerL - gain / loss) * Math.exp(-loss * turns);
}

/** Where the concentration levels off; absent where it rises (or falls) without end. */
export function plateauOf(pool: SaltPool): number | undefined {
  const loss = pool.uptakeShare + pool.bleedShare;
  return loss > 0 ? gainPerTurn(pool) / loss : undefined;
}

/** Days until a concentration above the start is reached; absent where it never is. */
export function daysToReach(pool: SaltPool, limitMmolPerL: number): number | undefined {
  if (limitMmolPerL <= pool.startMmolPerL) return 0;
  const daysPerTurn = pool.volumeL / pool.absorbedLPerDay;
  const plateau = plateauOf(pool);
  const gain = gainPerTurn(pool);
  if (plateau === undefined) return gain > 0 ? ((limitMmolPerL - pool.startMmolPerL) / gain) * daysPerTurn : undefined;
  if (plateau <= limitMmolPerL) return undefined;
  return (daysPerTurn / (pool.uptakeShare + pool.bleedShare)) * Math.log((plateau - pool.startMmolPerL) / (plateau - limitMmolPerL));
}

/** Litres to discharge for each litre absorbed, so that a limit holds: (c_in - u - s C) / (C - c_in), not below zero; absent where the make-up itself is above the limit. */
export function bleedToHold({ makeUpMmolPerL, uptakeMmolPerL, uptakeShare }: Pick<SaltPool, 'makeUpMmolPerL' | 'uptakeMmolPerL' | 'uptakeShare'>, limitMmolPerL: number): number | undefined {
  if (limitMmolPerL <= makeUpMmolPerL) return undefined;
  return Math.max(0, makeUpMmolPerL - uptakeMmolPerL - uptakeShare * limitMmolPerL) / (limitMmolPerL - makeUpMmolPerL);
}

const gainPerTurn = ({ makeUpMmolPerL, uptakeMmolPerL, bleedShare }: SaltPool): number => (1 + bleedShare) * makeUpMmolPerL - uptakeMmolPerL;
