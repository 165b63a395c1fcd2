import type { RandomStream } from '../../science/seededRandom.ts';
import type { BasinLayout } from '../../science/scan/basinLayout.ts';
import { addQuad, RAFT, RIM, WATER, type Corner, type Mesh } from './mesh.ts';

/** Brings coordinates of a raft into the basin. */
export type Placement = (corner: Corner) => Corner;

/** A raft that heaves, tilts and turns a little. */
export function floatRaft([cx, cy]: readonly [number, number], random: RandomStream): Placement {
  const between = (most: number) => (2 * random.uniform() - 1) * most;
  const heave = between(3), tiltX = between(0.0087), tiltY = between(0.0087), yaw = between(0.0044), dx = between(2), dy = between(2);
  return ([x, y, z]) => [cx + dx + x - yaw * y, cy + dy + y + yaw * x, heave + tiltX * x + tiltY * y + z];
}

/** Water, rafts and a rim of 25 mm around the inside. */
export function buildBasin(mesh: Mesh, { innerMm, rimHeightMm, rafts: layouts }: BasinLayout, rafts: readonly Placement[]): void {
  const plate = (owner: number, place: Placement, x0: number, y0: number, x1: number, y1: number, z: number) =>
    addQuad(mesh, owner, place([x0, y0, z]), place([x1, y0, z]), place([x1, y1, z]), place([x0, y1, z]));
  const fixed: Placement = (corner) => corner;
  const x = innerMm[0] / 2, y = innerMm[1] / 2;
  plate(WATER, fixed, -x, -y, x, y, -20);
  rafts.forEach((raft, i) => {
    const [u, v] = layouts[i]!.sizeMm;
    plate(RAFT, raft, -u / 2, -v / 2, u / 2, v / 2, 0);
  });
  for (const [x0, y0, x1, y1] of [[-x - 25, -y - 25, x + 25, -y], [-x - 25, y, x + 25, y + 25], [-x - 25, -y, -x, y], [x, -y, x + 25, y]] as const) plate(RIM, fixed, x0, y0, x1, y1, rimHeightMm);
}
