import type { BasinLayout } from '../../science/scan/basinLayout.ts';
import type { PointCloud } from '../../science/scan/pointCloud.ts';
import { seedFor, startRandom } from '../../science/seededRandom.ts';
import { buildBasin, floatRaft } from './basinMesh.ts';
import { growPlant, type Growth, type PlantType } from './growPlant.ts';
import { emptyMesh } from './mesh.ts';
import { moveToFile } from './moveToFile.ts';
import { painter } from './painter.ts';
import { stereoScan, USUAL_RIG } from './stereoScan.ts';

/** A plant that is there to be scanned. */
export interface GrownPlant {
  /** Index of its position: rafts of the layout one after another. */
  readonly place: number;
  readonly type: PlantType;
  readonly growth: Growth;
  /** How far its leaves have turned yellow, 0 to 1. */
  readonly yellow?: number;
}

export interface GrownScan {
  readonly layout: BasinLayout;
  readonly plants: readonly GrownPlant[];
  /** The same seed and place give the same plant at every size. */
  readonly plantSeed: number;
  /** Rafts, pose and noise of this one scan. */
  readonly scanSeed: number;
  /** Size of a pixel on the rafts: fewer points when larger. */
  readonly pixelMm: number;
}

/** Litres between raft and leaves of a green rosette of size 1, measured on scenes of the generator (mean of 12 plants); others differ by a third. */
const LITRES_AT_ONE = 0.44;

/** The growth at which a plant of the generator has about so many litres of canopy: lengths go with the cube root. */
export function growthOfLitres(litres: number): Growth {
  const size = Math.cbrt(litres / LITRES_AT_ONE);
  return { size, leaves: size < 1 ? Math.max(0.3, 0.6 + ((size - 0.55) * 0.4) / 0.45) : 1 + (size - 1) * 0.4 };
}

/** What the cameras of an imaging station see of a basin with these plants. */
export function scanGrown({ layout, plants, plantSeed, scanSeed, pixelMm }: GrownScan): PointCloud {
  const random = startRandom(scanSeed), mesh = emptyMesh();
  const rafts = layout.rafts.map((raft) => floatRaft(raft.centreMm, random));
  buildBasin(mesh, layout, rafts);
  const places = layout.rafts.flatMap(({ positions }, raft) => positions.map(({ xMm, yMm }) => ({ raft, xMm, yMm })));
  plants.forEach(({ place, type, growth }, owner) => {
    const { raft, xMm, yMm } = places[place]!;
    growPlant(mesh, owner, type, growth, startRandom(seedFor(plantSeed, `plant ${place}`)), ([x, y, z]) => rafts[raft]!([x + xMm, y + yMm, z]));
  });
  const found = stereoScan(mesh, layout.innerMm, { ...USUAL_RIG, pixelMm, overlapMm: 140 }, painter(random, plants, mesh, layout.innerMm), scanSeed);
  return moveToFile(found, {}, random);
}
