import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CaseMeter, climateCases, sharedFile } from '../../../test/climateCases.ts';
import type { Outcome } from '../refusal.ts';
import { HOUR_MS, hourStartUtcMs, localStamp } from './hourGrid.ts';
import { readEpw } from './readEpw.ts';
import { cosineOfZenith } from './sun.ts';
import type { WeatherQuantity, WeatherSeries } from './types.ts';
import { countPresent, valueAt, whyAbsent } from './weatherSeries.ts';

const FILES = ['USA_AZ_Davis-Monthan.AFB.722745_TMY3.epw', 'USA_IL_Chicago-OHare.Intl.AP.725300_TMY3.epw', 'USA_WA_Port.Angeles-William.R.Fairchild.Intl.AP.727885_TMY3.epw'] as const;

const value = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value;
};
const all = (series: WeatherSeries, quantity: WeatherQuantity): number[] =>
  Array.from({ length: series.hours }, (_, hour) => valueAt(series, quantity, hour) ?? NaN);
const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

/** A small well-formed file: `days` of January from one year, hour by hour. */
function smallEpw(change: (rows: string[][]) => void = () => undefined, header: (lines: string[]) => void = () => undefined, days = 2, year = 2019): string {
  const lines = [
    'LOCATION,Harbour,-,GBR,own,000000,55.5,-4.5,0.0,12.0', 'DESIGN CONDITIONS,0', 'TYPICAL/EXTREME PERIODS,0', 'GROUND TEMPERATURES,0',
    'HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0', 'COMMENTS 1,', 'COMMENTS 2,', 'DATA PERIODS,1,1,Data,Sunday,1/1,12/31',
  ];
  header(lines);
  const rows: string[][] = [];
  for (let index = 0; index < 24 * days; index += 1) {
    const date = new Date(Date.UTC(year, 0, 1 + Math.floor(index / 24)));
    rows.push([year, date.getUTCMonth() + 1, date.getUTCDate(), index % 24 + 1, 0, '?9', 5, 3, 87, 101_000, 0, 0, 300, 100, 80, 60, 0, 0, 0, 0, 180, 4, 5, 5, 20, 1000, 9, 0, 10, 0.1, 0, 88, 0.2, 0, 0].map(String));
  }
  change(rows);
  return [...lines, ...rows.map((row) => row.join(','))].join('\r\n');
}

const refusals = (text: string) => {
  const outcome = readEpw(text, 'w.epw');
  return outcome.ok ? [] : outcome.refusals;
};
const cell = (row: number, field: number, text: string) => (rows: string[][]): void => { (rows[row] as string[])[field - 1] = text; };

describe.skipIf(climateCases === undefined)('readEpw on three TMY3 files', () => {
  const meter = new CaseMeter();
  const series = FILES.map((name) => {
    const text = readFileSync(sharedFile(`weather/${name}`) as string, 'utf8');
    return { name, text, read: value(readEpw(text, name)) };
  });

  it.each(series)('states the facts of $name', ({ name, text, read }) => {
    const facts = meter.case('epw-files').expect[name] as Record<string, number>;
    const file = (meter.case('epw-files').in['files'] as unknown as Record<string, { sha256: string }>)[name];
    expect(createHash('sha256').update(text).digest('hex')).toBe(file?.sha256);
    expect([read.kind, read.hours, read.place.latitudeDeg, read.place.longitudeDeg, read.place.utcOffsetH, read.place.elevationM])
      .toEqual(['typical-year', facts['rows'], facts['lat'], facts['lon'], facts['tz'], facts['elev']]);
    const air = all(read, 'airC');
    expect(sum(air) / 8760).toBeCloseTo(facts['Tmean'] as number, 2);
    expect([Math.min(...air), Math.max(...air)]).toEqual([facts['Tmin'], facts['Tmax']]);
    for (const [quantity, key] of [['globalWM2', 'GHI_kWh'], ['diffuseWM2', 'DHI_kWh'], ['directNormalWM2', 'DNI_kWh']] as const) {
      expect(Math.round(sum(all(read, quantity)) / 1000), key).toBe(facts[key]);
      expect(countPresent(read, quantity)).toBe(8760);
    }
    const degreeDays = air.map((airC) => Math.max(0, 18 - airC) / 24); // hourly, not of daily means
    expect(Math.abs(sum(degreeDays) - (facts['HDD18'] as number))).toBeLessThan(1);
    expect(localStamp(read, 0)).toBe('2001-01-01T00:00'); // a calendar without 29 February
    meter.checked.set('epw-files', (meter.checked.get('epw-files') ?? 0) + 14);
  });

  it('has its sun half an hour before the stamp: global = diffuse + direct x cosine closes there and nowhere else', () => {
    const expected = meter.case('epw-clock').expect['rmse_W_m2'] as Record<string, number[]>;
    const offsets = [0, 0.25, 0.5, 0.75, 1]; // hours after the interval's start; the case counts back from its end
    series.forEach(({ read }, index) => {
      const site = ['tucson', 'chicago', 'port_angeles'][index] as string;
      const errors = offsets.map((offset) => closureRms(read, offset));
      errors.forEach((rms, at) => {
        const published = expected[site]?.[at] as number; // over hours chosen otherwise: all lit hours here
        expect(Math.abs(rms - published), `${site} ${offsets[at]}`).toBeLessThan(0.5 + 0.08 * published);
      });
      expect(errors[2]).toBeLessThan(2.3);
      meter.checked.set('epw-clock', (meter.checked.get('epw-clock') ?? 0) + 5);
      console.log(`weather file ${site}: global radiation closes to ${errors.map((one) => one.toFixed(1)).join(' / ')} W/m2 rms with the sun at start, +15, +30, +45, +60 min`);
    });
    meter.report('weather files', 'NREL TMY3, facts counted independently');
  });
});

function closureRms(read: WeatherSeries, offsetH: number): number {
  let squares = 0, count = 0;
  for (let hour = 0; hour < read.hours; hour += 1) {
    const cosine = cosineOfZenith(hourStartUtcMs(read, hour) + offsetH * HOUR_MS, read.place.latitudeDeg, read.place.longitudeDeg);
    const global = valueAt(read, 'globalWM2', hour) as number;
    if (global <= 0) continue;
    const error = global - (valueAt(read, 'diffuseWM2', hour) as number) - (valueAt(read, 'directNormalWM2', hour) as number) * Math.max(0, cosine);
    squares += error * error;
    count += 1;
  }
  return Math.sqrt(squares / count);
}

describe('readEpw on small files', () => {
  it('reads a history with its own dates, byte order mark and either line end', () => {
    const read = value(readEpw(`\uFEFF${smallEpw()}\r\n\r\n`, 'w.epw'));
    expect([read.kind, read.hours, read.place.name, read.airValues]).toEqual(['dated', 48, 'Harbour, GBR', 'at-hour-end']);
    expect(read.startUtcMs).toBe(Date.UTC(2019, 0, 1));
    expect(value(readEpw(smallEpw().replaceAll('\r\n', '\n'), 'w.epw'))).toEqual(value(readEpw(smallEpw(), 'w.epw')));
    expect(value(readEpw(smallEpw(undefined, (lines) => { lines[0] = 'LOCATION,A,B,C,own,0,40,-105,-7.0,1600'; }), 'w.epw')).startUtcMs).toBe(Date.UTC(2019, 0, 1, 7));
  });

  it('keeps missing values absent with place and marker, never as numbers', () => {
    const read = value(readEpw(smallEpw((rows) => {
      for (const [field, marker] of [[7, '99.9'], [8, '99.9'], [9, '999'], [10, '999999'], [13, '9999'], [14, '9999'], [15, '9999'], [16, '9999.0'], [22, '999'], [7, '']] as const) cell(3, field, marker)(rows);
    }), 'w.epw'));
    for (const quantity of ['airC', 'dewPointC', 'rhPct', 'pressurePa', 'skyIrWM2', 'globalWM2', 'directNormalWM2', 'diffuseWM2', 'windMS'] as const) {
      expect(valueAt(read, quantity, 3), quantity).toBeUndefined();
      expect(whyAbsent(read, quantity, 3)).toContain(`w.epw:12:`);
      expect(valueAt(read, quantity, 2), quantity).toBeTypeOf('number');
      expect(whyAbsent(read, quantity, 2)).toBeUndefined();
    }
    expect(whyAbsent(read, 'airC', 3)).toContain('(empty)');
    expect(whyAbsent(read, 'co2Ppm', 3)).toBe('w.epw has no co2Ppm');
    expect(valueAt(read, 'co2Ppm', 3)).toBeUndefined();
    expect(() => valueAt(read, 'airC', 48)).toThrow(RangeError);
  });

  it('reads each field from its own column and caps humidity at 100', () => {
    const read = value(readEpw(smallEpw((rows) => { for (const [index, field] of [7, 8, 9, 10, 13, 14, 15, 16, 22].entries()) cell(0, field, ['11', '12', '104', '98000', '301', '101', '81', '61', '7'][index] as string)(rows); }), 'w.epw'));
    expect((['airC', 'dewPointC', 'rhPct', 'pressurePa', 'skyIrWM2', 'globalWM2', 'directNormalWM2', 'diffuseWM2', 'windMS'] as const).map((quantity) => valueAt(read, quantity, 0)))
      .toEqual([11, 12, 100, 98_000, 301, 101, 81, 61, 7]);
  });

  it.each([
    ['a wrong header word', smallEpw(undefined, (lines) => { lines[0] = 'PLACE,x'; }), 'syntax', 'w.epw:1:1'],
    ['two data periods', smallEpw(undefined, (lines) => { lines[7] = 'DATA PERIODS,2,1'; }), 'value-not-allowed', 'w.epw:8:14'],
    ['four records an hour', smallEpw(undefined, (lines) => { lines[7] = 'DATA PERIODS,1,4'; }), 'value-not-allowed', 'w.epw:8:16'],
    ['a latitude beyond the pole', smallEpw(undefined, (lines) => { lines[0] = 'LOCATION,A,B,C,own,0,95,0,0,0'; }), 'value-out-of-range', 'w.epw:1:22'],
    ['no elevation', smallEpw(undefined, (lines) => { lines[0] = 'LOCATION,A,B,C,own,0,55,0,0'; }), 'value-not-a-number', 'w.epw:1:28'],
    ['a word for a number', smallEpw(cell(1, 7, 'warm')), 'value-not-a-number', 'w.epw:10:17'],
    ['hexadecimal', smallEpw(cell(1, 7, '0x10')), 'value-not-a-number', 'w.epw:10:17'],
    ['an impossible temperature', smallEpw(cell(1, 7, '71')), 'value-out-of-range', 'w.epw:10:17'],
    ['an impossible radiation', smallEpw(cell(1, 14, '-1')), 'value-out-of-range', 'w.epw:10:39'],
    ['a short row', smallEpw((rows) => { rows[4] = ['2019', '1']; }), 'syntax', 'w.epw:13:1'],
    ['a doubled hour', smallEpw(cell(5, 4, '5')), 'inconsistent', 'w.epw:14:1'],
    ['a month 13', smallEpw(cell(5, 2, '13')), 'value-out-of-range', 'w.epw:14:6'],
    ['a 31 February', smallEpw((rows) => { for (const row of rows) [row[1], row[2]] = ['2', '31']; }), 'value-out-of-range', 'w.epw:9:1'],
    ['no rows', smallEpw((rows) => { rows.length = 0; }), 'value-missing', 'w.epw:9:1'],
    ['two days of a typical year', smallEpw((rows) => { (rows[30] as string[])[0] = '1990'; }), 'inconsistent', 'w.epw:9:1'],
    ['nothing', '', 'syntax', 'w.epw:1:1'],
  ])('refuses %s with its place', (_, text, code, path) => {
    expect(refusals(text)[0]).toMatchObject({ code, path, severity: 'error' });
  });

  it('keeps each field and each header number to its own limits', () => {
    const limits = [
      [7, -90, 70], [8, -90, 70], [9, 0, 110], [10, 31_000, 120_000], [13, 0, 1000], [14, 0, 1500], [15, 0, 1500], [16, 0, 1500], [22, 0, 90],
    ] as const;
    for (const [field, least, most] of limits) {
      for (const inside of [least, most]) expect(refusals(smallEpw(cell(1, field, String(inside)))), `field ${field} ${inside}`).toEqual([]);
      for (const outside of [least - 0.4, most + 0.4]) expect(refusals(smallEpw(cell(1, field, String(outside))))[0], `field ${field} ${outside}`).toMatchObject({ code: 'value-out-of-range', limit: [least, most] });
    }
    const place = [55, -4, 0, 12];
    for (const [index, least, most] of [[0, -90, 90], [1, -180, 180], [2, -12, 14], [3, -500, 9000]] as const) {
      const withNumber = (number: number) => smallEpw(undefined, (lines) => { lines[0] = `LOCATION,A,B,C,own,0,${place.map((one, at) => (at === index ? number : one)).join(',')}`; });
      for (const inside of [least, most]) expect(refusals(withNumber(inside)), `header ${index} ${inside}`).toEqual([]);
      for (const outside of [least - 0.1, most + 0.1]) expect(refusals(withNumber(outside))[0]).toMatchObject({ code: 'value-out-of-range', limit: [least, most] });
    }
    for (const [field, limit] of [[1, [1800, 2200]], [2, [1, 12]], [3, [1, 31]], [4, [1, 24]]] as const) {
      expect(refusals(smallEpw(cell(1, field, '9999')))[0]).toMatchObject({ code: 'value-out-of-range', limit });
      expect(refusals(smallEpw(cell(1, field, '-9')))[0]).toMatchObject({ code: 'value-out-of-range', limit });
    }
  });

  it('takes a row cut after the wind and none shorter', () => {
    expect(refusals(smallEpw((rows) => { (rows[3] as string[]).length = 22; }))).toEqual([]);
    expect(refusals(smallEpw((rows) => { (rows[3] as string[]).length = 21; }))[0]).toMatchObject({ code: 'syntax', value: 21, limit: 22 });
  });

  it('lists everything wrong at once, and says how much more there is', () => {
    const found = refusals(smallEpw((rows) => { for (const row of rows) row[6] = 'x'; }));
    expect(found).toHaveLength(41);
    expect(found.at(-1)).toMatchObject({ path: 'w.epw', value: 8 });
  });

  it('lays a typical year with a 29 February on a leap calendar', () => {
    const leap = smallEpw((rows) => { (rows[30] as string[])[0] = '1990'; }, undefined, 366, 2004);
    const read = value(readEpw(leap, 'w.epw'));
    expect([read.kind, read.hours, read.startUtcMs]).toEqual(['typical-year', 8784, Date.UTC(2004, 0, 1)]);
    expect(localStamp(read, 59 * 24)).toBe('2004-02-29T00:00');
  });
});
