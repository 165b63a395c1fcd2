import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { basename } from 'node:path';
import { accepted, type Outcome } from '../../science/refusal.ts';
import { inLoops } from '../../science/scan/loops/openLoops.ts';
import { openPiece, pieceColumns } from '../../science/scan/piece.ts';
import type { PointCloud } from '../../science/scan/pointCloud.ts';
import { CLOUD_LIMITS, type CloudFile } from '../../science/scan/read/cloudFile.ts';
import { isPackedLas } from '../../science/scan/read/isPackedLas.ts';
import { openCloud } from '../../science/scan/read/openCloud.ts';
import type { OpenedCloud } from '../../science/scan/read/openedCloud.ts';
import { readRecords } from './readRecords.ts';

const PIECE_BYTES = 1 << 20;

/** Reads a cloud from first point to last, piece by piece where its form allows, else at once. The columns of a piece are used again for the next. */
export async function forEachPiece(path: string, visit: (piece: PointCloud) => void): Promise<Outcome<number>> {
  const descriptor = openSync(path, 'r');
  try {
    const file: CloudFile = { name: basename(path), bytes: fstatSync(descriptor).size };
    const head = new Uint8Array(Math.min(file.bytes, CLOUD_LIMITS.headerBytes));
    readSync(descriptor, head, 0, head.length, 0);
    const opened = openCloud(head, file, isPackedLas(head) ? await (await import('./loadLazPerf.ts')).loadLazPerf() : undefined);
    if (!opened.ok) return opened;
    return opened.value.records === undefined ? visitWhole(descriptor, opened.value, visit) : visitRecords(descriptor, file, opened.value.records, visit);
  } finally {
    closeSync(descriptor);
  }
}

function visitRecords(descriptor: number, file: CloudFile, records: NonNullable<OpenedCloud['records']>, visit: (piece: PointCloud) => void): Outcome<number> {
  const most = Math.max(1, Math.floor(PIECE_BYTES / records.recordBytes));
  return inLoops((loops) => {
    const piece = openPiece(loops, most, records.colour !== undefined, records.recordBytes);
    for (let first = 0; first < records.count; first += most) {
      const count = Math.min(most, records.count - first);
      const read = readRecords(descriptor, file, records, first, count, piece, 0);
      if (!read.ok) return read;
      visit({ count, origin: records.origin, ...pieceColumns(piece) });
    }
    return accepted(records.count);
  });
}

function visitWhole(descriptor: number, opened: OpenedCloud, visit: (piece: PointCloud) => void): Outcome<number> {
  const stream = opened.startStream(), piece = new Uint8Array(PIECE_BYTES);
  // Read in order from the beginning: the header was read by place and left the file's own position at zero.
  for (let read = readSync(descriptor, piece), wanted = true; read > 0 && wanted; read = readSync(descriptor, piece)) wanted = stream.push(piece.slice(0, read));
  const cloud = stream.finish();
  if (!cloud.ok) return cloud;
  visit(cloud.value);
  return accepted(cloud.value.count);
}
