import { seedFor, startRandom, type RandomStream } from '../../science/seededRandom.ts';
import { addDays, HISTORY_DAYS, instantAt } from './demoCalendar.ts';
import type { BayHistory } from './demoClimate.ts';
import { BASIN_M2 } from './demoCrops.ts';
import type { GrowthDays } from './demoGrowth.ts';
import type { Stand } from './demoTypes.ts';

const FULL_MM = 190;
const HEADER = 'at,place,quantity,value,sd,instrument';

/** readings.csv: each planted basin once a morning, each bay once an hour. One EC probe has drifted: somebody should notice. */
export function writeReadings(seed: number, date: string, stands: readonly (Stand & { readonly growth: GrowthDays })[], bays: readonly BayHistory[]): string {
  const rows = [...stands.flatMap((stand, i) => basinRows(seed, date, stand, i === 17)), ...bays.flatMap((bay) => bayRows(date, bay))];
  return `${HEADER}\n${rows.join('\n')}\n`;
}

function basinRows(seed: number, date: string, stand: Stand & { readonly growth: GrowthDays }, drifting: boolean): string[] {
  const random = startRandom(seedFor(seed, `water ${stand.basin}`));
  const since = Math.max(0, stand.placedDay);
  let levelMm = stand.placedDay >= 0 ? FULL_MM : FULL_MM - 4 - random.uniform() * 30;
  let ec = targetEc(stand) * (1 + 0.05 * random.normal());
  let pH = 5.8 + 0.15 * random.normal();
  const rows: string[] = [];
  for (let day = since; day < HISTORY_DAYS; day += 1) {
    if (levelMm < FULL_MM * 0.8 - 4) { levelMm = FULL_MM; ec = targetEc(stand) * (1 + 0.03 * random.normal()); pH = 5.8; }
    const at = instantAt(addDays(date, day - HISTORY_DAYS + 1), 5 + 0.25 * random.uniform());
    rows.push(...morningRows(at, stand.basin, random, levelMm, drifting ? ec * (1 + 0.025 * Math.max(0, day - 9)) : ec, pH));
    const lostL = transpirationL(stand, stand.growth[day] ?? 0, random);
    levelMm -= lostL / BASIN_M2;
    ec *= 1 + (lostL / (levelMm * BASIN_M2)) * 0.22;
    pH += 0.035 + 0.03 * random.normal();
  }
  return rows;
}

function morningRows(at: string, basin: string, random: RandomStream, levelMm: number, ec: number, pH: number): string[] {
  const place = `basin:${basin}`;
  return [
    `${at},${place},levelMm,${(levelMm + random.normal()).toFixed(0)},1,level rod`,
    `${at},${place},ecMsPerCm25,${(ec * (1 + 0.01 * random.normal())).toFixed(2)},0.03,probe`,
    `${at},${place},pH,${(pH + 0.04 * random.normal()).toFixed(2)},0.05,probe`,
    `${at},${place},waterC,${(19 + 0.6 * random.normal()).toFixed(1)},0.2,probe`,
  ];
}

const targetEc = (stand: Stand) => (stand.crop.id === 'basil' || stand.crop.id === 'coriander' ? 1.15 : 1.4);

/** Litres a basin loses in a day: rises with the leaf area that covers it (invented, 0.4 to 2.6 L/m2). */
function transpirationL(stand: Stand, dryG: number, random: RandomStream): number {
  const leafAreaIndex = (stand.crop.leafM2PerG * dryG * stand.plants) / BASIN_M2;
  return BASIN_M2 * (0.4 + 2.2 * (1 - Math.exp(-0.7 * leafAreaIndex))) * (1 + 0.08 * random.normal());
}

function bayRows(date: string, bay: BayHistory): string[] {
  return bay.airC.flatMap((air, hour) => {
    const at = instantAt(addDays(date, -HISTORY_DAYS), hour + 1);
    const row = (quantity: string, value: number | undefined, sd: number) => `${at},bay:${bay.bay},${quantity},${value},${sd},bay sensor`;
    return [row('airC', air, 0.2), row('rhPct', bay.rhPct[hour], 2), row('co2Ppm', bay.co2Ppm[hour], 20), row('ppfdUmolM2S', bay.ppfdUmolM2S[hour], 5)];
  });
}
