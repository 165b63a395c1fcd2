/** The part of the contract that is about scans; pages read it through contract.ts. */
import type { ExpectedMass, PlantMark, ScoreClass } from '../greenhouse/scanEvents.ts';
import type { Refusal } from '../science/refusal.ts';
import type { LeafColour } from '../science/scan/picture/plantColours.ts';
import type { PlantFigures } from '../science/scan/plantFigures.ts';
import type { ScanQuality } from '../science/scan/scanResult.ts';
import type { WatchReason } from '../science/scan/watch/watchPlants.ts';

/** GET /api/imaging: what is being worked on, and the latest scan of every basin that has one. */
export interface ImagingAnswer {
  /** Where clouds are looked for, in words: "the folder scans/ of the greenhouse". */
  readonly place: string;
  /** Places that cannot be used now, in words: clouds there wait. */
  readonly troubles: readonly Refusal[];
  /** Oldest first: what waits or is worked on, and what was finished or refused within the last day. */
  readonly queue: readonly ScanJob[];
  readonly basins: readonly ScannedBasin[];
  /** Basins with plants that no scan shows yet. */
  readonly unscanned: readonly string[];
  /** How far proposed classes can be trusted; absent until enough plants are scored, with the reason. */
  readonly classifier: ClassifierTrust;
}

export type ScanJobState = 'queued' | 'running' | 'done' | 'refused';
export interface ScanJob {
  /** First 16 characters of the cloud's SHA-256: the scan's identity once it is done. */
  readonly scan: string;
  readonly file: string;
  readonly bytes: number;
  readonly basin?: string;
  readonly takenAt?: string;
  readonly arrivedAt: string;
  readonly state: ScanJobState;
  /** 0 to 1. */
  readonly share: number;
  readonly step?: string;
  readonly endedAt?: string;
  readonly refusals?: readonly Refusal[];
}

export interface ScannedBasin {
  readonly basin: string;
  readonly cropTitle: string;
  readonly stageTitle: string;
  readonly latest: ScanSummary;
  /** Of the lot that grows there, the latest included. */
  readonly scans: number;
}

/** One scan in a line. */
export interface ScanSummary {
  readonly scan: string;
  readonly takenAt: string;
  readonly lot: string;
  readonly ageDays: number;
  readonly present: number;
  readonly positions: number;
  readonly meanAreaCm2: number;
  readonly meanHeightMm: number;
  /** Absent where mass could not be told. */
  readonly meanFreshG?: number;
  readonly meanLowG?: number;
  readonly meanHighG?: number;
  /** Mean mass against the forecast before this scan, as a share: -0.1 is a tenth less. */
  readonly gapToForecast?: number;
  readonly toLookAt: number;
  readonly scored: number;
  readonly points: number;
  readonly cellMm: number;
  readonly version: number;
}

/** GET /api/imaging/:basin, newest first. */
export interface BasinScansAnswer {
  readonly basin: string;
  readonly cropTitle?: string;
  readonly lot?: string;
  readonly scans: readonly (ScanSummary & { readonly quality: ScanQuality; readonly file: string })[];
  readonly refused: readonly { readonly scan: string; readonly file: string; readonly takenAt?: string; readonly refusals: readonly Refusal[] }[];
  /** What grows there is known in these dimensions; absent where no plants stand there. */
  readonly dimensions: { readonly lengthMm: number; readonly widthMm: number; readonly rafts: number };
}

/** GET /api/imaging/:basin/:scan */
export interface ScanAnswer {
  readonly basin: string;
  readonly summary: ScanSummary;
  readonly quality: ScanQuality;
  /** The other scans of the same lot in this basin, oldest first. */
  readonly others: readonly { readonly scan: string; readonly takenAt: string; readonly comparable: boolean }[];
  readonly rafts: readonly { readonly raft: number; readonly centreMm: PointMm; readonly sizeMm: PointMm }[];
  /** All positions, empty ones too, in the order of the labels of the height field: the n-th plant has label n + 1. */
  readonly plants: readonly ScannedPlant[];
  /** How mass was told, in one sentence. */
  readonly massWords: string;
  readonly expected?: ExpectedMass;
  readonly classifier: ClassifierTrust;
  /** False once the picture's files were removed: only the figures are left. */
  readonly hasPicture: boolean;
}

export type PointMm = readonly [xMm: number, yMm: number];

export interface ScannedPlant {
  readonly raft: number;
  readonly position: number;
  /** From the middle of the basin: x along its length, y across. */
  readonly xMm: number;
  readonly yMm: number;
  /** Absent where nothing grows. */
  readonly measures?: PlantMeasures;
  readonly reasons: readonly { readonly reason: WatchReason; readonly sentence: string }[];
  readonly score?: PlantScore;
  readonly proposed?: ProposedClass;
  /** Of the same position at the scans of the same lot in this basin, oldest first, this one included. */
  readonly history: readonly PlantHistory[];
}

export interface PlantMeasures extends PlantFigures {
  /** 0 to 255; absent where the cloud has no colours. */
  readonly colour?: LeafColour;
  /** Excess green on chromatic coordinates, -1 to 2. */
  readonly greenness?: number;
  /** Hue: 60 is yellow, 120 green, 0 red. */
  readonly hueDeg?: number;
  readonly freshG?: number;
  readonly lowG?: number;
  readonly highG?: number;
  /** Growth of volume a day since the scan before, as a share: 0.1 is a tenth a day. */
  readonly growthPerDay?: number;
  /** Fresh mass against the forecast's middle before this scan, as a share. */
  readonly gapToForecast?: number;
}

export interface PlantHistory { readonly scan: string; readonly takenAt: string; readonly areaMm2: number; readonly volumeMm3: number; readonly heightP95Mm: number; readonly freshG?: number; readonly lowG?: number; readonly highG?: number; readonly score?: ScoreClass }
export interface PlantScore { readonly class: ScoreClass; readonly words?: string; readonly by: string; readonly at: string; readonly wholeRaft: boolean }
/** What the classifier would say; a person decides. */
export interface ProposedClass { readonly class: ScoreClass; readonly confidence: number }

/** How the classifier did on plants that it had not seen (cross-validation), against always naming the commonest class. */
export type ClassifierTrust =
  | { readonly ready: true; readonly scored: number; readonly classes: readonly { readonly class: ScoreClass; readonly scored: number }[]; readonly rightShare: number; readonly commonestShare: number; readonly sentence: string }
  | { readonly ready: false; readonly scored: number; readonly sentence: string };

/**
 * GET /api/imaging/:basin/:scan/field: a Uint32 (little-endian) with the length of the JSON that follows, the JSON (UTF-8, padded with
 * blanks to a multiple of four), then the arrays one after another, cell by cell, row by row from the lowest y, x rising: heights
 * (Uint16), labels (Uint16: 0 no plant, n the (n-1)-th of ScanAnswer.plants), colours (3 bytes: red, green, blue).
 */
export interface FieldHeader {
  readonly columns: number;
  readonly rows: number;
  readonly cellMm: number;
  /** x and y of the corner where cell (0, 0) begins, from the middle of the basin. */
  readonly leftMm: number;
  readonly nearMm: number;
  /** Height over the level of rafts in a full basin, mm = heightFromMm + heightStepMm * value; a value of 0: nothing was seen there. */
  readonly heightFromMm: number;
  readonly heightStepMm: number;
  readonly coloured: boolean;
}

/**
 * GET /api/imaging/:basin/:scan/points?from=&count=: a Uint32 with the length of the JSON and the JSON as in the height field, then for
 * `count` points Uint16 x 4 (x, y, z, label) and then 3 bytes x count (red, green, blue). Points are shuffled: any stretch is an even sample.
 */
export interface PointsHeader {
  /** Points that are kept; `from` and `count` are what this answer holds. */
  readonly kept: number;
  readonly from: number;
  readonly count: number;
  /** x mm = lowMm[0] + value * (highMm[0] - lowMm[0]) / 65535, likewise y and z; z over the rafts' nominal level. */
  readonly lowMm: readonly [number, number, number];
  readonly highMm: readonly [number, number, number];
  readonly coloured: boolean;
}

/** POST /api/imaging/:basin/:scan/scores; answers with AcceptedAnswer. */
export interface ScoreRequest { readonly by: string; readonly marks: readonly PlantMark[] }
