import type { ScanMeasured } from './scanEvents.ts';

/** What the state remembers of a scan; the plants stay in the journal. */
export interface ScanNote {
  readonly scan: string;
  /** Sequence of its event. */
  readonly sequence: number;
  readonly basin: string;
  readonly lot: string;
  readonly takenAt: string;
  readonly ageDays: number;
  readonly present: number;
  readonly rafts: number;
  /** Positions of each raft; all rafts of a basin are alike. */
  readonly perRaft: number;
  readonly cellMm: number;
  readonly version: number;
  /** Absent where mass could not be told. */
  readonly mean?: ScanMean;
}

/** Fresh mass of the mean plant, and the standard error of its logarithm: the part that all scans told in the same way share, and the scan's own. */
export interface ScanMean { readonly freshG: number; readonly commonLnSd: number; readonly ownLnSd: number }

/** Standard normal quantile of 95 % (tables): the plants' intervals reach so far on either side. */
const Z95 = 1.6449;

export function scanNote(sequence: number, { scan, basin, lot, takenAt, ageDays, plants, empty, quality, mass }: ScanMeasured): ScanNote {
  const mean = plants.mass === undefined || mass.from === 'nothing' ? undefined : meanMass(plants.mass, mass.commonLnSd);
  return {
    scan, sequence, basin, lot, takenAt, ageDays, present: plants.raft.length,
    rafts: largest([...plants.raft, ...empty.raft]), perRaft: largest([...plants.position, ...empty.position]),
    cellMm: quality.cellMm, version: quality.version, ...(mean === undefined ? {} : { mean }),
  };
}

const largest = (numbers: readonly number[]): number => numbers.reduce((most, each) => Math.max(most, each), 0);

/**
 * The mean over plants, and its error: what all plants share stays, what each has of its own shrinks with their number. A plant's middle
 * is its median; the mean of a lognormal error lies above it by half its variance.
 */
export function meanMass({ freshG, lowG, highG }: { readonly freshG: readonly number[]; readonly lowG: readonly number[]; readonly highG: readonly number[] }, commonLnSd: number): ScanMean | undefined {
  const count = freshG.length;
  if (count === 0) return undefined;
  let sum = 0, ownVariance = 0;
  for (let i = 0; i < count; i += 1) {
    const lnSd = Math.log(highG[i]! / lowG[i]!) / (2 * Z95);
    const own = Math.max(0, lnSd * lnSd - commonLnSd * commonLnSd);
    sum += freshG[i]! * Math.exp(own / 2);
    ownVariance += own;
  }
  return { freshG: sum / count, commonLnSd, ownLnSd: Math.sqrt(ownVariance) / count };
}
