import { accepted, refused, type Outcome } from '../refusal.ts';
import type { BasinLayout } from './basinLayout.ts';
import { coverMap, type CoverMap } from './coverMap.ts';
import { distrustScan } from './distrustScan.ts';
import type { Pose } from './findPose.ts';
import { planeAt } from './fitPlane.ts';
import { floodLabels, seedsOf, type Labels } from './floodLabels.ts';
import { closeField, emptyField, gridOver, startAdding, type CellGrid, type HeightField, type PlantColour } from './heightField.ts';
import { measurePlants } from './measurePlants.ts';
import { openPiece, pieceColumns } from './piece.ts';
import type { PointCloud } from './pointCloud.ts';
import { raftPlanes, type RaftPlane } from './raftPlanes.ts';
import { plantReach } from './plantReach.ts';
import type { EarlierPlant } from './readPreviousScan.ts';
import type { Transform } from './rigidTransform.ts';
import { seekPose } from './seekPose.ts';
import { SCAN_VERSION, type RaftQuality, type ScanResult } from './scanResult.ts';

/** Cells from 3 mm on, larger for thin clouds: about two points a cell. Shares of cover make up for the coarseness. */
export function gridFor(points: number, layout: BasinLayout): CellGrid {
  const areaMm2 = layout.innerMm[0] * layout.innerMm[1];
  const cellMm = Math.min(8, Math.max(3, Math.round(2 * Math.sqrt((2.2 * areaMm2) / points)) / 2));
  return gridOver(layout, cellMm);
}

/** What counts as plant-coloured. */
export const SCAN_COLOUR: PlantColour = { saturation: 0.2, heightMm: 8 };

/** Scans a whole cloud in one thread. */
export function scanCloud(cloud: PointCloud, layout: BasinLayout, earlier: readonly EarlierPlant[]): Outcome<MeasuredScan> {
  const pose = seekPose((points, find) => find(sampleOf(cloud, points)), layout);
  if (!pose.ok) return pose;
  const grid = gridFor(cloud.count, layout), field = emptyField(grid);
  try {
    const pointsInside = addCloud(field, grid, cloud, pose.value.toBasin);
    return measureField({ field, grid, pose: pose.value, points: cloud.count, pointsInside, coloured: cloud.red !== undefined }, layout, earlier);
  } finally {
    closeField(field);
  }
}

const PIECE_POINTS = 1 << 14;

/** Adds all points of a cloud, piece by piece. Returns how many lay inside. */
function addCloud(field: HeightField, grid: CellGrid, cloud: PointCloud, toBasin: Transform): number {
  const piece = openPiece(field.loops, PIECE_POINTS, cloud.red !== undefined), add = startAdding(field, grid, piece, toBasin, SCAN_COLOUR);
  const columns = pieceColumns(piece), names = ['x', 'y', 'z', 'red', 'green', 'blue'] as const;
  let inside = 0;
  for (let first = 0; first < cloud.count; first += PIECE_POINTS) {
    const end = Math.min(cloud.count, first + PIECE_POINTS);
    for (const name of names) columns[name]?.set(cloud[name]!.subarray(first, end));
    inside += add(end - first);
  }
  return inside;
}

function sampleOf(cloud: PointCloud, points: number): PointCloud {
  const step = Math.max(1, Math.floor(cloud.count / points)), count = Math.floor(cloud.count / step);
  const thin = <T extends Float32Array | Uint8Array>(column: T, into: T): T => { for (let i = 0; i < count; i += 1) into[i] = column[i * step]!; return into; };
  const { x, y, z, red, green, blue, origin } = cloud;
  const places = { count, origin, x: thin(x, new Float32Array(count)), y: thin(y, new Float32Array(count)), z: thin(z, new Float32Array(count)) };
  if (red === undefined || green === undefined || blue === undefined) return places;
  return { ...places, red: thin(red, new Uint8Array(count)), green: thin(green, new Uint8Array(count)), blue: thin(blue, new Uint8Array(count)) };
}

/** The result, and the maps that it was read from: heights, cover and labels for the picture. */
export interface MeasuredScan {
  readonly result: ScanResult;
  readonly grid: CellGrid;
  readonly map: CoverMap;
  readonly labels: Labels;
  /** From file coordinates less the origin to the basin's frame, mm. */
  readonly toBasin: Transform;
}

/** A scan after all its points are in the field: rafts, cover, labels, plants. */
export interface FilledField {
  readonly field: HeightField;
  readonly grid: CellGrid;
  readonly pose: Pose;
  readonly points: number;
  readonly pointsInside: number;
  readonly coloured: boolean;
}

export function measureField(filled: FilledField, layout: BasinLayout, earlier: readonly EarlierPlant[]): Outcome<MeasuredScan> {
  const { field, grid, pose, points, pointsInside, coloured } = filled;
  const planes = raftPlanes(field, grid, layout);
  const map = coverMap(field, grid, layout, planes);
  const labels = floodLabels(map, grid, seedsOf(layout, plantReach(map, grid, layout, earlier)));
  const plants = measurePlants({ field, grid, map, noiseMm: meanNoise(planes) }, layout, labels);
  const result: ScanResult = {
    quality: { version: SCAN_VERSION, cellMm: grid.cellMm, unit: pose.unit, points, pointsInside, emptyShare: map.emptyShare, coloured, ...pose.quality,
      rafts: planes.map((plane, i) => raftQuality(plane, layout, i)) },
    plants,
  };
  const reasons = distrustScan(result, layout.rafts.reduce((sum, { sizeMm }) => sum + sizeMm[0] * sizeMm[1], 0));
  return reasons.length > 0 ? refused(reasons) : accepted({ result, grid, map, labels, toBasin: pose.toBasin });
}

/** Scatter of points on bare rafts; zero, so that nothing is corrected, where none is bare. */
function meanNoise(planes: readonly RaftPlane[]): number {
  const read = planes.filter((plane) => plane.from === 'bare');
  return read.length === 0 ? 0 : read.reduce((sum, plane) => sum + plane.noiseMm, 0) / read.length;
}

function raftQuality({ plane, bareCells, noiseMm, from }: RaftPlane, layout: BasinLayout, index: number): RaftQuality {
  const { id, centreMm } = layout.rafts[index]!;
  return { raft: id, heaveMm: planeAt(plane, ...centreMm), tiltDeg: Math.atan(Math.hypot(plane.slopeX, plane.slopeY)) * (180 / Math.PI), bareCells, ...(Number.isFinite(noiseMm) ? { noiseMm } : {}), plane: from };
}
