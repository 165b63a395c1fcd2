import { startRandom, seedFor } from '../../science/seededRandom.ts';
import { LATITUDE_DEG } from './demoCalendar.ts';
import { daysInYear } from './demoCalendar.ts';
import type { DemoYear } from './demoTypes.ts';

/**
 * Invents a year of weather for a cool maritime coast: 4 to 16 C through the year, cloudy, windy, damp.
 * The sun's geometry is FAO-56 (Allen et al. 1998, eqs 23-25); everything else is made up.
 */
export function inventYear(seed: number, year: number): DemoYear {
  const random = startRandom(seedFor(seed, `weather ${year}`));
  const airC: number[] = [];
  const rhPct: number[] = [];
  const globalWM2: number[] = [];
  const windMS: number[] = [];
  let warmth = 0;
  let cloud = 0;
  let gust = 0;
  for (let day = 0; day < daysInYear(year); day += 1) {
    warmth = 0.78 * warmth + 1.5 * random.normal();
    cloud = 0.55 * cloud + 0.8 * random.normal();
    gust = 0.6 * gust + 0.75 * random.normal();
    const clearness = Math.min(0.74, Math.max(0.1, 0.4 + 0.15 * cloud));
    const mean = 9.8 - 5.6 * Math.cos((2 * Math.PI * (day - 28)) / 365) + warmth;
    for (let hour = 0; hour < 24; hour += 1) {
      const swing = (1.2 + 5 * clearness) * Math.sin((2 * Math.PI * (hour + 0.5 - 9)) / 24);
      const air = mean + swing + 0.25 * random.normal();
      airC.push(round(air, 1));
      rhPct.push(round(Math.min(100, Math.max(45, 84 - 2.6 * swing + 3 * random.normal())), 0));
      globalWM2.push(round(Math.max(0, clearness * extraterrestrialWM2(day + 1, hour + 0.5) * (1 + 0.08 * random.normal())), 0));
      windMS.push(round(Math.max(0.3, 4.6 + 1.8 * gust + 0.8 * random.normal()), 1));
    }
  }
  return { year, airC, rhPct, globalWM2, windMS };
}

/** Extraterrestrial radiation on the horizontal at a solar hour, W/m2 (FAO-56 eqs 23-25 with solar constant 0.0820 MJ m-2 min-1). */
function extraterrestrialWM2(dayOfYear: number, solarHour: number): number {
  const phi = (LATITUDE_DEG * Math.PI) / 180;
  const distance = 1 + 0.033 * Math.cos((2 * Math.PI * dayOfYear) / 365);
  const declination = 0.409 * Math.sin((2 * Math.PI * dayOfYear) / 365 - 1.39);
  const hourAngle = (Math.PI / 12) * (solarHour - 12);
  const sinElevation = Math.sin(phi) * Math.sin(declination) + Math.cos(phi) * Math.cos(declination) * Math.cos(hourAngle);
  return Math.max(0, ((0.082e6 / 60) * distance * sinElevation));
}

const round = (value: number, digits: number) => Number(value.toFixed(digits));
