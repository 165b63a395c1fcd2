import { describe, expect, it } from 'vitest';
import type { GreenhouseFile } from '../greenhouse/schema/greenhouseFile.ts';
import type { ProductDescription } from '../greenhouse/schema/productsFile.ts';
import { EMISSION_FACTORS } from './emissionFactors.ts';
import { drivingKWh, sumDay, type DayUse } from './sumDay.ts';

const FILE = { prices: { currency: 'GBP', dischargePerM3: 3, electricityPerKWh: 0.2, electricityKgCo2ePerKWh: 0.216, waterKgCo2ePerM3: 0.1913 } } as GreenhouseFile;
const PRODUCTS: Record<string, ProductDescription> = {
  nitrate: { id: 'nitrate', title: 'Nitrate', salt: 'KNO3', purityPct: 99, pricePerKg: 1, kgCo2ePerKg: 0.8 },
  plain: { id: 'plain', title: 'Plain', salt: 'KCl', purityPct: 99, pricePerKg: 1 },
};
const feed = (litres: number, grams: Record<string, number>) => ({ cost: 0.5, draws: [{ source: 'rain', kind: 'fresh', litres, grams: {} }, { source: 'stock', kind: 'stock', litres: 2, grams }] });
const use = (more: Partial<DayUse> = {}): DayUse => ({ feeds: [], drains: [], lampKWh: 0, vehicles: [], carriedKg: 600, ...more });

describe('sumDay', () => {
  it('adds up water by source, products, cost and where drained solution went', () => {
    const account = sumDay(use({ feeds: [feed(400, { nitrate: 100 }), feed(100, { nitrate: 50, plain: 10 })], drains: [{ litres: 30, to: 'return-1' }, { litres: 12.5, to: undefined }] }), FILE, PRODUCTS);
    expect(account).toMatchObject({ waterL: { rain: 500, stock: 4 }, productG: { nitrate: 150, plain: 10 }, returnedL: 30, dischargedL: 12.5, feedCost: 1, currency: 'GBP' });
  });

  it('counts emissions: electricity, mains water, products with and without a factor of their own', () => {
    console.log('emissions checked by hand with UK Government conversion factors 2025 (water supply 0.1913 kg/m3)');
    const account = sumDay(use({ lampKWh: 1000, feeds: [feed(2000, { nitrate: 500, plain: 100 })] }), FILE, PRODUCTS);
    expect(account.kgCo2e).toBeCloseTo(1000 * 0.216 + 2 * 0.1913 + 0.5 * 0.8 + 0.1 * 1, 2);
  });

  it('counts driving by rolling resistance: 1 km with 600 kg and 1 km empty', () => {
    // (250 + 600 + 250) kg x 1000 m x 9.81 x 0.02 / 0.7 / 3.6e6.
    expect(drivingKWh(1000, 1000, 600)).toBeCloseTo(0.08564, 4);
    const account = sumDay(use({ vehicles: [{ emptyM: 400.4, loadedM: 1000 }, { emptyM: 600, loadedM: 0 }] }), FILE, PRODUCTS);
    expect(account).toMatchObject({ vehicleEmptyM: 1000, vehicleLoadedM: 1000 });
    expect(account.kgCo2e).toBeCloseTo(0.08564 * 0.216, 2);
  });

  it('gives zeros, not gaps, for a day without work', () => {
    expect(sumDay(use(), FILE, PRODUCTS)).toMatchObject({ waterL: {}, productG: {}, dischargedL: 0, returnedL: 0, lampKWh: 0, kgCo2e: 0, feedCost: 0 });
  });

  it('keeps every factor within its own range and with a source', () => {
    for (const { value, range, source } of Object.values(EMISSION_FACTORS)) {
      expect(value).toBeGreaterThanOrEqual(range[0]);
      expect(value).toBeLessThanOrEqual(range[1]);
      expect(source.length).toBeGreaterThan(5);
    }
  });
});
