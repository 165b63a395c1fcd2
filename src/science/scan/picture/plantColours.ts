import type { Labels } from '../floodLabels.ts';
import { COLOUR_STRIDE, type CellColours } from './cellColours.ts';

/** Mean colour of a plant's leaves, 0 to 255 each. */
export interface LeafColour { readonly red: number; readonly green: number; readonly blue: number }

/** Mean colour of the plant-coloured points of each plant, in the order of the labels; undefined where a plant has none. */
export function plantColours({ sums }: CellColours, { label, present }: Labels): (LeafColour | undefined)[] {
  const totals = new Float64Array(present.length * 4);
  for (let cell = 0; cell < label.length; cell += 1) {
    const plant = label[cell]!;
    if (plant < 0) continue;
    const at = cell * COLOUR_STRIDE, into = plant * 4;
    totals[into]! += sums[at]!; totals[into + 1]! += sums[at + 2]!; totals[into + 2]! += sums[at + 3]!; totals[into + 3]! += sums[at + 4]!;
  }
  return present.map((_, plant) => {
    const [points, red, green, blue] = totals.subarray(plant * 4, plant * 4 + 4) as unknown as [number, number, number, number];
    return points > 0 ? { red: red / points, green: green / points, blue: blue / points } : undefined;
  });
}
