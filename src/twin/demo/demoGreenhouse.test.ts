import { parse } from 'yaml';
import { describe, expect, it } from 'vitest';
import { greenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import { cropCard } from '../../greenhouse/schema/cropCard.ts';
import { productsFile } from '../../greenhouse/schema/productsFile.ts';
import { demoGreenhouse } from './demoGreenhouse.ts';
import { readDemoSources } from './readDemoSources.ts';

const request = { seed: 7, date: '2026-11-25', written: readDemoSources() };
const files = demoGreenhouse(request);
const rows = (path: string) => (files[path] ?? '').trimEnd().split('\n').slice(1).map((line) => line.split(','));
const greenhouse = greenhouseFile.parse(parse(files['greenhouse.yaml'] ?? ''));

describe('the demonstration greenhouse', () => {
  it('is the same for the same seed and date, and another for another seed', () => {
    expect(demoGreenhouse(request)).toEqual(files);
    expect(demoGreenhouse({ ...request, seed: 8 })['lots.csv']).not.toEqual(files['lots.csv']);
  });

  it('has two glass bays and a nursery, 240 basins, two vehicles and one station of each of five kinds', () => {
    expect(greenhouse.bays.map((bay) => bay.kind).sort()).toEqual(['glass', 'glass', 'nursery']);
    expect(greenhouse.basins.reduce((sum, group) => sum + group.count, 0)).toBe(240);
    expect(greenhouse.vehicles).toHaveLength(2);
    expect(new Set(greenhouse.stations.map((station) => station.kind)).size).toBe(5);
  });

  it('has four crop cards and a shelf of products that fit their schemas', () => {
    const cards = Object.keys(files).filter((path) => path.startsWith('crops/')).map((path) => cropCard.parse(parse(files[path] ?? '')));
    expect(cards.map((card) => card.id).sort()).toEqual(['basil', 'butterhead', 'coriander', 'oakleaf']);
    expect(productsFile.parse(parse(files['fertilisers.yaml'] ?? '')).products.length).toBeGreaterThan(10);
  });

  it('has basins that weigh more than 454 kg when filled and less than a vehicle may carry (1,000 lb: common practice, no source)', () => {
    for (const type of greenhouse.basinTypes) {
      const filledKg = type.emptyKg + type.rafts * type.raftKg + (type.lengthMm * type.widthMm * type.depthMm) / 1e6;
      expect(filledKg).toBeGreaterThan(454);
      for (const vehicle of greenhouse.vehicles) expect(filledKg).toBeLessThan(vehicle.maximumLoadKg);
    }
  });

  it('has three weeks of readings, samples of every older lot and four weeks of orders of twelve customers', () => {
    const days = new Set(rows('readings.csv').filter((row) => row[1]?.startsWith('basin:')).map((row) => row[0]?.slice(0, 10)));
    expect(days.size).toBe(21);
    const due = rows('orders.csv').map((row) => row[5] ?? '').sort();
    expect(due[0]).toBe('2026-11-25');
    expect(due.at(-1)! >= '2026-12-20').toBe(true);
    expect(new Set(rows('orders.csv').map((row) => row[2])).size).toBe(12);
    expect(rows('samples.csv').length).toBeGreaterThan(300);
  });

  it('has lots in trays, the oldest due in basins this morning, and none of them in a basin yet', () => {
    const sowings = rows('sowings.csv'), standing = new Set(rows('lots.csv').map((row) => row[0]));
    expect(sowings.map((row) => row[2]).sort().at(0)).toBe('2026-11-20');
    expect(sowings.map((row) => row[2]).sort().at(-1)! < '2026-11-25').toBe(true);
    expect(sowings.filter((row) => standing.has(row[0]))).toEqual([]);
    expect(new Set(sowings.map((row) => row[1])).size).toBe(4);
  });

  it('puts no two stands into one basin and places each lot after it was sown', () => {
    const lots = rows('lots.csv');
    expect(new Set(lots.map((row) => row[2])).size).toBe(lots.length);
    for (const row of lots) expect((row[5] ?? '') >= (row[4] ?? '')).toBe(true);
  });
});
