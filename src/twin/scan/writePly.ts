import type { PointCloud } from '../../science/scan/pointCloud.ts';

/** Binary little-endian PLY of a cloud, 15 bytes a point; repeated with a shift far below a cell until `atLeast` points are reached. */
export function writePly(cloud: PointCloud, atLeast = cloud.count): Buffer {
  const { x, y, z, red, green, blue } = cloud as Required<PointCloud>;
  const head = Buffer.from(`ply\nformat binary_little_endian 1.0\nelement vertex ${atLeast}\nproperty float x\nproperty float y\nproperty float z\nproperty uchar red\nproperty uchar green\nproperty uchar blue\nend_header\n`);
  const file = Buffer.alloc(head.length + atLeast * 15);
  head.copy(file);
  for (let k = 0, at = head.length; k < atLeast; k += 1, at += 15) {
    const i = Math.floor((k * cloud.count) / atLeast);
    const shift = (k % 7) * 0.05 * (Math.abs(x[i]!) < 2 ? 0.001 : 1);
    file.writeFloatLE(x[i]! + shift, at); file.writeFloatLE(y[i]! - shift, at + 4); file.writeFloatLE(z[i]!, at + 8);
    file[at + 12] = red[i]!; file[at + 13] = green[i]!; file[at + 14] = blue[i]!;
  }
  return file;
}
