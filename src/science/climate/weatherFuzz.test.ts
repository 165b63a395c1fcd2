import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Outcome } from '../refusal.ts';
import { readEpw } from './readEpw.ts';
import { readWeatherCsv } from './readWeatherCsv.ts';
import type { WeatherPlace, WeatherQuantity, WeatherSeries } from './types.ts';
import { WEATHER_QUANTITIES } from './types.ts';
import { valueAt, whyAbsent } from './weatherSeries.ts';

const PLACE: WeatherPlace = { name: 'Harbour', latitudeDeg: 55.5, longitudeDeg: -4.5, elevationM: 12, utcOffsetH: 0 };
const CSV = ['time,airC,rhPct,globalWm2,windMS,co2Ppm', ...Array.from({ length: 30 }, (_, index) => `2026-03-0${1 + Math.floor(index / 24)}T${String(index % 24).padStart(2, '0')}:00,${index},80,100,3,420`)].join('\n');
const EPW = [
  'LOCATION,Harbour,-,GBR,own,000000,55.5,-4.5,0.0,12.0', 'DESIGN CONDITIONS,0', 'TYPICAL/EXTREME PERIODS,0', 'GROUND TEMPERATURES,0',
  'HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0', 'COMMENTS 1,', 'COMMENTS 2,', 'DATA PERIODS,1,1,Data,Sunday,1/1,12/31',
  ...Array.from({ length: 24 }, (_, hour) => `2019,1,1,${hour + 1},0,?9,5,3,87,101000,0,0,300,100,80,60,0,0,0,0,180,4,5,5,20,1000,9,0,10,0.1,0,88,0.2,0,0`),
].join('\n');

/** A text with a few stretches replaced by other characters. */
const mutation = (text: string) => fc.array(fc.record({
  at: fc.nat(text.length), length: fc.nat(12), by: fc.oneof(fc.string({ maxLength: 6 }), fc.constantFrom('', ',', '\n', 'NaN', 'Infinity', '1e999', '-', '9999', '٣', '\u0000', '"')),
}), { minLength: 1, maxLength: 4 }).map((edits) => edits.reduce((now, edit) => now.slice(0, edit.at) + edit.by + now.slice(edit.at + edit.length), text));

/** Either finite values and reasons, or refusals that name a place in the file. */
function isSound(outcome: Outcome<WeatherSeries>, file: string): void {
  if (!outcome.ok) {
    expect(outcome.refusals.length).toBeGreaterThan(0);
    for (const refusal of outcome.refusals) expect(refusal.path.startsWith(file)).toBe(true);
    return;
  }
  for (let hour = 0; hour < outcome.value.hours; hour += 1) {
    for (const quantity of WEATHER_QUANTITIES as readonly WeatherQuantity[]) {
      const value = valueAt(outcome.value, quantity, hour);
      if (value === undefined) expect(whyAbsent(outcome.value, quantity, hour)).toBeTypeOf('string');
      else expect(Number.isFinite(value)).toBe(true);
    }
  }
}

describe('mutated weather files', () => {
  it('give finite values or refusals with a place, never an exception or NaN', () => {
    let kept = 0;
    fc.assert(fc.property(mutation(CSV), (text) => {
      const outcome = readWeatherCsv(text, 'weather.csv', PLACE);
      isSound(outcome, 'weather.csv');
      kept += outcome.ok ? 1 : 0;
    }), { numRuns: 600, seed: 1 });
    fc.assert(fc.property(mutation(EPW), (text) => {
      const outcome = readEpw(text, 'w.epw');
      isSound(outcome, 'w.epw');
      kept += outcome.ok ? 1 : 0;
    }), { numRuns: 600, seed: 2 });
    expect(kept).toBeGreaterThan(50); // both branches were taken
    expect(kept).toBeLessThan(1150);
  });
});
