/**
 * Error of the hourly bay model against the dynamic model of Katzin et al. 2020/2021 (month values of the shared climate
 * cases) and its speed. Run with: npx tsx bench/climate-inside.ts
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { GLASS_BAY } from '../src/science/climate/bayDesign.ts';
import { simulateClimateInside } from '../src/science/climate/climateInside.ts';
import { completeWeather } from '../src/science/climate/completeWeather.ts';
import { readEpw } from '../src/science/climate/readEpw.ts';
import type { BayDesign, CompleteWeather } from '../src/science/climate/types.ts';

const shared = (path: string): string => fileURLToPath(new URL(`../../shared/data/${path}`, import.meta.url));
const SITES = {
  chicago: 'USA_IL_Chicago-OHare.Intl.AP.725300_TMY3.epw', port_angeles: 'USA_WA_Port.Angeles-William.R.Fairchild.Intl.AP.727885_TMY3.epw', tucson: 'USA_AZ_Davis-Monthan.AFB.722745_TMY3.epw',
};
const MONTHS = { jan: 0, apr: 90, jul: 181, oct: 273 } as const;
type Month = keyof typeof MONTHS;

function weatherOf(file: string): CompleteWeather {
  const read = readEpw(readFileSync(shared(`weather/${file}`), 'utf8'), file);
  const weather = read.ok ? completeWeather(read.value) : read;
  if (!weather.ok) throw new Error(JSON.stringify(weather.refusals));
  return weather.value;
}

const cases = (JSON.parse(readFileSync(shared('climate-cases.json'), 'utf8')) as { cases: { id: string; expect: Record<string, unknown> }[] }).cases;
const reference = cases.find((one) => one.id === 'gl-monthly-heat')?.expect as Record<string, Record<Month, number>>;
const total = (values: Float64Array, fromDay: number, days: number): number => values.subarray(fromDay * 24, (fromDay + days) * 24).reduce((sum, one) => sum + one, 0) / 1000;
const mean = (values: Float64Array, fromDay: number): number => total(values, fromDay, 31) * 1000 / (31 * 24);

function score(name: string, bay: BayDesign): void {
  let squares = 0, errors = 0;
  console.log(name);
  for (const [site, file] of Object.entries(SITES)) {
    const inside = simulateClimateInside(weatherOf(file), bay, 0, 8760);
    const months = (Object.keys(MONTHS) as Month[]).map((month) => {
      const heat = total(inside.heatWhM2, MONTHS[month], 31);
      const error = heat - (reference[site] as Record<Month, number>)[month];
      squares += error * error / 12;
      errors += error / 12;
      return `${month} ${heat.toFixed(1)} (${(reference[site] as Record<Month, number>)[month]}) ${mean(inside.airC, MONTHS[month]).toFixed(1)} C ${mean(inside.rhPct, MONTHS[month]).toFixed(0)} % ${mean(inside.co2Ppm, MONTHS[month]).toFixed(0)} ppm`;
    });
    console.log(`  ${site}: ${months.join('; ')}; year ${total(inside.heatWhM2, 0, 365).toFixed(0)} kWh/m2; ${Math.min(...inside.airC).toFixed(1)} to ${Math.max(...inside.airC).toFixed(1)} C`);
  }
  console.log(`  rms error ${Math.sqrt(squares).toFixed(2)}, bias ${errors.toFixed(2)} kWh/m2 a month`);
}

const bare: BayDesign = { ...GLASS_BAY, leafAreaIndex: 0, groundCover: 0, rhMaxPct: 100 };
score('heat alone (no crop, no humidity limit)', bare);
score('young crop (leaf area 0.5), humidity limit 87 %', { ...GLASS_BAY, leafAreaIndex: 0.5, groundCover: 0.3 });
score('full crop (leaf area 3), humidity limit 87 %', { ...GLASS_BAY, leafAreaIndex: 3, groundCover: 0.95 });

const chicago = weatherOf(SITES.chicago);
const lamps = { ppfdUmolM2S: 66.7 * 2.97, efficacyUmolJ: 2.97, onFromH: 0, onUntilH: 18, offAboveGlobalWM2: 400 };
const lit = simulateClimateInside(chicago, { ...bare, lamps }, 0, 31 * 24);
console.log(`Chicago January with 66.7 W/m2 of lamps: heat ${total(lit.heatWhM2, 0, 31).toFixed(1)} (48.03), lamps ${total(lit.lampWhM2, 0, 31).toFixed(1)} (34.9) kWh/m2`);
const open = simulateClimateInside(chicago, { ...bare, screen: undefined }, 0, 31 * 24);
console.log(`Chicago January without screen: heat ${total(open.heatWhM2, 0, 31).toFixed(1)} (113.81) kWh/m2`);
const start = performance.now();
for (let round = 0; round < 10; round += 1) simulateClimateInside(chicago, GLASS_BAY, 0, 8760);
console.log(`speed: a year of one bay in ${((performance.now() - start) / 10).toFixed(0)} ms`);
