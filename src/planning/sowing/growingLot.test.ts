import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { expect, it } from 'vitest';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import { cropCard } from '../../greenhouse/schema/cropCard.ts';
import { sourceOf } from './growingLot.ts';
import type { SowingPlace } from './sowingProblem.ts';
import type { SowingHouse } from './sowingHouse.ts';
import { sowingCalendar } from './sowingCalendar.ts';

const card = cropCard.parse(parse(readFileSync(new URL('../../../data/crops/basil.yaml', import.meta.url), 'utf8')));
const PLACE = { id: 'glass', kind: 'glass', basinM2: 2.88 } as unknown as SowingPlace;
const HOUSE = { file: { stations: [], sowing: { turnaroundDays: 1, overgrownRisk: 0.2, wagePerHour: 0, basinCostPerWeek: 0, serviceLevel: 0.97 }, prices: { electricityPerKWh: 0 } } as unknown as GreenhouseFile, places: [PLACE], lampKWhOn: () => 0 } satisfies SowingHouse;
/** Blocks of days 0, 1 to 4, 5 to 7, 8 to 11, 12 to 13. */
const CALENDAR = sowingCalendar('2026-11-25', 2, [1, 4], 0);

/** Blocks and units per plant of a lot with these chances by day of being grown enough and of being past its best. */
const blocksOf = (ready: readonly number[], overgrown: readonly number[]) => sourceOf({
  id: 'L', card, stages: [{ stage: 0, place: PLACE, fromDay: -30, toDay: -10 }, { stage: 1, place: PLACE, fromDay: -10, toDay: Infinity }], plantsPerBasin: 100, isNew: false,
  units: Array.from({ length: 14 }, (_, day) => ({ date: CALENDAR.dateOf(day), units: 0.5, readyChance: ready[day] ?? 1, readyChanceIfSlow: ready[day] ?? 1, overgrownChance: overgrown[day] ?? 1 })),
}, HOUSE, CALENDAR).cuts.map(({ block, unitsPerPlant }) => [block, unitsPerPlant]);

it('cuts a lot in the blocks in which it is good from the first day to the last', () => {
  expect(blocksOf([0, 1, 1, 1, 1, 1, 1, 1], Array.from({ length: 14 }, (_, day) => (day < 12 ? 0 : 1)))).toEqual([[1, 0.5], [2, 0.5], [3, 0.5]]);
});

it('lets one that has a single such block serve those beside it with what may be expected of it', () => {
  // Good on days 5 to 7 only. On day 4 it is ready with 0.8; on day 11 past its best with 0.55, which is too likely.
  expect(blocksOf([0.3, 0.6, 0.6, 0.7, 0.8, 1, 1, 1], [0, 0, 0, 0, 0, 0, 0, 0, 0.1, 0.2, 0.3, 0.3, 0.9, 0.9].map((chance, day) => (day === 11 ? 0.55 : chance)))).toEqual([[1, 0.5 * 0.8], [2, 0.5]]);
  expect(blocksOf([0.3, 0.3, 0.3, 0.3, 0.3, 1, 1, 1], Array.from({ length: 14 }, (_, day) => (day < 8 ? 0 : 0.9)))).toEqual([[2, 0.5]]);
});
