import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { describe, expect, it } from 'vitest';
import { cropCard } from '../../greenhouse/schema/cropCard.ts';
import type { OrderLine } from '../../greenhouse/schema/tableRows.ts';
import { expectOrders } from './expectedOrders.ts';
import { recordOf } from './houseRecord.ts';
import { eachBlockShare } from './sowingModel.ts';
import { sowingCalendar, weekdayOf } from './sowingCalendar.ts';
import { unitsAhead } from './unitsAhead.ts';

const card = cropCard.parse(parse(readFileSync(new URL('../../../data/crops/butterhead.yaml', import.meta.url), 'utf8')));

describe('sowingCalendar', () => {
  it('knows the days of the week', () => expect(['2026-11-23', '2026-11-25', '2026-11-29'].map(weekdayOf)).toEqual([1, 3, 7]));
  it('sows on the given days and counts in the spans between them', () => {
    const calendar = sowingCalendar('2026-11-25', 2, [1, 4], 7);
    expect(calendar.sowDays.map(calendar.dateOf)).toEqual(['2026-11-26', '2026-11-30', '2026-12-03', '2026-12-07']);
    expect(calendar.blocks.slice(0, 3)).toEqual([{ fromDay: 0, toDay: 0, week: 0 }, { fromDay: 1, toDay: 4, week: 0 }, { fromDay: 5, toDay: 7, week: 0 }]);
    expect([0, 4, 5, 20, 21].map(calendar.blockAt)).toEqual([0, 1, 2, calendar.blocks.length - 1, undefined]);
  });
});

describe('eachBlockShare', () => {
  it('gives the share of each block in days', () => {
    const shares: [number, number][] = [];
    eachBlockShare({ blocks: [{ fromDay: 0, toDay: 3, week: 0 }, { fromDay: 4, toDay: 6, week: 0 }, { fromDay: 7, toDay: 9, week: 1 }] }, 3, 6, (block, share) => shares.push([block, share]));
    expect(shares).toEqual([[0, 0.25], [1, 2 / 3]]);
  });
});

describe('expectOrders', () => {
  const line = (due: string, units: number): OrderLine => ({ order: due, line: 1, customer: 'c', crop: 'leaf', units, due });
  it('expects of each day of the week what it brought on average, and covers its spread', () => {
    // Mondays 2026-11-02 to 2026-11-23 with 8, 12, 8, 12 units; the order book ends on the 30th.
    const expected = expectOrders(['02', '09', '16', '23'].map((day, i) => line(`2026-11-${day}`, i % 2 === 0 ? 8 : 12)), '2026-11-16', 14, 0.975);
    expect(expected.fromDate).toBe('2026-11-30');
    const monday = expected.units('leaf', ['2026-12-07']);
    expect(monday.mean).toBeCloseTo(10, 9);
    // Weekly totals 8, 12, 8, 12: mean 10, standard deviation 2.309; 10 (1 + 1.96 x 0.2309 / sqrt 2) = 13.2.
    expect(monday.cover).toBeCloseTo(13.2, 2);
    expect(expected.units('leaf', ['2026-12-08']).mean).toBe(0);
    expect(expected.units('other', ['2026-12-07']).mean).toBe(0);
  });
});

describe('recordOf', () => {
  it('believes in no bias before anything was weighed', () => expect(recordOf([])).toMatchObject({ logBias: 0, slope: 0, samples: 0 }));
  it('finds the line through many weighings, read at the size of a ready plant', () => {
    const ratios = Array.from({ length: 400 }, (_, i) => ({ logSize: -(i % 20) / 10, logRatio: 0.4 - 0.2 * ((i % 20) / 10), ageDays: 0 }));
    const record = recordOf(ratios);
    expect(record.logBias).toBeCloseTo(0.4, 2);
    expect(record.slope).toBeCloseTo(0.2, 2);
    expect(record.logSd).toBeLessThan(0.06);
  });
  it('lets old weighings fade: three weeks halve them', () => {
    const two = (ageDays: number) => recordOf([...Array.from({ length: 50 }, () => ({ logSize: 0, logRatio: 0, ageDays })), ...Array.from({ length: 50 }, () => ({ logSize: 0, logRatio: 0.3, ageDays: 0 }))]).logBias;
    expect(two(0)).toBeCloseTo(0.15, 2);
    expect(two(21)).toBeCloseTo(0.2, 2);
  });
});

describe('unitsAhead', () => {
  const days = (freshG: number, logSd: number) => [{ date: '2026-12-01', freshG, logSd }];
  const at = (freshG: number, logSd: number) => unitsAhead(card, 0.2, days(freshG, logSd), { serviceLevel: 0.97, sowingEveryDays: 3.5 })[0]!;
  it('gives nothing of seedlings, nearly all of a lot in its best days, nothing of one long past them', () => {
    expect(at(20, 0.1).meanUnits).toBeLessThan(1e-6);
    expect(at(260, 0.01).meanUnits).toBeGreaterThan(0.9);
    expect(at(260, 0.01).meanUnits).toBeLessThanOrEqual(1 - card.harvest.lossShare);
    expect(at(600, 0.1).meanUnits).toBe(0);
  });
  it('is less sure the wider the spread, and never surer than the mean', () => {
    expect(at(230, 0.05).isSurelyReady).toBe(true);
    expect(at(230, 0.4).isSurelyReady).toBe(false);
    expect(at(230, 0.4).overgrownChance).toBeGreaterThan(at(230, 0.05).overgrownChance);
    expect(at(230, 0.05).sureUnits).toBeLessThan(at(230, 0.05).meanUnits);
  });
  it('counts the days that the crop keeps: overgrown is judged that long before', () => {
    const lot = [180, 200, 400].map((freshG, i) => ({ date: `2026-12-0${i + 1}`, freshG, logSd: 0.05 }));
    const ahead = unitsAhead(card, 0.2, lot, { serviceLevel: 0.97, sowingEveryDays: 3.5 });
    expect(card.harvest.keepsDays).toBe(2);
    expect(ahead[2]!.overgrownChance).toBeLessThan(0.01);
  });
});
