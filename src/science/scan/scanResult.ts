import type { PlantMeasure } from './measurePlants.ts';
import type { PoseQuality } from './findPose.ts';

/** Counts up when the same cloud would give other figures: scans of different versions or cell sizes are not compared. */
export const SCAN_VERSION = 2;

/** What a scan says, and how far it can be trusted. */
export interface ScanResult {
  readonly quality: ScanQuality;
  readonly plants: readonly PlantMeasure[];
}

export interface ScanQuality extends PoseQuality {
  readonly version: number;
  readonly cellMm: number;
  /** Unit of the file. */
  readonly unit: 'm' | 'mm';
  readonly points: number;
  /** Inside the basin and at a height that can be. */
  readonly pointsInside: number;
  /** Share of cells over the rafts without a point. */
  readonly emptyShare: number;
  readonly coloured: boolean;
  readonly rafts: readonly RaftQuality[];
}

export interface RaftQuality {
  readonly raft: string | number;
  /** Height of the raft's middle over its nominal level. */
  readonly heaveMm: number;
  readonly tiltDeg: number;
  readonly bareCells: number;
  /** Scatter of single points about the raft's plane; absent where no raft of the basin is bare. */
  readonly noiseMm?: number;
  /** Whether the plane was read from this raft, or borrowed since leaves hide it. */
  readonly plane: 'bare' | 'borrowed';
}
