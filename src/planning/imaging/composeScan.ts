import type { CloudFact, ExpectedMass, MassBasis, ScanMeasured } from '../../greenhouse/scanEvents.ts';
import type { LotRow } from '../../greenhouse/schema/tableRows.ts';
import type { BasinLayout } from '../../science/scan/basinLayout.ts';
import type { PlantMeasure } from '../../science/scan/measurePlants.ts';
import type { LeafColour } from '../../science/scan/picture/plantColours.ts';
import type { EarlierPlant } from '../../science/scan/readPreviousScan.ts';
import type { ScanQuality } from '../../science/scan/scanResult.ts';
import { plantColumns, positionColumns, scanPlants, type ScanPlant } from './scanPlants.ts';

/** The present plants of a scan with their places and colours; `colours` in the order of the measures. */
export function presentPlants(measures: readonly PlantMeasure[], layout: BasinLayout, colours: readonly (LeafColour | undefined)[]): ScanPlant[] {
  const places = placesOf(layout);
  return measures.flatMap(({ present, ...measure }, i): ScanPlant[] => {
    const colour = colours[i];
    return present ? [{ ...measure, ...places[i]!, ...(colour === undefined ? {} : { colour }) }] : [];
  });
}

export interface ScanOccasion {
  readonly scan: string;
  readonly basin: string;
  readonly takenAt: string;
  readonly planting: LotRow;
  readonly ageDays: number;
  readonly cloud: CloudFact;
  readonly previousScan?: string;
  readonly expected?: ExpectedMass;
}

/** What the journal says of a scan. */
export function composeScan({ planting, ...occasion }: ScanOccasion, quality: ScanQuality, layout: BasinLayout, plants: readonly ScanPlant[], mass: MassBasis): ScanMeasured {
  const grown = new Set(plants.map(({ raft, position }) => `${raft}/${position}`));
  const empty = placesOf(layout).filter(({ raft, position }) => !grown.has(`${raft}/${position}`));
  return { ...occasion, lot: planting.lot, crop: planting.crop, stage: planting.stage, quality: rounded(quality), plants: plantColumns(plants), empty: positionColumns(empty), mass };
}

/** All positions in the order in which plants are measured. */
function placesOf({ rafts }: BasinLayout): { raft: number; position: number; xMm: number; yMm: number }[] {
  return rafts.flatMap(({ id, centreMm, positions }) => positions.map((position) => ({ raft: Number(id), position: Number(position.id), xMm: centreMm[0] + position.xMm, yMm: centreMm[1] + position.yMm })));
}

/** What an earlier scan knew of the size of plants: the prior of the next one. */
export const earlierPlants = (scan: ScanMeasured): EarlierPlant[] => scanPlants(scan).map(({ raft, position, areaMm2 }) => ({ raft, position, radiusMm: Math.sqrt(areaMm2 / Math.PI) }));

function rounded(quality: ScanQuality): ScanQuality {
  const cut = (value: unknown): unknown => (typeof value === 'number' ? Number(value.toPrecision(5)) : Array.isArray(value) ? value.map(cut) : typeof value === 'object' && value !== null ? Object.fromEntries(Object.entries(value).map(([key, part]) => [key, cut(part)])) : value);
  return { ...(cut(quality) as ScanQuality), points: quality.points, pointsInside: quality.pointsInside };
}
