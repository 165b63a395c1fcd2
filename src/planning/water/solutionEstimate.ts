import type { Composition } from '../../science/chemistry/composition.ts';

/** What is in a basin now, how it is known, and what does not fit. */
export type SolutionEstimate =
  | { readonly known: true; readonly solution: KnownSolution }
  | { readonly known: false; readonly reason: string; readonly flags: readonly SolutionFlag[] };

export interface KnownSolution {
  readonly volumeL: number;
  /** One standard deviation. */
  readonly volumeSdL: number;
  /** Transpiration of this basin relative to the model, learned from its levels; 1 where there are none. */
  readonly transpirationFactor: number;
  /** Uptake of this crop relative to its card's table, learned from conductivities. */
  readonly uptakeFactor: number;
  readonly mmolPerL: Composition;
  /** One standard deviation of the concentrations, relative. */
  readonly strengthSdShare: number;
  readonly ecMsPerCm25: number;
  /** Latest measured; absent where never measured since the water was renewed. */
  readonly pH?: number;
  readonly basis: string;
  readonly flags: readonly SolutionFlag[];
  readonly balance: SolutionBalance;
  /** Nutrients that the balance says are used up. */
  readonly exhausted: readonly string[];
}

/** A reading that the balance cannot be reconciled with: shown, not absorbed. */
export interface SolutionFlag {
  readonly at: string;
  readonly quantity: 'volume' | 'conductivity' | 'analysis';
  readonly expected: number;
  readonly measured: number;
  readonly unit: string;
  readonly sentence: string;
  readonly likelyCause: string;
}

/** From the last renewal to now: start - transpired + unexplained = now, and per component start - uptake + unexplained = now. */
export interface SolutionBalance {
  readonly from: string;
  readonly startL: number;
  readonly startMmol: Composition;
  readonly transpiredL: number;
  readonly uptakeMmol: Composition;
  readonly unexplainedL: number;
  readonly unexplainedMmol: Composition;
}
