import type { Refusal } from '../science/refusal.ts';
import type { PlantFigures } from '../science/scan/plantFigures.ts';
import type { ScanQuality } from '../science/scan/scanResult.ts';

/** A point cloud as it came: what it was called, how large it was, and which bytes it had. */
export interface CloudFact {
  /** Hex, of all bytes: the same cloud twice is one scan. */
  readonly sha256: string;
  /** Name of the file, without its folder. */
  readonly name: string;
  readonly bytes: number;
}

/** A basin's point cloud was measured. */
export interface ScanMeasured {
  /** Identity of the scan: the first 16 characters of its cloud's SHA-256. */
  readonly scan: string;
  readonly basin: string;
  /** UTC instant at which the cloud was taken. */
  readonly takenAt: string;
  /** What grew there then. */
  readonly lot: string;
  readonly crop: string;
  readonly stage: string;
  /** Days since sowing. */
  readonly ageDays: number;
  readonly cloud: CloudFact;
  /** Points, cell size, version of the measuring, and how well everything was found. */
  readonly quality: ScanQuality;
  /** The scan of the same plants that went in as what was known of their size. */
  readonly previousScan?: string;
  readonly plants: PlantColumns;
  /** Positions at which nothing grows. */
  readonly empty: PositionColumns;
  /** How mass was told; absent, with the reason, where it could not be. */
  readonly mass: MassBasis;
  /** What the forecast said of the lot's mean plant on that day before it knew this scan; absent where there was none. */
  readonly expected?: ExpectedMass;
}

/** Fresh mass of the mean plant of a lot: middle, and the bounds that hold it with 90 % probability. */
export interface ExpectedMass { readonly p05G: number; readonly p50G: number; readonly p95G: number }

/** Planting positions by columns: the n-th entry of each belongs to the n-th position. */
export interface PositionColumns {
  /** Number of the raft in the basin, from 1. */
  readonly raft: readonly number[];
  /** Number of the position on its raft, from 1, row by row. */
  readonly position: readonly number[];
  /** From the middle of the basin: x along its length, y across. */
  readonly xMm: readonly number[];
  readonly yMm: readonly number[];
}

/** What was measured of each plant, by columns; PlantMeasure says what each figure is. */
export interface PlantColumns extends PositionColumns, Readonly<Record<keyof PlantFigures, readonly number[]>> {
  /** Mean colour of the leaves, 0 to 255; absent where the cloud has no colours. */
  readonly colour?: { readonly red: readonly number[]; readonly green: readonly number[]; readonly blue: readonly number[] };
  /** Fresh mass with the interval that holds it with 90 % probability; absent where mass could not be told. */
  readonly mass?: { readonly freshG: readonly number[]; readonly lowG: readonly number[]; readonly highG: readonly number[] };
}

export type MassBasis =
  /** From plants of these cultivars that were weighed. `commonLnSd`: the part of the error, as a standard deviation of ln mass, that all plants of the scan share. */
  | { readonly from: 'weighed'; readonly samples: number; readonly ofCultivar: number; readonly commonLnSd: number }
  /** Nobody weighed enough plants yet: from the canopy's volume and the crop card, wide. */
  | { readonly from: 'card'; readonly commonLnSd: number }
  | { readonly from: 'nothing'; readonly reason: string };

/** A cloud was not taken: nothing but this is kept of it. */
export interface ScanRefused {
  readonly scan: string;
  /** Absent where not even the basin was known. */
  readonly basin?: string;
  readonly takenAt?: string;
  readonly cloud: CloudFact;
  readonly refusals: readonly Refusal[];
}

/** What a grower can say of a plant. `own`: in own words; `unscored` takes an earlier mark back. */
export const SCORE_CLASSES = ['good', 'slow', 'tip-burn', 'pale', 'stretched', 'damaged', 'diseased', 'own', 'unscored'] as const;
export type ScoreClass = (typeof SCORE_CLASSES)[number];

/** A grower looked at plants of a scan and judged them. A later mark of the same plant on the same scan replaces an earlier one. */
export interface PlantsScored {
  readonly scan: string;
  readonly basin: string;
  readonly by: string;
  readonly marks: readonly PlantMark[];
}

export interface PlantMark {
  readonly raft: number;
  /** Absent: all plants of the raft that have no mark of their own. */
  readonly position?: number;
  readonly class: ScoreClass;
  readonly words?: string;
}
