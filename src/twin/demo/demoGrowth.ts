import { BASIN_M2 } from './demoCrops.ts';
import { HISTORY_DAYS } from './demoCalendar.ts';
import type { BayHistory } from './demoClimate.ts';
import type { DemoCrop, Stand } from './demoTypes.ts';

/** True dry mass per plant, g, at the end of each day of the history; absent before the seedlings came into a basin. */
export type GrowthDays = readonly (number | undefined)[];

/**
 * The invented truth: dry mass grows with the light that the canopy catches, day by day (light use x ground cover).
 * It is on purpose not one of the models that the planner uses, so that forecasts are tested by something else.
 */
export function growStand(stand: Stand, histories: readonly BayHistory[]): GrowthDays {
  const byBay = new Map(histories.map((history) => [history.bay, history]));
  const nursery = byBay.get('nursery');
  const glass = byBay.get(stand.bay === 'nursery' ? 'glass-west' : stand.bay);
  if (nursery === undefined || glass === undefined) throw new Error(`no climate history for ${stand.bay}`);
  let massG = stand.crop.seedlingDryG;
  const days: (number | undefined)[] = Array.from({ length: HISTORY_DAYS }, () => undefined);
  for (let day = stand.startDay; day < HISTORY_DAYS; day += 1) {
    const { bay, plantsPerM2 } = standAtAge(stand.crop, day - stand.startDay);
    const history = bay === 'nursery' ? nursery : glass;
    const dli = history.dliMolM2[day] ?? mean(history.dliMolM2);
    massG += growthG(stand.crop, massG, plantsPerM2, dli, stand.vigour);
    if (day >= 0) days[day] = massG;
  }
  return days;
}

/** Dry mass that a plant of this mass adds in a day, g. */
export function growthG(crop: DemoCrop, massG: number, plantsPerM2: number, dli: number, vigour: number): number {
  const leafAreaIndex = crop.leafM2PerG * massG * plantsPerM2;
  const cover = 1 - Math.exp(-0.8 * leafAreaIndex);
  const byLight = (crop.dryGPerMol * dli * cover) / plantsPerM2;
  return Math.min(vigour * byLight, 0.29 * massG);
}

function standAtAge(crop: DemoCrop, age: number): { bay: 'nursery' | 'glass'; plantsPerM2: number } {
  let end = 0;
  for (const stage of crop.stages) {
    end += stage.days;
    if (age < end) return { bay: stage.bay, plantsPerM2: meanPlants(stage.plantsInBasins) / BASIN_M2 };
  }
  const last = crop.stages.at(-1)!;
  return { bay: last.bay, plantsPerM2: meanPlants(last.plantsInBasins) / BASIN_M2 };
}

/** Share of dry matter in fresh shoot mass: falls from 9 to 4.6 % as the plant grows (invented, in the range seen in lettuce). */
export const dryShare = (dryG: number): number => 0.046 + 0.044 * Math.exp(-dryG / 1.4);

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const meanPlants = (plants: readonly number[]) => mean(plants);
