import type { ScanMeasured } from '../../greenhouse/scanEvents.ts';
import { excessGreen, leafHue } from '../../science/scan/picture/leafHue.ts';
import { placeName, scanPlants, type ScanPlant } from './scanPlants.ts';

const DAY_MS = 86_400_000;
const NEIGHBOURS = 4;

/**
 * What a classifier sees of each plant of a scan, by raft/position: its size, shape, colour and growth against the middle of the scan, its
 * colour as such, how it stands among its neighbours, its age. What a scan cannot tell (growth without an earlier scan, colour without
 * colours) counts as the middle.
 */
export function plantFeatures(scan: ScanMeasured, before: ScanMeasured | undefined): Map<string, readonly number[]> {
  const plants = scanPlants(scan).filter(({ areaMm2, volumeMm3, heightP95Mm, diameterMm }) => Math.min(areaMm2, volumeMm3, heightP95Mm, diameterMm) > 0);
  const earlier = new Map(before === undefined ? [] : scanPlants(before).map((plant) => [placeName(plant), plant]));
  const days = before === undefined ? 1 : Math.max(0.5, (Date.parse(scan.takenAt) - Date.parse(before.takenAt)) / DAY_MS);
  const ofPlant = (plant: ScanPlant): (number | undefined)[] => {
    const { areaMm2, volumeMm3, heightP95Mm, diameterMm, colour } = plant, old = earlier.get(placeName(plant))?.volumeMm3 ?? 0;
    return [
      Math.log(areaMm2), Math.log(volumeMm3), Math.log(heightP95Mm), Math.log(heightP95Mm / diameterMm), colour && excessGreen(colour),
      colour && Math.log(1 + colour.red + colour.green + colour.blue), old > 0 ? Math.log(volumeMm3 / old) / days : undefined, plant.sharedOutline,
    ];
  };
  const rows = plants.map(ofPlant);
  const middles = (rows[0] ?? []).map((_, k) => median(rows.flatMap((row) => row[k] ?? [])));
  return new Map(plants.map((plant, i) => {
    const against = rows[i]!.map((value, k) => (value === undefined ? 0 : value - middles[k]!));
    const { colour } = plant;
    return [placeName(plant), [...against, colour ? excessGreen(colour) : 0, colour ? (leafHue(colour) ?? 90) / 60 : 0, amongNeighbours(plant, plants), scan.ageDays / 30]];
  }));
}

/** ln of its volume against the mean ln of the plants that stand nearest. */
function amongNeighbours(plant: ScanPlant, plants: readonly ScanPlant[]): number {
  const away = ({ xMm, yMm }: ScanPlant) => Math.hypot(xMm - plant.xMm, yMm - plant.yMm);
  const nearest = plants.filter((other) => other !== plant).sort((a, b) => away(a) - away(b)).slice(0, NEIGHBOURS);
  return nearest.length === 0 ? 0 : Math.log(plant.volumeMm3) - nearest.reduce((sum, { volumeMm3 }) => sum + Math.log(volumeMm3), 0) / nearest.length;
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;
}
