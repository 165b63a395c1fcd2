import type { WaterFlow } from '../../greenhouse/waterBook.ts';
import type { Composition } from '../../science/chemistry/composition.ts';

/** What is in a return tank now, how it is known, and what does not fit. */
export interface TankState {
  readonly volumeL: number;
  /** One standard deviation; absent where the volume was only described. */
  readonly volumeSdL?: number;
  /** Absent where it was never analysed. */
  readonly mmolPerL?: Composition;
  /** One standard deviation of the concentrations, relative. */
  readonly strengthSdShare?: number;
  /** UTC instant of the latest analysis. */
  readonly since?: string;
  /** Put in and taken out since then, L. */
  readonly inL: number;
  readonly outL: number;
  readonly basis: string;
  readonly flags: readonly TankFlag[];
  /** What readings and analyses corrected, and what was first seen without a record, as entries of the water book. */
  readonly corrections: readonly WaterFlow[];
}

/** A reading or analysis that what was booked does not explain. */
export interface TankFlag {
  readonly at: string;
  readonly quantity: 'volume' | 'conductivity' | 'analysis';
  readonly sentence: string;
  readonly likelyCause: string;
}
