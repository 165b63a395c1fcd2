import { expect, it } from 'vitest';
import { plantFeatures } from '../../src/planning/imaging/plantFeatures.ts';
import { growPlants, inventPlants, inventScan } from './inventScan.ts';

const young = inventPlants(), LATER = { takenAt: '2026-03-05T08:00:00.000Z', ageDays: 34 } as const;
const [AREA, VOLUME, , SLENDER, GREEN, BRIGHT, GROWTH, SHARED, GREEN_ITSELF, HUE, AMONG, AGE] = Array.from({ length: 12 }, (_, i) => i) as [number, number, number, number, number, number, number, number, number, number, number, number];

it('a plant that differs in one thing differs in the features that tell it, by worked values', () => {
  const alike = young.map((plant) => ({ ...plant, areaMm2: 9000, volumeMm3: 400_000 }));
  const now = alike.map((plant, i) => (i === 5 ? { ...plant, areaMm2: 4500, volumeMm3: 200_000, heightP95Mm: 120, sharedOutline: 0.5, colour: { red: 120, green: 120, blue: 60 } } : plant));
  const features = plantFeatures(inventScan(now, LATER), inventScan(alike)), odd = features.get('1/6')!, usual = features.get('1/1')!;
  expect(features.size).toBe(24);
  expect([odd[AREA], odd[VOLUME], odd[SLENDER], odd[SHARED]].map((value) => Number(value!.toFixed(6)))).toEqual([Math.log(0.5), Math.log(0.5), Math.log(2), 0.5].map((value) => Number(value.toFixed(6))));
  // Growth: half the volume in four days against none. Excess green (Woebbecke 1995): (2 x 120 - 120 - 60) / 300 = 0.2 against (280 - 90 - 70) / 300 = 0.4.
  expect(odd[GROWTH]).toBeCloseTo(Math.log(0.5) / 4, 6);
  expect(odd[GREEN]).toBeCloseTo(-0.2, 6);
  expect([odd[GREEN_ITSELF], usual[GREEN_ITSELF]].map((value) => value!.toFixed(3))).toEqual(['0.200', '0.400']);
  // Hue of (120, 120, 60) is 60 degrees, yellow.
  expect(odd[HUE]).toBeCloseTo(1, 6);
  expect(odd[BRIGHT]).toBeCloseTo(0, 6);
  expect(odd[AMONG]).toBeCloseTo(Math.log(0.5), 6);
  expect(odd[AGE]).toBeCloseTo(34 / 30, 9);
  // Position 5 stands beside it: one of its four nearest has half the volume.
  expect(features.get('1/5')![AMONG]).toBeCloseTo(-Math.log(0.5) / 4, 6);
  expect(usual.slice(0, SHARED + 1)).toEqual(Array.from({ length: SHARED + 1 }, () => expect.closeTo(0, 9)));
});

it('without an earlier scan or colours those features count as the middle; plants without size have none', () => {
  const bare = young.map((plant, i) => ({ ...plant, colour: undefined, ...(i === 2 ? { areaMm2: 0 } : {}) })), features = plantFeatures(inventScan(bare), undefined);
  expect(features.has('1/3')).toBe(false);
  for (const row of features.values()) {
    expect(row).toHaveLength(12);
    expect(row.every(Number.isFinite)).toBe(true);
    expect([row[GREEN], row[BRIGHT], row[GROWTH], row[GREEN_ITSELF], row[HUE]]).toEqual([0, 0, 0, 0, 0]);
  }
  expect(plantFeatures(inventScan([]), undefined).size).toBe(0);
});

it('growth is counted a day, and a new plant counts as the middle', () => {
  const now = growPlants(young, 2), features = plantFeatures(inventScan(now, LATER), inventScan(young.slice(1)));
  expect(features.get('1/1')![GROWTH]).toBe(0);
  expect(Math.max(...[...features.values()].map((row) => Math.abs(row[GROWTH]!)))).toBeLessThan(0.03);
});
