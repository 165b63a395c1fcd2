/** Columns that points are read into: those of a PointCloud, not yet full. */
export interface PointColumns {
  readonly x: Float32Array;
  readonly y: Float32Array;
  readonly z: Float32Array;
  readonly red?: Uint8Array;
  readonly green?: Uint8Array;
  readonly blue?: Uint8Array;
}

/** Empty columns for so many points. */
export function allocateColumns(count: number, coloured: boolean): PointColumns {
  const positions = { x: new Float32Array(count), y: new Float32Array(count), z: new Float32Array(count) };
  return coloured ? { ...positions, red: new Uint8Array(count), green: new Uint8Array(count), blue: new Uint8Array(count) } : positions;
}
