import { cellAt, heightMm, type HeightPicture } from '../picture/heightPicture.ts';

type Vector = readonly [x: number, y: number, z: number];

/** Nothing stands higher than this over the rafts. */
const HIGHEST_MM = 900;
const STEPS = 4000;

/** The first cell that a ray meets, going in steps of half a cell; undefined where it meets none. Cells that were not seen are level with the raft. */
export function hitHeights(picture: HeightPicture, eye: Vector, towards: Vector): number | undefined {
  const length = Math.hypot(...towards);
  const [dx, dy, dz] = towards.map((part) => part / length) as unknown as Vector;
  const entry = eye[2] > HIGHEST_MM && dz < 0 ? (HIGHEST_MM - eye[2]) / dz : 0;
  for (let step = 0; step < STEPS; step += 1) {
    const far = entry + step * (picture.cellMm / 2), z = eye[2] + far * dz;
    if (z < -100) return undefined;
    const cell = cellAt(picture, eye[0] + far * dx, eye[1] + far * dy);
    if (cell !== undefined && z <= (heightMm(picture, cell) ?? 0)) return cell;
  }
  return undefined;
}
