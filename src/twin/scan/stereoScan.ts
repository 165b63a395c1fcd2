import { startRandom, seedFor, type RandomStream } from '../../science/seededRandom.ts';
import { drawDepth, type DepthImage, type Projection } from './depthImage.ts';
import { WATER, type Mesh } from './mesh.ts';

/** Stereo pairs over a basin: their geometry and faults. */
export interface StereoRig {
  readonly cameraMm: number;
  readonly baseMm: number;
  /** Size of a pixel on the rafts. */
  readonly pixelMm: number;
  /** How far past the middle of the basin the images of a pair reach, at the height of the rafts. */
  readonly overlapMm: number;
  /** White and correlated disparity noise, pixels. */
  readonly noisePx: number;
  readonly correlatedPx: number;
  /** Share of points that lie anywhere. */
  readonly strays: number;
  /** Share of points lost in patches. */
  readonly patchLoss: number;
}

/** Images reach past the middle as far as the first pair's points do in the shared scene. */
export const USUAL_RIG: StereoRig = { cameraMm: 1150, baseMm: 120, pixelMm: 0.8, overlapMm: 228, noisePx: 0.16, correlatedPx: 0.1, strays: 0.002, patchLoss: 0.1 };

/** Points in the basin's frame with colours, six numbers a point: x, y, z in mm, red, green, blue 0 to 255. */
export type ScenePoints = number[];

export type Paint = (triangle: number, owner: number, x: number, y: number) => readonly [number, number, number];

/**
 * What four stereo pairs over the quarters of a basin see: hidden from either eye is lost, disparity is noisy, half of the pixels beside
 * a nearer thing take its depth (the fattening of block matching), some of them lie between, most of the water is lost, patches are
 * missing, each pair is a little out of register.
 */
export function stereoScan(mesh: Mesh, innerMm: readonly [number, number], rig: StereoRig, paint: Paint, seed: number): ScenePoints {
  const points: ScenePoints = [];
  for (const [k, sx, sy] of [[0, -1, -1], [1, 1, -1], [2, -1, 1], [3, 1, 1]] as const) {
    onePair(mesh, (sx * innerMm[0]) / 4, (sy * innerMm[1]) / 4, innerMm, rig, paint, startRandom(seedFor(seed, `pair ${k}`)), points);
  }
  return points;
}

function onePair(mesh: Mesh, atX: number, atY: number, innerMm: readonly [number, number], rig: StereoRig, paint: Paint, random: RandomStream, points: ScenePoints): void {
  const focal = rig.cameraMm / rig.pixelMm;
  const size = innerMm.map((inner) => Math.round((inner / 2 + 2 * rig.overlapMm) / rig.pixelMm)) as [number, number];
  const eye = (shift: number): Projection => (x, y, z, into) => {
    const depth = rig.cameraMm - z;
    into[0] = (focal * (x - atX - shift)) / depth + size[0] / 2; into[1] = (focal * (y - atY)) / depth + size[1] / 2; into[2] = 1 / depth;
  };
  const reach = [0, 1].map((k) => innerMm[k]! / 4 + rig.overlapMm + 120);
  const near = (t: number) => mesh.owners[t]! < 0 || (Math.abs(mesh.corners[t * 9]! - atX) < reach[0]! && Math.abs(mesh.corners[t * 9 + 1]! - atY) < reach[1]!);
  const left = drawDepth(mesh, ...size, eye(-rig.baseMm / 2), near), right = drawDepth(mesh, ...size, eye(rig.baseMm / 2), near);
  const off = [0, 1, 2].map(() => 0.35 * random.normal());
  const ripple = smoothNoise(size, 6, random), patch = smoothNoise(size, Math.max(4, 40 / rig.pixelMm), random);
  const seen = new Float64Array(3);
  for (let row = 1; row < size[1] - 1; row += 1) {
    for (let column = 1; column < size[0] - 1; column += 1) {
      const pixel = row * size[0] + column, triangle = left.triangle[pixel]!;
      if (triangle < 0) continue;
      const owner = mesh.owners[triangle]!;
      if (owner === WATER && random.uniform() < 0.75) continue;
      if (patch[pixel]! > 2.2 - 6 * rig.patchLoss && random.uniform() < 0.8) continue;
      const depth = 1 / left.near[pixel]!;
      const trueX = atX - rig.baseMm / 2 + ((column + 0.5 - size[0] / 2) * depth) / focal, trueY = atY + ((row + 0.5 - size[1] / 2) * depth) / focal;
      if (hidden(right, trueX, trueY, rig.cameraMm - depth, eye(rig.baseMm / 2), seen)) continue;
      const disparity = focal * rig.baseMm * (1 / matchedDepth(left, pixel, depth, random)) + rig.noisePx * random.normal() + rig.correlatedPx * ripple[pixel]!;
      const found = (focal * rig.baseMm) / disparity;
      const stray = random.uniform() < rig.strays;
      const z = stray ? -110 + 400 * random.uniform() : rig.cameraMm - found;
      const x = atX - rig.baseMm / 2 + ((column + 0.5 - size[0] / 2) * found) / focal, y = atY + ((row + 0.5 - size[1] / 2) * found) / focal;
      points.push(x + off[0]!, y + off[1]!, z + off[2]!, ...paint(triangle, owner, trueX, trueY).map((value) => Math.max(0, Math.min(255, value + 6 * random.normal()))));
    }
  }
}

/** Depth that matching finds: at the edge of something nearer, half of the pixels take its depth, a tenth lie between. */
function matchedDepth(image: DepthImage, pixel: number, depth: number, random: RandomStream): number {
  const nearest = Math.max(image.near[pixel - 1]!, image.near[pixel + 1]!, image.near[pixel - image.width]!, image.near[pixel + image.width]!);
  if (!(nearest > 0) || depth - 1 / nearest < 12) return depth;
  const luck = random.uniform();
  return luck < 0.5 ? 1 / nearest : luck < 0.6 ? depth + random.uniform() * (1 / nearest - depth) : depth;
}

function hidden(image: DepthImage, x: number, y: number, z: number, project: Projection, seen: Float64Array): boolean {
  project(x, y, z, seen);
  const column = Math.floor(seen[0]!), row = Math.floor(seen[1]!);
  if (column < 0 || row < 0 || column >= image.width || row >= image.height) return true;
  const nearest = image.near[row * image.width + column]!;
  return nearest > 0 && 1 / seen[2]! - 1 / nearest > 8;
}

/** Standard normal values that hang together over some pixels. */
function smoothNoise([width, height]: readonly [number, number], reach: number, random: RandomStream): Float32Array {
  const columns = Math.ceil(width / reach) + 2, rows = Math.ceil(height / reach) + 2;
  const nodes = Float32Array.from({ length: columns * rows }, () => random.normal());
  const noise = new Float32Array(width * height);
  for (let row = 0; row < height; row += 1) {
    const r = row / reach, r0 = Math.floor(r), fr = r - r0;
    for (let column = 0; column < width; column += 1) {
      const c = column / reach, c0 = Math.floor(c), fc = c - c0, at = r0 * columns + c0;
      const low = nodes[at]! * (1 - fc) + nodes[at + 1]! * fc, high = nodes[at + columns]! * (1 - fc) + nodes[at + columns + 1]! * fc;
      // 1.5 makes up for what averaging of four nodes takes from the spread.
      noise[row * width + column] = 1.5 * (low * (1 - fr) + high * fr);
    }
  }
  return noise;
}
