import type { RandomStream } from '../../science/seededRandom.ts';
import type { PlantType } from './growPlant.ts';
import { RAFT, RIM, WATER, type Mesh } from './mesh.ts';
import type { Paint } from './stereoScan.ts';

const LEAF_COLOUR: Record<PlantType, readonly [number, number, number]> = { butterhead: [95, 145, 52], red: [108, 60, 64], upright: [78, 128, 56], herb: [92, 142, 64] };

const YELLOW = [196, 178, 64];

/** A plant, and how far its leaves have turned yellow, 0 to 1. */
export interface Painted { readonly type: PlantType; readonly yellow?: number }

/** Colours: leaves shaded by their slope, algae on white rafts, grey rim, dark water. */
export function painter(random: RandomStream, plants: readonly Painted[], mesh: Mesh, innerMm: readonly [number, number]): Paint {
  const [x, y] = [innerMm[0] - 100, innerMm[1] - 100];
  const stains = Array.from({ length: 14 }, () => [x * (random.uniform() - 0.5), y * (random.uniform() - 0.5), 12 + 38 * random.uniform()] as const);
  return (triangle, owner, x, y) => {
    if (owner === RIM) return [112, 114, 120];
    if (owner === WATER) return [40, 52, 62];
    if (owner === RAFT) return stains.some(([cx, cy, radius]) => Math.hypot(x - cx, y - cy) < radius) ? [120, 150, 88] : [214, 216, 210];
    const shade = 0.7 + 0.35 * levelness(mesh, triangle);
    const { type, yellow = 0 } = plants[owner]!;
    return LEAF_COLOUR[type].map((value, k) => ((1 - yellow) * value + yellow * YELLOW[k]!) * shade) as [number, number, number];
  };
}

function levelness({ corners }: Mesh, t: number): number {
  const c = (k: number) => corners[t * 9 + k]!;
  const ux = c(3) - c(0), uy = c(4) - c(1), uz = c(5) - c(2), vx = c(6) - c(0), vy = c(7) - c(1), vz = c(8) - c(2);
  const nx = uy * vz - uz * vy, ny = uz * vx - ux * vz, nz = ux * vy - uy * vx;
  return Math.abs(nz) / Math.max(1e-9, Math.hypot(nx, ny, nz));
}
