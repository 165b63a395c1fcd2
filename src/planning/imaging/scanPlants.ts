import type { PlantColumns, PositionColumns, ScanMeasured } from '../../greenhouse/scanEvents.ts';
import type { PlantFigures } from '../../science/scan/plantFigures.ts';
import type { LeafColour } from '../../science/scan/picture/plantColours.ts';

/** One plant of a scan as the journal holds it. */
export interface ScanPlant extends PlantFigures {
  readonly raft: number;
  readonly position: number;
  readonly xMm: number;
  readonly yMm: number;
  readonly colour?: LeafColour;
  readonly mass?: { readonly freshG: number; readonly lowG: number; readonly highG: number };
}

export const placeName = ({ raft, position }: { readonly raft: number; readonly position: number }): string => `${raft}/${position}`;

/** The plants of a scan, one by one. */
export function scanPlants({ plants }: Pick<ScanMeasured, 'plants'>): ScanPlant[] {
  const { raft, position, xMm, yMm, areaMm2, volumeMm3, heightP95Mm, heightMaxMm, diameterMm, sharedOutline, points, colour, mass } = plants;
  return raft.map((_, i) => ({
    raft: raft[i]!, position: position[i]!, xMm: xMm[i]!, yMm: yMm[i]!, areaMm2: areaMm2[i]!, volumeMm3: volumeMm3[i]!, heightP95Mm: heightP95Mm[i]!,
    heightMaxMm: heightMaxMm[i]!, diameterMm: diameterMm[i]!, sharedOutline: sharedOutline[i]!, points: points[i]!,
    ...(colour === undefined ? {} : { colour: { red: colour.red[i]!, green: colour.green[i]!, blue: colour.blue[i]! } }),
    ...(mass === undefined ? {} : { mass: { freshG: mass.freshG[i]!, lowG: mass.lowG[i]!, highG: mass.highG[i]! } }),
  }));
}

/** Plants as columns, figures cut to what they are worth. Colours and masses are kept where every plant has them. */
export function plantColumns(plants: readonly ScanPlant[]): PlantColumns {
  const column = (valueOf: (plant: ScanPlant) => number, digits: number) => plants.map((plant) => Number(valueOf(plant).toFixed(digits)));
  const coloured = plants.length > 0 && plants.every(({ colour }) => colour !== undefined), weighed = plants.length > 0 && plants.every(({ mass }) => mass !== undefined);
  return {
    ...positionColumns(plants),
    areaMm2: column(({ areaMm2 }) => areaMm2, 0), volumeMm3: column(({ volumeMm3 }) => volumeMm3, 0), heightP95Mm: column(({ heightP95Mm }) => heightP95Mm, 1),
    heightMaxMm: column(({ heightMaxMm }) => heightMaxMm, 1), diameterMm: column(({ diameterMm }) => diameterMm, 1), sharedOutline: column(({ sharedOutline }) => sharedOutline, 3), points: column(({ points }) => points, 0),
    ...(coloured ? { colour: { red: column(({ colour }) => colour!.red, 1), green: column(({ colour }) => colour!.green, 1), blue: column(({ colour }) => colour!.blue, 1) } } : {}),
    ...(weighed ? { mass: { freshG: plants.map(({ mass }) => grams(mass!.freshG)), lowG: plants.map(({ mass }) => grams(mass!.lowG)), highG: plants.map(({ mass }) => grams(mass!.highG)) } } : {}),
  };
}

const grams = (value: number): number => Number(value.toPrecision(4));

export function positionColumns(places: readonly { readonly raft: number; readonly position: number; readonly xMm: number; readonly yMm: number }[]): PositionColumns {
  const rounded = (value: number) => Number(value.toFixed(1));
  return { raft: places.map(({ raft }) => raft), position: places.map(({ position }) => position), xMm: places.map(({ xMm }) => rounded(xMm)), yMm: places.map(({ yMm }) => rounded(yMm)) };
}
