import type { RandomStream } from '../../science/seededRandom.ts';
import type { PointCloud } from '../../science/scan/pointCloud.ts';
import type { Corner } from './mesh.ts';

/** How a file holds the points. */
export interface FileAxes {
  /** Turn about the upward axis over the usual small one, radians. */
  readonly yawRad?: number;
  /** Which file axis is up. */
  readonly up?: 'z' | 'y' | '-z' | 'x';
  readonly offsetMm?: Corner;
  readonly unit?: 'm' | 'mm';
}

/** The basin stands a little off and tilted; the file has its own axes, offset and unit. */
export function moveToFile(found: readonly number[], request: FileAxes, random: RandomStream): PointCloud {
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
