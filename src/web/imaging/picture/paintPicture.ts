import type { HeightPicture } from './heightPicture.ts';
import type { Rgb } from './ramp.ts';

/** What gives the colour of a cell: the camera where nothing is named, a level on a scale, or the plant it belongs to. */
export interface Paint {
  readonly levels?: Levels;
  /** Of each plant in the order of the scan; undefined where it cannot be told. */
  readonly ofPlants?: readonly (Rgb | undefined)[];
}

/** A level of 0 to 255 for each cell, -1 where it cannot be told, and the 256 colours of the scale. */
export interface Levels { readonly ofCells: Int16Array; readonly colours: Uint8Array }

const UNSEEN: Rgb = [233, 228, 214];
const BARE: Rgb = [244, 241, 232];
const UNTOLD: Rgb = [196, 196, 190];
/** How much darker the cells between two plants are drawn. */
const EDGE = 0.6;

/** The picture from above as RGBA, a pixel a cell, far side first as a screen wants it. */
export function paintPicture(picture: HeightPicture, shade: Float32Array, paint: Paint): Uint8ClampedArray<ArrayBuffer> {
  const { columns, rows, heights, labels } = picture;
  const pixels = new Uint8ClampedArray(4 * columns * rows);
  const colour: Colour = [0, 0, 0];
  const fill = filler(picture, paint);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const cell = row * columns + column, to = 4 * ((rows - 1 - row) * columns + column);
      // Where a plant gives the colour, its cells have it even where the camera saw none of their points.
      const seen = heights[cell] !== 0 || (paint.ofPlants !== undefined && labels[cell] !== 0);
      if (seen) fill(cell, colour);
      else set(colour, UNSEEN);
      const light = !seen ? 1 : paint.ofPlants !== undefined && isEdge(labels, cell, columns) ? EDGE * shade[cell]! : shade[cell]!;
      for (let k = 0; k < 3; k += 1) pixels[to + k] = colour[k]! * light;
      pixels[to + 3] = 255;
    }
  }
  return pixels;
}

type Colour = [number, number, number];
const set = (colour: Colour, [r, g, b]: Rgb): void => { colour[0] = r; colour[1] = g; colour[2] = b; };

/** Writes the colour of a cell that was seen. */
function filler({ labels, colours }: HeightPicture, { levels, ofPlants }: Paint): (cell: number, colour: Colour) => void {
  if (levels !== undefined) {
    return (cell, colour) => {
      const level = levels.ofCells[cell]!;
      if (level < 0) set(colour, UNTOLD);
      else for (let k = 0; k < 3; k += 1) colour[k] = levels.colours[3 * level + k]!;
    };
  }
  if (ofPlants !== undefined) return (cell, colour) => set(colour, labels[cell] === 0 ? BARE : ofPlants[labels[cell]! - 1] ?? UNTOLD);
  return (cell, colour) => { for (let k = 0; k < 3; k += 1) colour[k] = colours[3 * cell + k]!; };
}

function isEdge(labels: Uint16Array, cell: number, columns: number): boolean {
  const [own, right, far] = [labels[cell]!, labels[cell + 1] ?? 0, labels[cell + columns] ?? 0];
  return own !== 0 && ((right !== 0 && right !== own) || (far !== 0 && far !== own));
}
