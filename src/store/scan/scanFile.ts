import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { basename } from 'node:path';
import { accepted, refused, type Outcome } from '../../science/refusal.ts';
import type { BasinLayout } from '../../science/scan/basinLayout.ts';
import { findPose } from '../../science/scan/findPose.ts';
import { addPoints, emptyField } from '../../science/scan/heightField.ts';
import type { PointCloud } from '../../science/scan/pointCloud.ts';
import type { PointRecords } from '../../science/scan/pointRecords.ts';
import { CLOUD_LIMITS, refusePoint, type CloudFile } from '../../science/scan/read/cloudFile.ts';
import type { OpenedCloud } from '../../science/scan/read/openedCloud.ts';
import { openCloud } from '../../science/scan/read/openCloud.ts';
import { allocateColumns, type PointColumns } from '../../science/scan/read/pointColumns.ts';
import { readPoints } from '../../science/scan/read/readPoints.ts';
import type { EarlierPlant } from '../../science/scan/readPreviousScan.ts';
import { SAMPLE_POINTS, SCAN_COLOUR, gridFor, measureField, scanCloud } from '../../science/scan/scanBasin.ts';
import type { ScanResult } from '../../science/scan/scanResult.ts';

/** The sample for the pose is read in blocks spread over the file. */
const SAMPLE_BLOCKS = 96;
const PIECE_BYTES = 1 << 19;

/** Scans the point cloud of a file: every plant's measures. Refused where the file is unsound or the scan cannot be trusted. */
export function scanFile(path: string, layout: BasinLayout, earlier: readonly EarlierPlant[]): Outcome<ScanResult> {
  const descriptor = openSync(path, 'r');
  try {
    const file: CloudFile = { name: basename(path), bytes: fstatSync(descriptor).size };
    const head = new Uint8Array(Math.min(file.bytes, CLOUD_LIMITS.headerBytes));
    readSync(descriptor, head, 0, head.length, 0);
    const opened = openCloud(head, file);
    if (!opened.ok) return opened;
    const { records } = opened.value;
    return records === undefined ? scanWhole(descriptor, opened.value, layout, earlier) : scanRecords(descriptor, file, records, layout, earlier);
  } finally {
    closeSync(descriptor);
  }
}

function scanWhole(descriptor: number, opened: OpenedCloud, layout: BasinLayout, earlier: readonly EarlierPlant[]): Outcome<ScanResult> {
  const stream = opened.startStream();
  const piece = new Uint8Array(PIECE_BYTES);
  for (let read = readSync(descriptor, piece, 0, piece.length, 0), at = 0; read > 0; read = readSync(descriptor, piece, 0, piece.length, at)) {
    at += read;
    if (!stream.push(piece.slice(0, read))) break;
  }
  const cloud = stream.finish();
  return cloud.ok ? scanCloud(cloud.value, layout, earlier) : cloud;
}

function scanRecords(descriptor: number, file: CloudFile, records: PointRecords, layout: BasinLayout, earlier: readonly EarlierPlant[]): Outcome<ScanResult> {
  const sample = sampleRecords(descriptor, file, records);
  if (!sample.ok) return sample;
  const pose = findPose(sample.value, layout);
  if (!pose.ok) return pose;
  const grid = gridFor(records.count, layout), field = emptyField(grid);
  let pointsInside = 0;
  const piecePoints = Math.floor(PIECE_BYTES / records.recordBytes);
  const columns = allocateColumns(piecePoints, records.colour !== undefined);
  for (let first = 0; first < records.count; first += piecePoints) {
    const piece = readPiece(descriptor, file, records, first, Math.min(piecePoints, records.count - first), columns, 0);
    if (!piece.ok) return piece;
    pointsInside += addPoints(field, grid, piece.value, pose.value.toBasin, SCAN_COLOUR);
  }
  return accepted(measureField({ field, grid, pose: pose.value, points: records.count, pointsInside, coloured: records.colour !== undefined }, layout, earlier));
}

function sampleRecords(descriptor: number, file: CloudFile, records: PointRecords): Outcome<PointCloud> {
  const all = Math.min(records.count, SAMPLE_POINTS);
  const block = Math.max(1, Math.floor(all / SAMPLE_BLOCKS)), blocks = Math.floor(all / block);
  const columns = allocateColumns(block * blocks, records.colour !== undefined);
  for (let k = 0; k < blocks; k += 1) {
    const piece = readPiece(descriptor, file, records, Math.floor((k * (records.count - block)) / Math.max(1, blocks - 1)), block, columns, k * block);
    if (!piece.ok) return piece;
  }
  return accepted({ count: block * blocks, origin: records.origin, ...columns });
}

function readPiece(descriptor: number, file: CloudFile, records: PointRecords, first: number, count: number, columns: PointColumns, to: number): Outcome<PointCloud> {
  const bytes = new Uint8Array(count * records.recordBytes);
  readSync(descriptor, bytes, 0, bytes.length, records.firstByte + first * records.recordBytes);
  const sound = readPoints(bytes, records, { atByte: 0, count, to }, columns);
  return sound === count ? accepted({ count, origin: records.origin, ...columns }) : refused([refusePoint(file, first + sound)]);
}
