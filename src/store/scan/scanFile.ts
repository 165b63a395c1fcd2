import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { basename } from 'node:path';
import { accepted, type Outcome } from '../../science/refusal.ts';
import type { BasinLayout } from '../../science/scan/basinLayout.ts';
import { closeField, emptyField, mergeField, type HeightField } from '../../science/scan/heightField.ts';
import type { PointRecords } from '../../science/scan/pointRecords.ts';
import { CLOUD_LIMITS, type CloudFile } from '../../science/scan/read/cloudFile.ts';
import { isPackedLas } from '../../science/scan/read/isPackedLas.ts';
import { openCloud } from '../../science/scan/read/openCloud.ts';
import type { OpenedCloud } from '../../science/scan/read/openedCloud.ts';
import type { EarlierPlant } from '../../science/scan/readPreviousScan.ts';
import { seekPose } from '../../science/scan/seekPose.ts';
import { gridFor, measureField, scanCloud, type MeasuredScan } from '../../science/scan/scanBasin.ts';
import { fillPieces, type FillTask } from './fillPieces.ts';
import { inSample } from './readRecords.ts';
import type { ScanHelper } from './startScanHelper.ts';

/** A measured scan with the time its parts took. */
export interface ScannedFile extends MeasuredScan {
  readonly seconds: { readonly pose: number; readonly points: number; readonly plants: number; readonly total: number };
}

/**
 * Scans the point cloud of a file: every plant's measures. Clouds of equal records are read piece by piece, by this thread and by the
 * helper if there is one; the answer does not depend on who read what. Refused where the file is unsound or the scan cannot be trusted.
 */
export async function scanFile(path: string, layout: BasinLayout, earlier: readonly EarlierPlant[], helper?: ScanHelper): Promise<Outcome<ScannedFile>> {
  const descriptor = openSync(path, 'r');
  try {
    const file: CloudFile = { name: basename(path), bytes: fstatSync(descriptor).size };
    const head = new Uint8Array(Math.min(file.bytes, CLOUD_LIMITS.headerBytes));
    readSync(descriptor, head, 0, head.length, 0);
    const opened = openCloud(head, file, isPackedLas(head) ? await (await import('./loadLazPerf.ts')).loadLazPerf() : undefined);
    if (!opened.ok) return opened;
    const { records } = opened.value;
    return records === undefined ? scanWhole(descriptor, opened.value, layout, earlier) : await scanRecords(path, descriptor, file, records, layout, earlier, helper);
  } finally {
    closeSync(descriptor);
  }
}

const WHOLE_PIECE_BYTES = 1 << 20;

/** Forms that can only be read from first byte to last: the whole cloud is held. */
function scanWhole(descriptor: number, opened: OpenedCloud, layout: BasinLayout, earlier: readonly EarlierPlant[]): Outcome<ScannedFile> {
  const clock = startClock();
  const stream = opened.startStream();
  const piece = new Uint8Array(WHOLE_PIECE_BYTES);
  for (let read = readSync(descriptor, piece), wanted = true; read > 0 && wanted; read = readSync(descriptor, piece)) wanted = stream.push(piece.slice(0, read));
  const cloud = stream.finish();
  if (!cloud.ok) return cloud;
  const points = clock();
  const scan = scanCloud(cloud.value, layout, earlier);
  const plants = clock();
  return scan.ok ? accepted({ ...scan.value, seconds: { pose: 0, points, plants, total: points + plants } }, scan.warnings) : scan;
}

async function scanRecords(path: string, descriptor: number, file: CloudFile, records: PointRecords, layout: BasinLayout, earlier: readonly EarlierPlant[], helper?: ScanHelper): Promise<Outcome<ScannedFile>> {
  const clock = startClock();
  const pose = seekPose((points, find) => inSample(descriptor, file, records, points, find), layout);
  if (!pose.ok) return pose;
  const poseS = clock();
  const grid = gridFor(records.count, layout), field = emptyField(grid);
  const task: FillTask = { path, file, records, grid, toBasin: pose.value.toBasin, next: new Int32Array(new SharedArrayBuffer(4)) };
  try {
    const inside = await fillWith(helper, task, descriptor, field);
    if (!inside.ok) return inside;
    const pointsS = clock();
    const scan = measureField({ field, grid, pose: pose.value, points: records.count, pointsInside: inside.value, coloured: records.colour !== undefined }, layout, earlier);
    const plantsS = clock();
    if (!scan.ok) return scan;
    return accepted({ ...scan.value, seconds: { pose: poseS, points: pointsS, plants: plantsS, total: poseS + pointsS + plantsS } });
  } finally {
    closeField(field);
  }
}

/** All points into the field, by this thread and the helper; how many lay inside. */
async function fillWith(helper: ScanHelper | undefined, task: FillTask, descriptor: number, field: HeightField): Promise<Outcome<number>> {
  const helped = helper?.fill(task);
  const own = fillPieces(descriptor, task, field), theirs = await helped;
  if (!own.ok || theirs === undefined) return own;
  if (!theirs.ok) return theirs;
  mergeField(field, theirs.value.numbers);
  return accepted(own.value + theirs.value.inside);
}

/** Seconds since the last call. */
function startClock(): () => number {
  let lastMs = performance.now();
  return () => { const nowMs = performance.now(), passed = (nowMs - lastMs) / 1000; lastMs = nowMs; return passed; };
}
