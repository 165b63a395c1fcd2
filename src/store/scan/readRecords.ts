import { readSync } from 'node:fs';
import { accepted, refused, type Outcome } from '../../science/refusal.ts';
import { inLoops } from '../../science/scan/loops/openLoops.ts';
import { openPiece, pieceBytes, pieceColumns, readPiece, type Piece } from '../../science/scan/piece.ts';
import type { PointCloud } from '../../science/scan/pointCloud.ts';
import type { PointRecords } from '../../science/scan/pointRecords.ts';
import { checkLength, refusePoint, type CloudFile } from '../../science/scan/read/cloudFile.ts';

/** The sample for the pose is read in blocks spread over the file. */
const SAMPLE_BLOCKS = 128;

/** What is found in about `points` points from all over the file. */
export function inSample<T>(descriptor: number, file: CloudFile, records: PointRecords, points: number, find: (sample: PointCloud) => Outcome<T>): Outcome<T> {
  const all = Math.min(records.count, points);
  const block = Math.max(1, Math.floor(all / SAMPLE_BLOCKS)), blocks = Math.floor(all / block);
  return inLoops((loops) => {
    const piece = openPiece(loops, block * blocks, records.colour !== undefined, records.recordBytes);
    for (let k = 0; k < blocks; k += 1) {
      const read = readRecords(descriptor, file, records, Math.floor((k * (records.count - block)) / Math.max(1, blocks - 1)), block, piece, k * block);
      if (!read.ok) return read;
    }
    return find({ count: block * blocks, origin: records.origin, ...pieceColumns(piece) });
  });
}

/** Reads `count` records from `first` on into the columns of a piece at `to`. Refused where the file ends early or a point is unsound. */
export function readRecords(descriptor: number, file: CloudFile, records: PointRecords, first: number, count: number, piece: Piece, to: number): Outcome<void> {
  const wanted = count * records.recordBytes, from = records.firstByte + first * records.recordBytes, bytes = pieceBytes(piece);
  let got = 0;
  while (got < wanted) {
    const read = readSync(descriptor, bytes, got, wanted - got, from + got);
    if (read === 0) return refused(checkLength({ ...file, bytes: from + got }, file.bytes, true));
    got += read;
  }
  const sound = readPiece(piece, records, count, to);
  return sound === count ? accepted(undefined) : refused([refusePoint(file, first + sound)]);
}
