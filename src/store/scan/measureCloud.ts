import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, writeSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { accepted, type Outcome } from '../../science/refusal.ts';
import type { BasinLayout } from '../../science/scan/basinLayout.ts';
import type { PlantMeasure } from '../../science/scan/measurePlants.ts';
import { addColours, emptyColours } from '../../science/scan/picture/cellColours.ts';
import { keepPoints, type KeptPoints } from '../../science/scan/picture/keepPoints.ts';
import { headerBytes, pictureBytes } from '../../science/scan/picture/pictureBytes.ts';
import { plantColours, type LeafColour } from '../../science/scan/picture/plantColours.ts';
import type { EarlierPlant } from '../../science/scan/readPreviousScan.ts';
import { SCAN_COLOUR } from '../../science/scan/scanBasin.ts';
import type { ScanQuality } from '../../science/scan/scanResult.ts';
import { seedFor } from '../../science/seededRandom.ts';
import { forEachPiece } from './forEachPiece.ts';
import { scanFile, type ScannedFile } from './scanFile.ts';
import { pictureFiles } from './pictureFiles.ts';

export interface CloudTask {
  readonly path: string;
  readonly scan: string;
  readonly layout: BasinLayout;
  readonly earlier: readonly EarlierPlant[];
  /** Where pictures are kept. */
  readonly pictures: string;
}

export interface MeasuredCloud {
  readonly quality: ScanQuality;
  readonly plants: readonly PlantMeasure[];
  /** In the order of the plants; undefined where there is no colour. */
  readonly colours: readonly (LeafColour | undefined)[];
  /** The layout with the level at which the rafts were found. */
  readonly layout: BasinLayout;
}

/** Most points of a cloud that are kept for looking at. */
const MOST_POINTS = 2_000_000;
/** Rafts are looked for so far from where the water should hold them, mm, one after another. */
const LEVELS_MM = [0, 18, -18, 36, -36] as const;

/**
 * Measures a cloud and keeps its picture and a thinned cloud as files. Refused, with nothing kept, where the cloud is unsound or the
 * scan cannot be trusted.
 */
export async function measureCloud(task: CloudTask, onProgress: (share: number, step: string) => void): Promise<Outcome<MeasuredCloud>> {
  onProgress(0.05, 'measuring plants');
  const found = await scanAtLevels(task);
  if (!found.ok) return found;
  const { scanned, layout } = found.value;
  onProgress(0.5, 'drawing the picture');
  const { result, grid, toBasin, labels } = scanned;
  const colours = emptyColours(grid, toBasin, SCAN_COLOUR.saturation);
  const box = { lowMm: [grid.leftMm, grid.nearMm, -100], highMm: [grid.leftMm + grid.columns * grid.cellMm, grid.nearMm + grid.rows * grid.cellMm, 900] } as const;
  const keeper = keepPoints(box, result.quality.points, MOST_POINTS, seedFor(1, task.scan));
  const read = await forEachPiece(task.path, (piece) => addColours(colours, piece, (cell, coloured, x, y, z, r, g, b) => keeper.add(coloured ? labels.label[cell]! + 1 : 0, x, y, z, r, g, b)));
  if (!read.ok) return read;
  onProgress(0.85, 'keeping the picture');
  keepFiles(task, gzipSync(pictureBytes(colours, labels, result.quality.coloured), { level: 6 }), keeper.finish(), result.quality.coloured);
  return accepted({ quality: result.quality, plants: result.plants, colours: result.quality.coloured ? plantColours(colours, labels) : result.plants.map(() => undefined), layout });
}

/** Rafts lie deeper with less water than the balance thinks: where none is found at its level, others are tried before the scan is given up. */
async function scanAtLevels({ path, layout, earlier }: CloudTask): Promise<Outcome<{ scanned: ScannedFile; layout: BasinLayout }>> {
  let first: Outcome<{ scanned: ScannedFile; layout: BasinLayout }> | undefined;
  for (const offMm of LEVELS_MM) {
    const there = { ...layout, rimHeightMm: Math.max(0, layout.rimHeightMm + offMm) };
    const scan = await scanFile(path, there, earlier);
    const outcome = scan.ok ? accepted({ scanned: scan.value, layout: there }, scan.warnings) : scan;
    if (scan.ok && scan.value.result.quality.rafts.some(({ plane }) => plane === 'bare')) return outcome;
    if (!scan.ok && scan.refusals.some(({ code }) => code.startsWith('cloud-') || code === 'scan-too-few-points' || code === 'scan-wrong-size')) return first ?? outcome;
    if (first === undefined || (!first.ok && outcome.ok)) first = outcome;
  }
  return first!;
}

/** Writes both files under other names first: a file with its own name is whole. */
function keepFiles({ pictures, scan }: CloudTask, picture: Uint8Array, points: KeptPoints, coloured: boolean): void {
  mkdirSync(pictures, { recursive: true });
  const files = pictureFiles(pictures, scan);
  const head = headerBytes({ kept: points.count, lowMm: points.lowMm, highMm: points.highMm, coloured });
  writeWhole(files.picture, [picture]);
  writeWhole(files.points, [head, new Uint8Array(points.places.buffer, points.places.byteOffset, points.places.byteLength), points.colours]);
}

function writeWhole(path: string, parts: readonly Uint8Array[]): void {
  const unfinished = `${path}.unfinished`, descriptor = openSync(unfinished, 'w');
  try {
    for (const part of parts) for (let at = 0; at < part.length;) at += writeSync(descriptor, part, at);
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
  renameSync(unfinished, path);
}
