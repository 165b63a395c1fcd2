import { seedFor, startRandom, type RandomStream } from '../../science/seededRandom.ts';
import type { BasinLayout } from '../../science/scan/basinLayout.ts';
import type { PointCloud } from '../../science/scan/pointCloud.ts';
import { drawDepth } from './depthImage.ts';
import { growPlant, growthAt, PLANT_TYPES, type PlantType, type Stage } from './growPlant.ts';
import { addQuad, emptyMesh, RAFT, RIM, WATER, type Corner, type Mesh } from './mesh.ts';
import { stereoScan, USUAL_RIG, type Paint, type StereoRig } from './stereoScan.ts';

export interface SceneRequest {
  readonly stage: Stage;
  readonly seed: number;
  readonly rig?: Partial<StereoRig>;
  /** Turn about the upward axis over the usual small one, radians. */
  readonly yawRad?: number;
  /** Which file axis is up. */
  readonly up?: 'z' | 'y' | '-z' | 'x';
  readonly offsetMm?: Corner;
  readonly unit?: 'm' | 'mm';
  /** Type of plant of each raft; otherwise one of each, over and over. */
  readonly types?: readonly PlantType[];
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
    if (!plant.empty) growPlant(mesh, owner, plant.type, growthAt(request.stage), startRandom(seedFor(request.seed, `plant ${owner}`)), ([x, y, z]) => rafts[plant.raft]!([x + plant.x, y + plant.y, z]));
  });
  const rig = { ...USUAL_RIG, ...request.rig };
  const found = stereoScan(mesh, layout.innerMm, rig, painter(random, plants.map((plant) => plant.type), mesh), request.seed);
  const { labels, visible } = seenFromAbove(mesh, plants.length);
  const truth = plants.map((plant, owner): PlantTruth => ({
    raft: plant.raft, position: plant.position, type: plant.type, empty: plant.empty, visibleMm2: visible[owner]!,
    ...(plant.empty ? { areaMm2: 0, volumeMm3: 0, heightP95Mm: 0 } : alone(mesh, owner, rafts[plant.raft]!)) }));
  return { cloud: moveToFile(found, request, random), layout, plants: truth, labels };
}

/** Width of the wall of a basin. */
const RIM_MM = 25;

type Placement = (corner: Corner) => Corner;

/** A raft that heaves, tilts and turns a little. */
function floatRaft([cx, cy]: readonly [number, number], random: RandomStream): Placement {
  const between = (most: number) => (2 * random.uniform() - 1) * most;
  const heave = between(3), tiltX = between(0.0087), tiltY = between(0.0087), yaw = between(0.0044), dx = between(2), dy = between(2);
  return ([x, y, z]) => [cx + dx + x - yaw * y, cy + dy + y + yaw * x, heave + tiltX * x + tiltY * y + z];
}

function buildBasin(mesh: Mesh, { innerMm, rimHeightMm, rafts: floating }: BasinLayout, rafts: readonly Placement[]): void {
  const [x, y] = [innerMm[0] / 2, innerMm[1] / 2];
  const plate = (owner: number, place: Placement, x0: number, y0: number, x1: number, y1: number, z: number) =>
    addQuad(mesh, owner, place([x0, y0, z]), place([x1, y0, z]), place([x1, y1, z]), place([x0, y1, z]));
  const fixed: Placement = (corner) => corner;
  plate(WATER, fixed, -x, -y, x, y, -20);
  rafts.forEach((raft, i) => { const [width, depth] = floating[i]!.sizeMm; plate(RAFT, raft, -width / 2, -depth / 2, width / 2, depth / 2, 0); });
  for (const [x0, y0, x1, y1] of [[-x - RIM_MM, -y - RIM_MM, x + RIM_MM, -y], [-x - RIM_MM, y, x + RIM_MM, y + RIM_MM], [-x - RIM_MM, -y, -x, y], [x, -y, x + RIM_MM, y]] as const) plate(RIM, fixed, x0, y0, x1, y1, rimHeightMm);
}

const LEAF_COLOUR: Record<PlantType, readonly [number, number, number]> = { butterhead: [95, 145, 52], red: [108, 60, 64], upright: [78, 128, 56], herb: [92, 142, 64] };

/** Colours: leaves shaded by their slope, algae on white rafts, grey rim, dark water. */
function painter(random: RandomStream, types: readonly PlantType[], mesh: Mesh): Paint {
  const stains = Array.from({ length: 14 }, () => [1200 * (random.uniform() - 0.5), 1200 * (random.uniform() - 0.5), 12 + 38 * random.uniform()] as const);
  return (triangle, owner, x, y) => {
    if (owner === RIM) return [112, 114, 120];
    if (owner === WATER) return [40, 52, 62];
    if (owner === RAFT) return stains.some(([cx, cy, radius]) => Math.hypot(x - cx, y - cy) < radius) ? [120, 150, 88] : [214, 216, 210];
    const shade = 0.7 + 0.35 * levelness(mesh, triangle);
    return LEAF_COLOUR[types[owner]!].map((value) => value * shade) as [number, number, number];
  };
}

function levelness({ corners }: Mesh, t: number): number {
  const c = (k: number) => corners[t * 9 + k]!;
  const ux = c(3) - c(0), uy = c(4) - c(1), uz = c(5) - c(2), vx = c(6) - c(0), vy = c(7) - c(1), vz = c(8) - c(2);
  const nx = uy * vz - uz * vy, ny = uz * vx - ux * vz, nz = ux * vy - uy * vx;
  return Math.abs(nz) / Math.max(1e-9, Math.hypot(nx, ny, nz));
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

/** The basin stands a little off and tilted; the file has its own axes, offset and unit. */
function moveToFile(found: readonly number[], request: SceneRequest, random: RandomStream): PointCloud {
  const between = (most: number) => (2 * random.uniform() - 1) * most;
  const yaw = (request.yawRad ?? 0) + between(0.026), tiltX = between(0.021), tiltY = between(0.021), dx = between(15), dy = between(15), dz = between(15);
  const [ox, oy, oz] = request.offsetMm ?? [0, 0, 0];
  const unit = request.unit === 'm' ? 0.001 : 1;
  const count = found.length / 6;
  const cloud = { count, origin: [0, 0, 0] as const, x: new Float32Array(count), y: new Float32Array(count), z: new Float32Array(count), red: new Uint8Array(count), green: new Uint8Array(count), blue: new Uint8Array(count) };
  const c = Math.cos(yaw), s = Math.sin(yaw), cx = Math.cos(tiltX), sx = Math.sin(tiltX), cy = Math.cos(tiltY), sy = Math.sin(tiltY);
  for (let i = 0; i < count; i += 1) {
    const [px, py, pz, red, green, blue] = found.slice(i * 6, i * 6 + 6) as [number, number, number, number, number, number];
    const x1 = c * px - s * py, y1 = s * px + c * py;
    const y2 = cx * y1 - sx * pz, z2 = sx * y1 + cx * pz;
    const x3 = cy * x1 + sy * z2 + dx, z3 = cy * z2 - sy * x1 + dz, y3 = y2 + dy;
    const [fx, fy, fz] = request.up === 'y' ? [x3, z3, -y3] : request.up === '-z' ? [x3, -y3, -z3] : request.up === 'x' ? [z3, y3, -x3] : [x3, y3, z3];
    cloud.x[i] = (fx + ox) * unit; cloud.y[i] = (fy + oy) * unit; cloud.z[i] = (fz + oz) * unit;
    cloud.red[i] = red; cloud.green[i] = green; cloud.blue[i] = blue;
  }
  return cloud;
}
