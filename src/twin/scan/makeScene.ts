import { seedFor, startRandom } from '../../science/seededRandom.ts';
import type { BasinLayout } from '../../science/scan/basinLayout.ts';
import type { PointCloud } from '../../science/scan/pointCloud.ts';
import { drawDepth } from './depthImage.ts';
import { growPlant, growthAt, PLANT_TYPES, type Build, type PlantType, type Stage } from './growPlant.ts';
import { buildBasin, floatRaft, type Placement } from './basinMesh.ts';
import { emptyMesh, type Mesh } from './mesh.ts';
import { moveToFile, type FileAxes } from './moveToFile.ts';
import { painter } from './painter.ts';
import { stereoScan, USUAL_RIG, type StereoRig } from './stereoScan.ts';

export interface SceneRequest extends FileAxes {
  readonly stage: Stage;
  readonly seed: number;
  readonly rig?: Partial<StereoRig>;
  /** Type of plant of each raft; otherwise one of each, over and over. */
  readonly types?: readonly PlantType[];
  /** How plants are built; leafy where absent. */
  readonly build?: Build;
  /** The shared scene's where absent. `labels` and `visibleMm2` reach 800 mm from the middle, whatever the layout. */
  readonly layout?: BasinLayout;
}

/** One planting position as it is. */
export interface PlantTruth {
  readonly raft: number;
  readonly position: number;
  readonly type: PlantType;
  readonly empty: boolean;
  /** Alone, seen from above over 1 mm cells. */
  readonly areaMm2: number;
  readonly volumeMm3: number;
  readonly heightP95Mm: number;
  /** What of it the others leave visible from above. */
  readonly visibleMm2: number;
}

export interface Scene {
  readonly cloud: PointCloud;
  readonly layout: BasinLayout;
  readonly plants: readonly PlantTruth[];
  /** Plant seen from above in each cell of 2 mm, -1 none; 800 x 800 cells about the basin's middle. */
  readonly labels: Int16Array;
}

export const LABEL_SIDE = 800;
export const LABEL_MM = 2;

export const SCENE_LAYOUT: BasinLayout = {
  rimHeightMm: 60, innerMm: [1300, 1300],
  rafts: [[-321, -321], [321, -321], [-321, 321], [321, 321]].map(([x, y], id) => ({
    id, centreMm: [x!, y!] as const, sizeMm: [630, 630] as const,
    positions: Array.from({ length: 16 }, (_, i) => ({ id: id * 16 + i, xMm: -225 + 150 * (i % 4), yMm: -225 + 150 * Math.floor(i / 4) })),
  })),
};

/** A basin of the shared scene's build with plants of this stage, scanned, with the truth about every plant. Same request, same scene. */
export function makeScene(request: SceneRequest): Scene {
  const random = startRandom(seedFor(request.seed, request.stage));
  const mesh = emptyMesh();
  const { layout = SCENE_LAYOUT } = request;
  const rafts = layout.rafts.map((raft) => floatRaft(raft.centreMm, random));
  buildBasin(mesh, layout, rafts);
  const plants = layout.rafts.flatMap((raft, r) => raft.positions.map((position, p) => ({
    raft: r, position: p, type: request.types?.[r] ?? PLANT_TYPES[r % PLANT_TYPES.length]!, empty: random.uniform() < 0.06, x: position.xMm, y: position.yMm })));
  plants.forEach((plant, owner) => {
    if (!plant.empty) growPlant(mesh, owner, plant.type, growthAt(request.stage, request.build), startRandom(seedFor(request.seed, `plant ${owner}`)), ([x, y, z]) => rafts[plant.raft]!([x + plant.x, y + plant.y, z]));
  });
  const rig = { ...USUAL_RIG, ...request.rig };
  const found = stereoScan(mesh, layout.innerMm, rig, painter(random, plants.map(({ type }) => ({ type })), mesh, layout.innerMm), request.seed);
  const { labels, visible } = seenFromAbove(mesh, plants.length);
  const truth = plants.map((plant, owner): PlantTruth => ({
    raft: plant.raft, position: plant.position, type: plant.type, empty: plant.empty, visibleMm2: visible[owner]!,
    ...(plant.empty ? { areaMm2: 0, volumeMm3: 0, heightP95Mm: 0 } : alone(mesh, owner, rafts[plant.raft]!)) }));
  return { cloud: moveToFile(found, request, random), layout, plants: truth, labels };
}

function seenFromAbove(mesh: Mesh, plants: number): { labels: Int16Array; visible: number[] } {
  const half = LABEL_SIDE / 2;
  const image = drawDepth(mesh, LABEL_SIDE, LABEL_SIDE, (x, y, z, into) => { into[0] = x / LABEL_MM + half; into[1] = y / LABEL_MM + half; into[2] = z; });
  const visible = new Array<number>(plants).fill(0);
  const labels = Int16Array.from(image.triangle, (t) => {
    const owner = t < 0 ? -1 : mesh.owners[t]!;
    if (owner >= 0) visible[owner]! += LABEL_MM * LABEL_MM;
    return Math.max(-1, owner);
  });
  return { labels, visible };
}

const ALONE_SIDE = 480;

/** The plant by itself over 1 mm cells, heights over its own raft. */
function alone(mesh: Mesh, owner: number, raft: Placement): { areaMm2: number; volumeMm3: number; heightP95Mm: number } {
  const first = mesh.owners.indexOf(owner), last = mesh.owners.lastIndexOf(owner);
  const part: Mesh = { corners: mesh.corners.slice(first * 9, last * 9 + 9), owners: mesh.owners.slice(first, last + 1) };
  const [cx, cy] = [0, 1].map((k) => { let sum = 0; for (let i = k; i < part.corners.length; i += 3) sum += part.corners[i]!; return sum / (part.corners.length / 3); }) as [number, number];
  const [x0, y0, z0] = raft([0, 0, 0]), [x1, , z1] = raft([1, 0, 0]), [, y2, z2] = raft([0, 1, 0]);
  const base = (x: number, y: number) => z0 + ((x - x0) * (z1 - z0)) / (x1 - x0) + ((y - y0) * (z2 - z0)) / (y2 - y0);
  const image = drawDepth(part, ALONE_SIDE, ALONE_SIDE, (x, y, z, into) => { into[0] = x - cx + ALONE_SIDE / 2; into[1] = y - cy + ALONE_SIDE / 2; into[2] = z - base(x, y); });
  const heights = image.near.filter((height) => height > -Infinity).sort();
  return { areaMm2: heights.length, volumeMm3: heights.reduce((sum, height) => sum + height, 0), heightP95Mm: heights[Math.floor(0.95 * heights.length)] ?? 0 };
}
