/** Where rafts and planting positions of a basin lie when nothing has drifted. Millimetres; x to the right, y away, z up. */
export interface BasinLayout {
  /** Top of the rim above the surface of the floating rafts. */
  readonly rimHeightMm: number;
  /** Inner size of the basin. */
  readonly innerMm: readonly [x: number, y: number];
  readonly rafts: readonly RaftLayout[];
}

export interface RaftLayout {
  readonly id: string | number;
  /** Centre of the raft, from the centre of the basin. */
  readonly centreMm: readonly [x: number, y: number];
  readonly sizeMm: readonly [x: number, y: number];
  readonly positions: readonly PlantingPosition[];
}

/** A planting hole, from the centre of its raft. */
export interface PlantingPosition {
  readonly id: string | number;
  readonly xMm: number;
  readonly yMm: number;
}
