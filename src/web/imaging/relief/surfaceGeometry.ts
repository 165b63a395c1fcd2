import { BufferAttribute, BufferGeometry } from 'three';
import { heightMm, type HeightPicture } from '../picture/heightPicture.ts';

/** More corners than this draw no better from where people look and turn worse. */
const MOST_CORNERS = 110_000;

/** The height field as a mesh in mm; its texture is the picture from above. Corners take the mean of the cells about them. */
export function surfaceGeometry(picture: HeightPicture): BufferGeometry {
  const { columns, rows, cellMm, leftMm, nearMm } = picture;
  const step = Math.max(1, Math.ceil(Math.sqrt((columns * rows) / MOST_CORNERS)));
  const across = Math.ceil(columns / step), along = Math.ceil(rows / step);
  const places = new Float32Array(3 * across * along), texture = new Float32Array(2 * across * along), corners = new Uint32Array(6 * (across - 1) * (along - 1));
  for (let j = 0, at = 0; j < along; j += 1) {
    for (let i = 0; i < across; i += 1, at += 1) {
      const column = Math.min(columns - 1, i * step), row = Math.min(rows - 1, j * step);
      places.set([leftMm + (column + 0.5) * cellMm, nearMm + (row + 0.5) * cellMm, meanHeight(picture, column, row, step)], 3 * at);
      texture.set([(column + 0.5) / columns, (row + 0.5) / rows], 2 * at);
    }
  }
  for (let j = 0, at = 0; j < along - 1; j += 1) {
    for (let i = 0; i < across - 1; i += 1, at += 6) {
      const a = j * across + i, b = a + 1, c = a + across, d = c + 1;
      corners.set([a, b, d, a, d, c], at);
    }
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(places, 3)).setAttribute('uv', new BufferAttribute(texture, 2)).setIndex(new BufferAttribute(corners, 1));
  return geometry;
}

function meanHeight(picture: HeightPicture, column: number, row: number, step: number): number {
  let sum = 0, seen = 0;
  for (let j = Math.max(0, row - step); j <= Math.min(picture.rows - 1, row + step); j += 1) {
    for (let i = Math.max(0, column - step); i <= Math.min(picture.columns - 1, column + step); i += 1) {
      const height = heightMm(picture, j * picture.columns + i);
      if (height !== undefined) { sum += height; seen += 1; }
    }
  }
  return seen === 0 ? 0 : sum / seen;
}
