import { readSync } from 'node:fs';
import { accepted, refused, type Outcome } from '../../science/refusal.ts';
import type { PointCloud } from '../../science/scan/pointCloud.ts';
import type { PointRecords } from '../../science/scan/pointRecords.ts';
import { checkLength, refusePoint, type CloudFile } from '../../science/scan/read/cloudFile.ts';
import { allocateColumns, type PointColumns } from '../../science/scan/read/pointColumns.ts';
import { readPoints } from '../../science/scan/read/readPoints.ts';
import { SAMPLE_POINTS } from '../../science/scan/scanBasin.ts';

/** The sample for the pose is read in blocks spread over the file. */
const SAMPLE_BLOCKS = 128;

/** Points from all over the file. */
export function readSample(descriptor: number, file: CloudFile, records: PointRecords): Outcome<PointCloud> {
  const all = Math.min(records.count, SAMPLE_POINTS);
  const block = Math.max(1, Math.floor(all / SAMPLE_BLOCKS)), blocks = Math.floor(all / block);
  const columns = allocateColumns(block * blocks, records.colour !== undefined);
  const bytes = new Uint8Array(block * records.recordBytes);
  for (let k = 0; k < blocks; k += 1) {
    const piece = readRecords(descriptor, file, records, Math.floor((k * (records.count - block)) / Math.max(1, blocks - 1)), block, bytes, columns, k * block);
    if (!piece.ok) return piece;
  }
  return accepted({ count: block * blocks, origin: records.origin, ...columns });
}

/** Reads `count` records from `first` on through `bytes` into the columns at `to`. Refused where the file ends early or a point is unsound. */
export function readRecords(descriptor: number, file: CloudFile, records: PointRecords, first: number, count: number, bytes: Uint8Array, columns: PointColumns, to: number): Outcome<PointCloud> {
  const wanted = count * records.recordBytes, from = records.firstByte + first * records.recordBytes;
  let got = 0;
  while (got < wanted) {
    const read = readSync(descriptor, bytes, got, wanted - got, from + got);
    if (read === 0) return refused(checkLength({ ...file, bytes: from + got }, file.bytes, true));
    got += read;
  }
  const sound = readPoints(bytes, records, { atByte: 0, count, to }, columns);
  return sound === count ? accepted({ count, origin: records.origin, ...columns }) : refused([refusePoint(file, first + sound)]);
}
