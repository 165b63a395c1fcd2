import { lightIntegralMol, ppfdOfGlobal } from '../../science/climate/lightInside.ts';
import type { BayDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import { daysInYear, hourOfYear } from '../demo/demoCalendar.ts';
import { inventYear } from '../demo/demoYear.ts';

/** Light above the crop of a bay by date, mol/(m2 d), in one invented year of weather; lamps fill up as their rule says. */
export function seasonLight(seed: number, bay: BayDescription, year: number): (date: string) => number {
  const { globalWM2 } = inventYear(seed, year);
  const days = Array.from({ length: daysInYear(year) }, (_, day) => lightOfDay(globalWM2.slice(day * 24, day * 24 + 24), bay));
  return (date) => days[Math.floor(hourOfYear(date, year) / 24)]!;
}

function lightOfDay(globalWM2: readonly number[], { parTransmissivity, lamps }: BayDescription): number {
  const sun = globalWM2.reduce((sum, global) => sum + lightIntegralMol(ppfdOfGlobal(global) * parTransmissivity, 1), 0);
  if (lamps === undefined || sun >= lamps.targetDliMolM2) return sun;
  const hours = Math.min(lamps.hoursPerDayMax, globalWM2.filter((global) => global < lamps.onBelowGlobalWm2).length);
  return Math.min(Math.max(sun, lamps.targetDliMolM2), sun + lightIntegralMol(lamps.ppfdUmolM2S, hours));
}
