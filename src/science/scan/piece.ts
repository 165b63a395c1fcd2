import type { Loops } from './loops/openLoops.ts';
import type { PointRecords, RecordField } from './pointRecords.ts';
import type { PointColumns } from './read/pointColumns.ts';
import { FARTHEST } from './read/pointRange.ts';
import { readPoints } from './read/readPoints.ts';

/** Room for a part of a cloud in the memory of the loops: bytes of its records, and its points in columns. */
export interface Piece {
  readonly loops: Loops;
  readonly most: number;
  readonly bytesPlace: number;
  readonly recordBytes: number;
  /** Places of x, y, z, red, green, blue; the last three zero where there are no colours. */
  readonly places: readonly [number, number, number, number, number, number];
}

/** Room for `most` points, and for their records where `recordBytes` is more than zero. */
export function openPiece(loops: Loops, most: number, coloured: boolean, recordBytes = 0): Piece {
  const position = () => loops.room(most * 4), channel = () => (coloured ? loops.room(most) : 0);
  return { loops, most, recordBytes, bytesPlace: loops.room(most * recordBytes), places: [position(), position(), position(), channel(), channel(), channel()] };
}

/** Where records are to be laid; valid until the loops make more room. */
export const pieceBytes = ({ loops, bytesPlace, most, recordBytes }: Piece): Uint8Array => loops.view(Uint8Array, bytesPlace, most * recordBytes);

/** The columns; valid until the loops make more room. */
export function pieceColumns({ loops, most, places: [x, y, z, red, green, blue] }: Piece): PointColumns {
  const position = (place: number) => loops.view(Float32Array, place, most), channel = (place: number) => loops.view(Uint8Array, place, most);
  const positions = { x: position(x), y: position(y), z: position(z) };
  return red === 0 ? positions : { ...positions, red: channel(red), green: channel(green), blue: channel(blue) };
}

/** Reads the first `count` records of the piece into its columns at `to`. Returns how many leading points are sound; see readPoints. */
export function readPiece(piece: Piece, records: PointRecords, count: number, to: number): number {
  const range = { atByte: 0, count, to };
  if (areFloatRecords(records) && floatsAreSound(piece, records, count, to)) return count;
  return readPoints(pieceBytes(piece), records, range, pieceColumns(piece));
}

function floatsAreSound({ loops, bytesPlace, places }: Piece, { recordBytes, x, y, z, colour }: PointRecords, count: number, to: number): boolean {
  const [red, green, blue] = colour === undefined || 'packed' in colour || places[3] === 0 ? [-1, -1, -1] : [colour.red.offset, colour.green.offset, colour.blue.offset];
  return loops.code.readFloats(bytesPlace, count, recordBytes, x.offset, y.offset, z.offset, red, green, blue, ...places, to, FARTHEST) === 0;
}

const isPlain = (field: RecordField) => field.type === 'float32' && field.step === undefined && field.shift === undefined;

/** The records that nearly every scanner writes: positions as little-endian 32-bit numbers near zero, colours as bytes or none. */
function areFloatRecords({ littleEndian, x, y, z, origin, colour }: PointRecords): boolean {
  return littleEndian && isPlain(x) && isPlain(y) && isPlain(z) && origin.every((part) => part === 0)
    && (colour === undefined || ('white' in colour && colour.white === 255 && colour.red.type === 'uint8' && colour.green.type === 'uint8' && colour.blue.type === 'uint8'));
}
