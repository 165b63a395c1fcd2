import type { HeightPicture } from './heightPicture.ts';

/** Light from the upper left, half way up: the usual light of shaded maps. */
const LIGHT = [-0.5, 0.5, Math.SQRT1_2] as const;
/** Slopes are drawn flatter than they are: a canopy is steep everywhere, and the noise of single cells is steep too. */
const FLATTEN = 0.35;
/** Raft beside a tall plant would be black or white otherwise. */
const [DARKEST, BRIGHTEST] = [0.45, 1.12];

/**
 * How brightly each cell is lit, about 1 on the level. Slopes by differences weighted 1, 2, 1, and a surface that scatters evenly
 * (B.K.P. Horn 1981, "Hill shading and the reflectance map", Proc. IEEE 69:14-47). Cells that were not seen take no part.
 */
export function shadeOf(picture: HeightPicture): Float32Array {
  const { columns, rows, cellMm, heights, heightStepMm } = picture;
  const shade = new Float32Array(columns * rows).fill(1);
  const scale = (FLATTEN * heightStepMm) / (8 * cellMm);
  for (let row = 1; row < rows - 1; row += 1) {
    for (let column = 1; column < columns - 1; column += 1) {
      const at = row * columns + column, own = heights[at]!;
      if (own === 0) continue;
      const h = (cell: number): number => heights[cell]! || own;
      const [sw, s, se, w, e, nw, n, ne] = [h(at - columns - 1), h(at - columns), h(at - columns + 1), h(at - 1), h(at + 1), h(at + columns - 1), h(at + columns), h(at + columns + 1)];
      const dx = scale * (ne + 2 * e + se - nw - 2 * w - sw), dy = scale * (nw + 2 * n + ne - sw - 2 * s - se);
      const lit = (LIGHT[2] - dx * LIGHT[0] - dy * LIGHT[1]) / Math.sqrt(1 + dx * dx + dy * dy);
      shade[at] = Math.min(BRIGHTEST, DARKEST + (1 - DARKEST) * (Math.max(0, lit) / LIGHT[2]));
    }
  }
  return shade;
}
