import { lightIntegralMol, ppfdOfGlobal } from '../../science/climate/lightInside.ts';
import { MEASURED_BITS } from '../../science/climate/overlayMeasured.ts';
import { hourOfDate } from '../actions/laterClimate.ts';
import type { BayClimate, BayClimates } from '../climate/bayClimates.ts';
import { addDays } from '../day/shiftDay.ts';
import type { BaySeason } from '../morningPlan.ts';

/** Days before and after today that the picture shows. */
const PAST_DAYS = 28;
const AHEAD_DAYS = 42;

/** Light outdoors and inside, the lamps' part, and temperature of every bay by day: what was, and what the outlook says. */
export function seasonPicture(climates: BayClimates, date: string): BaySeason[] {
  const dates = Array.from({ length: PAST_DAYS + AHEAD_DAYS }, (_, i) => addDays(date, i - PAST_DAYS)).filter((day) => hourOfDate(climates, addDays(day, 1)) - hourOfDate(climates, day) === 24);
  return Object.values(climates.byBay).map((of) => ({
    bay: of.bay.id, title: of.bay.title, ...(of.bay.lamps === undefined ? {} : { targetDliMolM2: of.bay.lamps.targetDliMolM2 }), days: dates.map((day) => dayOf(climates, of, day)),
  }));
}

function dayOf({ outdoor, ...climates }: BayClimates, { inside }: BayClimate, date: string): BaySeason['days'][number] {
  const from = hourOfDate({ outdoor, ...climates }, date);
  const part = <T extends Float64Array | Uint8Array>(column: T): T => column.subarray(from, from + 24) as T;
  const molOf = (ppfd: Float64Array): number => ppfd.reduce((sum, each) => sum + lightIntegralMol(each, 1), 0);
  const meanOf = (values: Float64Array): number => values.reduce((sum, each) => sum + each, 0) / values.length;
  const air = part(inside.airC);
  return {
    date, outsideMol: tenth(molOf(part(outdoor.globalWM2).map((global) => ppfdOfGlobal(global)))), insideMol: tenth(molOf(part(inside.ppfdUmolM2S))), lampMol: tenth(molOf(part(inside.lampPpfdUmolM2S))),
    outsideC: tenth(meanOf(part(outdoor.airC))), insideC: tenth(meanOf(air)), coldestC: tenth(Math.min(...air)), warmestC: tenth(Math.max(...air)),
    measuredShare: part(inside.measured).filter((bits) => (bits & (MEASURED_BITS.airC | MEASURED_BITS.ppfdUmolM2S)) !== 0).length / 24,
  };
}

const tenth = (value: number): number => Math.round(value * 10) / 10 + 0;
