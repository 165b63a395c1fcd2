import { describe, expect, test } from 'vitest';
import { startRandom } from '../../seededRandom.ts';
import type { WatchedPlant } from './watchPlants.ts';
import { watchPlants } from './watchPlants.ts';

const random = startRandom(12);
const GREEN = { red: 90, green: 140, blue: 70 };

/** Twenty alike plants, and the same a scan later, 30 % larger; each with a little of its own. */
const before: WatchedPlant[] = Array.from({ length: 20 }, (_, i) => {
  const size = Math.exp(0.05 * random.normal());
  return { raft: 'A', position: i, present: true, areaMm2: 8000 * size, volumeMm3: 300_000 * size, heightP95Mm: 50, heightMaxMm: 60, diameterMm: 110, sharedOutline: 0, points: 900, colour: GREEN };
});
const later = (plant: WatchedPlant): WatchedPlant => {
  const growth = Math.exp(Math.log(1.3) + 0.02 * random.normal());
  return { ...plant, volumeMm3: plant.volumeMm3 * growth, heightP95Mm: plant.heightP95Mm * 1.1, diameterMm: plant.diameterMm * 1.1 };
};
const grown = before.map(later);
const changed = (position: number, change: (plant: WatchedPlant) => Partial<WatchedPlant>) => grown.map((plant) => plant.position === position ? { ...plant, ...change(plant) } : plant);
const reasons = (now: readonly WatchedPlant[], forecast?: { lnGrowth: number; lnSd: number }) => watchPlants({ now, before, forecast }).map(({ position, reason }) => `${position} ${reason}`);

describe('plants to look at', () => {
  test('none when all grow alike', () => expect(reasons(grown)).toEqual([]));

  test('one that is gone, and one that shrank', () => {
    expect(reasons(changed(3, () => ({ present: false, volumeMm3: 0 })))).toEqual(['3 gone']);
    expect(reasons(changed(4, () => ({ volumeMm3: before[4]!.volumeMm3 * 0.9 })))).toContain('4 shrank');
  });

  test('a small drop is within repeatability, more so between touching plants', () => {
    const drop = (sharedOutline: number) => reasons(changed(4, () => ({ volumeMm3: before[4]!.volumeMm3 * 0.9, sharedOutline })));
    expect(drop(1)).not.toContain('4 shrank');
    expect(drop(0)).toContain('4 shrank');
  });

  test('one that lags behind its fellows; all that lag behind the forecast', () => {
    expect(reasons(changed(5, () => ({ volumeMm3: before[5]!.volumeMm3 * 1.05 })))).toEqual(['5 lags']);
    expect(reasons(grown, { lnGrowth: Math.log(1.3), lnSd: 0.05 })).toEqual([]);
    expect(reasons(grown, { lnGrowth: Math.log(1.8), lnSd: 0.05 }).filter((reason) => reason.endsWith('lags'))).toHaveLength(20);
  });

  test('one that bolts, one that yellows, one outside of its neighbours', () => {
    expect(reasons(changed(6, ({ heightP95Mm }) => ({ heightP95Mm: heightP95Mm * 1.4 })))).toEqual(['6 bolts']);
    expect(reasons(changed(7, () => ({ colour: { red: 150, green: 145, blue: 70 } })))).toEqual(['7 yellows']);
    expect(watchPlants({ now: changed(8, ({ volumeMm3 }) => ({ volumeMm3: volumeMm3 * 2.5 })) })).toMatchObject([{ position: 8, reason: 'outside' }]);
  });

  test('few plants have no middle to be held against', () => expect(watchPlants({ now: grown.slice(0, 5), before })).toEqual([]));
});
