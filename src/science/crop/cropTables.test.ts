import { assert, property, string } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { joinClimate, readClimateTable } from './climateTable.ts';
import type { ClimateTable } from './climateTable.ts';
import { readDensities, readSamples } from './cropTables.ts';

const places = (outcome: { ok: boolean; refusals?: readonly { path: string; code: string }[] }) => (outcome.ok ? [] : outcome.refusals!.map((refusal) => `${refusal.path} ${refusal.code}`));

describe('tables of a lot', () => {
  it('densities', () => {
    const read = readDensities('\uFEFFdate,plantsPerM2\r\n2022-02-03,90\r\n2022-02-14,60.5\r\n\r\n', 'density.csv');
    expect(read).toEqual({ ok: true, value: [{ date: '2022-02-03', plantsPerM2: 90 }, { date: '2022-02-14', plantsPerM2: 60.5 }], warnings: [] });
  });

  it('samples by day, in order, an undried plant without dry mass', () => {
    const read = readSamples('date,plant,freshG,dryG\n2022-02-15,1,15.4,0.93\n2022-02-08,1,1.74,0.19\n2022-02-15,2,12,\n2022-02-15,3,,\n', 'samples.csv');
    expect(read.ok && read.value).toEqual([
      { date: '2022-02-08', plants: [{ freshG: 1.74, dryG: 0.19 }] }, { date: '2022-02-15', plants: [{ freshG: 15.4, dryG: 0.93 }, { freshG: 12 }] },
    ]);
  });

  it('names every wrong place at once', () => {
    expect(places(readSamples('date,plant,freshG,dryG\n2022-02-30,1,1,0.1\n2022-02-08,1,abc,0.1\n2022-02-08,1,1,2\n2022-02-08,1,1\n2022-02-08,1,-1,0.1', 's.csv'))).toEqual([
      's.csv:5:1 syntax', 's.csv:2:1 value-not-allowed', 's.csv:3:1 value-not-a-number', 's.csv:4:1 inconsistent', 's.csv:6:1 value-out-of-range',
    ]);
    expect(places(readDensities('date,density\n', 'd.csv'))).toEqual(['d.csv:1:1 value-missing']);
    expect(places(readDensities('date,plantsPerM2\n', 'd.csv'))).toEqual(['d.csv:1:1 value-missing']);
    expect(places(readDensities('date,plantsPerM2\n2022-02-03,\n2022-02-04,1e9\n', 'd.csv'))).toEqual(['d.csv:2:1 value-missing', 'd.csv:3:1 value-out-of-range']);
  });

  it('takes masses and densities up to their limits and no further', () => {
    const mass = (column: 'freshG' | 'dryG', value: number) => places(readSamples(`date,plant,freshG,dryG\n2022-02-08,1,${column === 'freshG' ? `${value},` : `,${value}`}`, 's.csv'));
    const density = (value: number) => places(readDensities(`date,plantsPerM2\n2022-02-08,${value}`, 'd.csv'));
    for (const [read, least, most, file] of [
      [(value: number) => mass('freshG', value), 1e-3, 1e5, 's.csv'], [(value: number) => mass('dryG', value), 1e-4, 1e5, 's.csv'], [density, 0.1, 5000, 'd.csv'],
    ] as const) {
      for (const value of [least, most]) expect(read(value), `${value}`).toEqual([]);
      for (const value of [least * 0.999, most * 1.001]) expect(read(value), `${value}`).toEqual([`${file}:2:1 value-out-of-range`]);
    }
  });

  it('never throws, whatever the text', () => {
    assert(property(string({ maxLength: 200 }), (text) => {
      for (const read of [readSamples, readDensities, readClimateTable]) {
        read(text, 'x.csv');
        read(`date,plant,freshG,dryG,plantsPerM2,time,airC,rhPct,co2Ppm,parUmolM2S\n${text}`, 'x.csv');
      }
    }));
  });
});

/** 2022-02-01 00:00 in hours. */
const START = 19_024 * 24;

describe('climate tables', () => {
  const table = (rows: string): ClimateTable => {
    const read = readClimateTable(`time,airC,rhPct,co2Ppm,parUmolM2S\n${rows}`, 'climate.csv');
    if (!read.ok) throw new Error(JSON.stringify(read.refusals));
    return read.value;
  };
  const clock = (hour: number) => `2022-02-${String(1 + Math.floor(hour / 24)).padStart(2, '0')}T${String(hour % 24).padStart(2, '0')}:00`;
  const hourly = (from: number, to: number, airC: (hour: number) => number) => Array.from({ length: to - from }, (_, i) => `${clock(from + i)},${airC(from + i)},80,420,100`).join('\n');

  it('means of hours; a sensor\'s negative zero counts as dark; empty fields are absent', () => {
    const read = table('2022-02-01T00:00,10,80,400,-2\n2022-02-01T00:05,12,,410,100\n2022-02-01T00:55,,80,,\n2022-02-01T01:00:00Z,13,80,420,7');
    expect(read.hours.get(START)).toEqual({ airC: 11, co2Ppm: 405, ppfdUmolM2S: 50 });
    expect(read.hours.get(START + 1)).toEqual({ airC: 13, co2Ppm: 420, ppfdUmolM2S: 7 });
  });

  it('refuses clocks and numbers that cannot be', () => {
    const read = readClimateTable('time,airC,rhPct,co2Ppm,parUmolM2S\n2022-02-01T24:00,10,80,400,0\n2022-02-01T00:00,200,80,400,x\nyesterday,1,1,400,0', 'c.csv');
    expect(places(read)).toEqual(['c.csv:2:1 value-not-allowed', 'c.csv:3:1 value-out-of-range', 'c.csv:3:1 value-not-a-number', 'c.csv:4:1 value-not-allowed']);
    expect(places(readClimateTable('time,airC\n', 'c.csv'))).toEqual(['c.csv:1:1 value-missing']);
  });

  it('takes each quantity up to its limits and no further; no more than 40 wrong places are told', () => {
    for (const [column, least, most] of [[0, -40, 60], [2, 100, 10_000], [3, -5, 3000]] as const) {
      const row = (value: number) => readClimateTable(`time,airC,rhPct,co2Ppm,parUmolM2S\n2022-02-01T23:59,${['20', '80', '400', '0'].with(column, String(value)).join()}`, 'c.csv');
      for (const value of [least, most]) expect(places(row(value)), `${value}`).toEqual([]);
      for (const value of [least - 0.1, most + 0.1]) expect(places(row(value)), `${value}`).toEqual(['c.csv:2:1 value-out-of-range']);
    }
    for (const clock of ['24:00', '23:60']) expect(places(readClimateTable(`time,airC,rhPct,co2Ppm,parUmolM2S\n2022-02-01T${clock},20,80,400,0`, 'c.csv'))).toEqual(['c.csv:2:1 value-not-allowed']);
    expect(places(readClimateTable(`time,airC,rhPct,co2Ppm,parUmolM2S\n${'never,20,80,400,0\n'.repeat(60)}`, 'c.csv'))).toHaveLength(40);
  });

  it('takes the outlook after the cut and what was measured before it', () => {
    const joined = joinClimate(table(hourly(0, 48, () => 10)), table(hourly(0, 48, () => 20)), START, START + 24, START + 48);
    expect(joined.ok && [joined.value.airC[23], joined.value.airC[24], joined.value.startUtcHour]).toEqual([10, 20, START]);
  });

  it('bridges six hours by a straight line, longer gaps by the days before, and says how many', () => {
    const gap = (hours: number) => table(`${hourly(0, 36, (hour) => hour / 2)}\n${hourly(36 + hours, 72, (hour) => hour / 2)}`);
    const short = joinClimate(gap(6), gap(6), START, START + 72, START + 72);
    expect(short.ok && short.value.airC[38]).toBeCloseTo(19, 12);
    expect(short.ok && short.warnings.map((warning) => warning.value)).toEqual([6, 6, 6]);
    const long = joinClimate(gap(7), gap(7), START, START + 72, START + 72);
    expect(long.ok && long.value.airC[38]).toBe(7);
  });

  it('fills six days without a record from the three days before and the three after', () => {
    const gap = table(`${hourly(0, 72, () => 10)}\n${hourly(216, 300, () => 20)}`);
    const filled = joinClimate(gap, gap, START, START + 300, START + 300);
    expect(filled.ok && [filled.value.airC[143], filled.value.airC[144], filled.warnings[0]!.value]).toEqual([10, 20, 144]);
    const wider = table(`${hourly(0, 72, () => 10)}\n${hourly(217, 300, () => 20)}`);
    expect(joinClimate(wider, wider, START, START + 300, START + 300).ok).toBe(false);
  });

  it('refuses where nothing lies in the three days before', () => {
    const short = table(hourly(0, 24, () => 10));
    expect(joinClimate(short, short, START, START + 24, START + 96).ok).toBe(true);
    const refused = joinClimate(short, short, START, START + 24, START + 97);
    expect(places(refused)).toEqual(['climate.csv value-missing', 'climate.csv value-missing', 'climate.csv value-missing']);
    expect(!refused.ok && refused.refusals[0]!.message).toContain('2022-02-05T00:00');
  });
});
