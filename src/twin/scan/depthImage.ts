import type { Mesh } from './mesh.ts';

/** What a camera, or a view from straight above, sees in each pixel. */
export interface DepthImage {
  readonly width: number;
  readonly height: number;
  /** Nearness: larger hides smaller. 1/depth for a camera, height for a view from above. -Infinity where nothing is. */
  readonly near: Float32Array;
  /** Triangle seen; -1 for none. */
  readonly triangle: Int32Array;
}

/** Where a corner falls: column and row in pixels (centres at .5) and nearness, which is linear across a triangle in the image. */
export type Projection = (x: number, y: number, z: number, into: Float64Array) => void;

/** Draws the triangles that `wanted` says into a depth image. */
export function drawDepth(mesh: Mesh, width: number, height: number, project: Projection, wanted: (triangle: number) => boolean = () => true): DepthImage {
  const near = new Float32Array(width * height).fill(-Infinity), triangle = new Int32Array(width * height).fill(-1);
  const a = new Float64Array(3), b = new Float64Array(3), c = new Float64Array(3);
  const { corners } = mesh;
  for (let t = 0; t < mesh.owners.length; t += 1) {
    if (!wanted(t)) continue;
    const at = t * 9;
    project(corners[at]!, corners[at + 1]!, corners[at + 2]!, a);
    project(corners[at + 3]!, corners[at + 4]!, corners[at + 5]!, b);
    project(corners[at + 6]!, corners[at + 7]!, corners[at + 8]!, c);
    fill(t, a, b, c, width, height, near, triangle);
  }
  return { width, height, near, triangle };
}

function fill(t: number, a: Float64Array, b: Float64Array, c: Float64Array, width: number, height: number, near: Float32Array, triangle: Int32Array): void {
  const [ax, ay, an] = a as unknown as [number, number, number], [bx, by, bn] = b as unknown as [number, number, number], [cx, cy, cn] = c as unknown as [number, number, number];
  const area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
  if (Math.abs(area) < 1e-9) return;
  const left = Math.max(0, Math.ceil(Math.min(ax, bx, cx) - 0.5)), right = Math.min(width - 1, Math.floor(Math.max(ax, bx, cx) - 0.5));
  const top = Math.max(0, Math.ceil(Math.min(ay, by, cy) - 0.5)), bottom = Math.min(height - 1, Math.floor(Math.max(ay, by, cy) - 0.5));
  for (let row = top; row <= bottom; row += 1) {
    for (let column = left; column <= right; column += 1) {
      const x = column + 0.5, y = row + 0.5;
      const v = ((x - ax) * (cy - ay) - (cx - ax) * (y - ay)) / area, w = ((bx - ax) * (y - ay) - (x - ax) * (by - ay)) / area;
      if (v < 0 || w < 0 || v + w > 1) continue;
      const nearness = an + v * (bn - an) + w * (cn - an);
      const pixel = row * width + column;
      if (nearness <= near[pixel]!) continue;
      near[pixel] = nearness;
      triangle[pixel] = t;
    }
  }
}
