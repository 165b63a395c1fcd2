import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { describe, expect, it } from 'vitest';
import { cropCard } from '../../greenhouse/schema/cropCard.ts';
import type { OrderLine } from '../../greenhouse/schema/tableRows.ts';
import { expectOrders } from './expectedOrders.ts';
import { recordOf } from './houseRecord.ts';
import { eachBlockShare } from './eachBlockShare.ts';
import { readyBuffer, thinShare } from './readyBuffer.ts';
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
  it('expects of each day of the week what it brought on average, and knows how weeks differ', () => {
    // Mondays 2026-11-02 to 2026-11-23 with 8, 12, 8, 12 units; the order book ends on the 30th.
    const expected = expectOrders(['02', '09', '16', '23'].map((day, i) => line(`2026-11-${day}`, i % 2 === 0 ? 8 : 12)), '2026-11-16', 14);
    expect(expected.fromDate).toBe('2026-11-30');
    expect(expected.units('leaf', ['2026-12-07'])).toBeCloseTo(10, 9);
    // Weekly totals 8, 12, 8, 12: standard deviation sqrt(16 / 3).
    expect(expected.weekSd('leaf')).toBeCloseTo(2.309, 3);
    expect(expected.units('leaf', ['2026-12-08'])).toBe(0);
    expect(expected.units('other', ['2026-12-07'])).toBe(0);
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

describe('recordOf, what lots share and what they do not', () => {
  it('does not take a bend or a drift that all lots share for a spread between lots', () => {
    // Forty weeks, five lots each: all drift by 0.02 a week, and bend with size; no lot differs from its neighbours by more.
    const ratios = Array.from({ length: 200 }, (_, i) => { const [week, lot] = [Math.floor(i / 5), i % 5]; return { ageDays: 7 * (39 - week), logSize: -0.2 * lot, logRatio: 0.02 * week + 0.5 * (0.2 * lot) ** 2 }; });
    expect(recordOf(ratios).logSd).toBeLessThan(0.1);
  });
  it('finds the spread of independent lots', () => {
    const ratios = Array.from({ length: 400 }, (_, i) => ({ ageDays: 0, logSize: -i / 4000, logRatio: i % 2 === 0 ? 0.2 : -0.2 }));
    // Neighbours differ by 0.4: half the mean square is 0.08.
    expect(recordOf(ratios).logSd).toBeCloseTo(Math.sqrt(0.08), 2);
  });
  it('listens to weighings near the size of a ready plant', () => {
    const weighed = (logSize: number) => recordOf(Array.from({ length: 50 }, () => ({ ageDays: 0, logSize, logRatio: 1 }))).logBias;
    expect(weighed(0)).toBeGreaterThan(0.9);
    expect(weighed(-3)).toBeLessThan(0.2);
  });
});

describe('unitsAhead', () => {
  const days = (freshG: number, logSd: number) => [{ date: '2026-12-01', freshG, logSd, sharedLogSd: 0.1 }];
  const at = (freshG: number, logSd: number) => unitsAhead(card, 0.2, days(freshG, logSd))[0]!;
  it('counts on nothing of seedlings, on all of a lot in its best days, on nothing of one long past them', () => {
    expect(at(20, 0.1).readyChance).toBeLessThan(1e-6);
    expect(at(260, 0.01)).toMatchObject({ readyChance: expect.closeTo(1, 6), overgrownChance: expect.closeTo(0.009, 2) });
    expect(at(600, 0.1).overgrownChance).toBeGreaterThan(0.99);
    expect(at(260, 0.01).units).toBeGreaterThan(0.9);
    expect(at(260, 0.01).units).toBeLessThanOrEqual(1 - card.harvest.lossShare);
  });
  it('is likelier ready the heavier it is, and less where all lots are slow', () => {
    const near = [200, 220, 240].map((freshG) => at(freshG, 0.1).readyChance);
    expect(near[0]).toBeLessThan(near[1]!);
    expect(near[1]).toBeLessThan(near[2]!);
    expect(at(210, 0.3).readyChanceIfSlow).toBeLessThan(at(210, 0.3).readyChance);
  });
  it('counts the days that the crop keeps: overgrown is judged that long before', () => {
    const lot = [180, 200, 400].map((freshG, i) => ({ date: `2026-12-0${i + 1}`, freshG, logSd: 0.05, sharedLogSd: 0 }));
    const ahead = unitsAhead(card, 0.2, lot);
    expect(card.harvest.keepsDays).toBe(2);
    expect(ahead[2]!.overgrownChance).toBeLessThan(0.01);
  });
});

describe('readyBuffer', () => {
  const day = (readyChance: number, readyChanceIfSlow: number, overgrownChance = 0) => [{ date: '', units: 1, readyChance, readyChanceIfSlow, overgrownChance }];
  const lot = (units: number, days: ReturnType<typeof day>, yieldSpread = 0) => ({ units, firstDay: 3, days, yieldSpread });
  it('pools independent lots in squares, worked by hand', () => {
    // Four lots of 100, each ready with one half: sd 100 x sqrt(4 x 0.25) = 100; with a chance of 0.975 1.96 of them.
    const four = Array.from({ length: 4 }, () => lot(100, day(0.5, 0.5)));
    expect(readyBuffer({ lots: four, day: 3, serviceLevel: 0.975, ordersSd: 0 })).toBeCloseTo(196, 0);
    // Orders with a spread of 75 on top: sqrt(100^2 + 75^2) = 125.
    expect(readyBuffer({ lots: four, day: 3, serviceLevel: 0.975, ordersSd: 75 })).toBeCloseTo(245, 0);
    // On another day nothing is known of them.
    expect(readyBuffer({ lots: four, day: 4, serviceLevel: 0.975, ordersSd: 0 })).toBe(0);
  });
  it('adds what lots share, not its square, and the spread of what ready lots yield', () => {
    // Two lots that lose 30 each where growth is slow: 60 together.
    expect(readyBuffer({ lots: [lot(100, day(1, 0.7)), lot(100, day(1, 0.7))], day: 3, serviceLevel: 0.975, ordersSd: 0 })).toBeCloseTo(1.96 * 60, 0);
    expect(readyBuffer({ lots: [lot(100, day(1, 1), 0.3)], day: 3, serviceLevel: 0.975, ordersSd: 0 })).toBeCloseTo(1.96 * 30, 0);
    expect(readyBuffer({ lots: [lot(100, day(1, 0.7, 1), 0.3)], day: 3, serviceLevel: 0.975, ordersSd: 0 })).toBe(0);
  });
  it('averts a shortage with the chance that the normal loss function gives', () => {
    // z = 1.96: (0.39894 - 0.00945) / 1.96 = 0.1987; the loss 0.00945 from tables of the unit normal loss.
    expect(thinShare(0.975)).toBeCloseTo(0.1987, 3);
    expect(thinShare(0.5)).toBe(0.5);
  });
});
