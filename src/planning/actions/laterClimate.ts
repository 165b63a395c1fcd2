import type { BayDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import { localHourOfDay } from '../../science/climate/hourGrid.ts';
import { lampPowerWM2, lampShareByRule, lightIntegralMol } from '../../science/climate/lightInside.ts';
import type { InsideClimate } from '../../science/climate/types.ts';
import { bayDesignOf } from '../climate/bayDesignOf.ts';
import { MEAN_CANOPY, type BayClimates } from '../climate/bayClimates.ts';
import { addDays } from '../day/shiftDay.ts';

const HOUR_MS = 3_600_000;

/** Hour of the climates at which a local (standard time) day begins. */
export const hourOfDate = (climates: BayClimates, date: string): number =>
  Math.min(climates.hours, Math.max(0, Math.round((Date.parse(`${date}T00:00:00Z`) - climates.utcOffsetH * HOUR_MS - climates.startMs) / HOUR_MS)));

/**
 * A bay whose lamps follow another rule from a day on, in the same weather. Light and lamp electricity change; air is kept as it
 * was simulated, so that the warmth of the lamps is left out (by the heat model they raise the air by tenths of a degree).
 */
export function withLamps(climates: BayClimates, bay: BayDescription, from: string): BayClimates {
  const { inside } = climates.byBay[bay.id]!;
  const { lamps } = bayDesignOf(bay, MEAN_CANOPY);
  if (lamps === undefined) return climates;
  const [ppfdUmolM2S, lampPpfdUmolM2S, lampWhM2] = [inside.ppfdUmolM2S.slice(), inside.lampPpfdUmolM2S.slice(), inside.lampWhM2.slice()];
  let soFarMol = 0;
  for (let hour = hourOfDate(climates, from); hour < climates.hours; hour++) {
    const hourOfDay = localHourOfDay(inside, hour);
    if (hourOfDay < 1) soFarMol = 0;
    const sunPpfd = Math.max(0, inside.ppfdUmolM2S[hour]! - inside.lampPpfdUmolM2S[hour]!);
    const share = lampShareByRule(lamps, hourOfDay, climates.outdoor.globalWM2[hour]!, soFarMol, lightIntegralMol(sunPpfd, 1));
    lampPpfdUmolM2S[hour] = share * lamps.ppfdUmolM2S;
    lampWhM2[hour] = share * lampPowerWM2(lamps);
    ppfdUmolM2S[hour] = sunPpfd + lampPpfdUmolM2S[hour]!;
    soFarMol += lightIntegralMol(ppfdUmolM2S[hour]!, 1);
  }
  const lit = replaced(climates, bay.id, { ...inside, ppfdUmolM2S, lampPpfdUmolM2S, lampWhM2 });
  return { ...lit, byBay: { ...lit.byBay, [bay.id]: { ...lit.byBay[bay.id]!, bay } } };
}

/** A bay in which the air and light are those of another bay from a day on: what a lot feels that is moved there. */
export function asInBay(climates: BayClimates, bay: string, other: string, from: string): BayClimates {
  const first = hourOfDate(climates, from);
  return replaced(climates, bay, spliced(climates.byBay[bay]!.inside, climates.byBay[other]!.inside, first));
}

/** Lamp electricity of a bay on each day from a date on, kWh. */
export function lampKWhByDay(climates: BayClimates, bay: string, from: string, days: number): number[] {
  const { inside: { lampWhM2 }, bay: { floorM2 } } = climates.byBay[bay]!;
  return Array.from({ length: days }, (_, i) => {
    const part = lampWhM2.subarray(hourOfDate(climates, addDays(from, i)), hourOfDate(climates, addDays(from, i + 1)));
    return (part.reduce((sum, wh) => sum + wh, 0) * floorM2) / 1000;
  });
}

/** Light above the crop of a bay, mean over some days from a date on, mol/(m2 d). */
export function meanDli(climates: BayClimates, bay: string, from: string, days: number): number {
  const part = climates.byBay[bay]!.inside.ppfdUmolM2S.subarray(hourOfDate(climates, from), hourOfDate(climates, addDays(from, days)));
  return part.length === 0 ? 0 : (part.reduce((sum, ppfd) => sum + ppfd, 0) * 3600) / 1e6 / (part.length / 24);
}

function replaced(climates: BayClimates, bay: string, inside: InsideClimate): BayClimates {
  return { ...climates, byBay: { ...climates.byBay, [bay]: { ...climates.byBay[bay]!, inside } } };
}

function spliced(now: InsideClimate, later: InsideClimate, first: number): InsideClimate {
  const join = (quantity: 'airC' | 'rhPct' | 'co2Ppm' | 'ppfdUmolM2S'): Float64Array => {
    const joined = now[quantity].slice();
    joined.set(later[quantity].subarray(first), first);
    return joined;
  };
  return { ...now, airC: join('airC'), rhPct: join('rhPct'), co2Ppm: join('co2Ppm'), ppfdUmolM2S: join('ppfdUmolM2S') };
}
