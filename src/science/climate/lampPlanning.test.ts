import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LampPlanRequest } from './lampPlanning.ts';
import { netLampPrice, planLamps } from './lampPlanning.ts';

const LAMPS = { ppfdUmolM2S: 250, efficacyUmolJ: 2.5 }; // 100 W/m2, 0.9 mol an hour

function request(change: Partial<LampPlanRequest> = {}): LampPlanRequest {
  const hours = change.hours ?? 24;
  const sun = Float64Array.from({ length: hours }, (_, hour) => (hour % 24 >= 8 && hour % 24 < 16 ? 100 : 0)); // 2.88 mol a day
  return { startUtcMs: 0, utcOffsetH: 0, hours, lamps: LAMPS, sunPpfdUmolM2S: sun, pricePerKWh: Float64Array.from({ length: hours }, (_, hour) => 0.2 + 0.01 * (hour % 24)), targetDliMolM2: 12, darkH: 0, ...change };
}
const lit = (shares: Float64Array): number[] => Array.from(shares).flatMap((share, hour) => (share > 0 ? [hour] : []));

describe('planLamps', () => {
  it('fills the cheapest hours, the last in part, and prices one more mol by it', () => {
    const plan = planLamps(request());
    // 12 - 2.88 = 9.12 mol: ten hours of 0.9 and 0.1333 of the eleventh.
    expect(lit(plan.shares)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(plan.shares[10]).toBeCloseTo(0.12 / 0.9, 9);
    const [day] = plan.days;
    expect(day?.dliMolM2).toBeCloseTo(12, 9);
    expect(day?.lampKWhM2).toBeCloseTo(9.12 / 2.5 / 3.6, 9);
    expect(plan.cost).toBeCloseTo(0.1 * (10 * 0.245 + 0.30 * 0.12 / 0.9), 9);
    expect(day?.pricePerMol).toBeCloseTo(0.30 * 0.1 / 0.9, 9);
    expect(day?.shortfallMolM2).toBe(0);
  });

  it('says what is missing when the lamps cannot reach it', () => {
    const plan = planLamps(request({ targetDliMolM2: 30 }));
    expect(plan.days[0]?.shortfallMolM2).toBeCloseTo(30 - 2.88 - 24 * 0.9, 9);
    expect(plan.days[0]?.pricePerMol).toBeUndefined();
    expect(lit(plan.shares)).toHaveLength(24);
  });

  it('keeps lamps off on a bright day', () => {
    const plan = planLamps(request({ targetDliMolM2: 2 }));
    expect([lit(plan.shares), plan.cost, plan.days[0]?.dliMolM2]).toEqual([[], 0, expect.closeTo(2.88, 9)]);
  });

  it('keeps one dark period on all days, where it costs least', () => {
    const plan = planLamps(request({ hours: 48, darkH: 8 }));
    // Dark stretches without sun begin at 16 to 24 o'clock; the dearest hours are 16 to 23.
    expect([plan.darkFromH, plan.darkIsDark]).toEqual([16, true]);
    expect(lit(plan.shares).some((hour) => hour % 24 >= 16)).toBe(false);
    const dear = planLamps(request({ darkH: 8, pricePerKWh: Float64Array.from({ length: 24 }, (_, hour) => (hour < 8 ? 1 : 0.2)) }));
    expect(dear.darkFromH).toBe(0);
  });

  it('says so where the night is shorter than the dark period', () => {
    const sun = Float64Array.from({ length: 24 }, (_, hour) => (hour >= 4 && hour < 22 ? 100 : 0));
    const plan = planLamps(request({ darkH: 8, sunPpfdUmolM2S: sun, targetDliMolM2: 10 }));
    expect(plan.darkIsDark).toBe(false);
    const [from, until] = [plan.darkFromH as number, ((plan.darkFromH as number) + 8) % 24];
    expect([from <= 22 && from >= 20, until >= 4 && until <= 6]).toEqual([true, true]);
    expect(lit(plan.shares).every((hour) => hour >= until && hour < from)).toBe(true);
  });

  it('does not push light past its limit', () => {
    const plan = planLamps(request({ targetDliMolM2: 99, mostPpfdUmolM2S: 150 }));
    expect([plan.shares[0], plan.shares[10]]).toEqual([150 / 250, 50 / 250]);
    expect(planLamps(request({ targetDliMolM2: 99, mostPpfdUmolM2S: 80 })).shares[10]).toBe(0);
  });

  it('keeps the past and plans the rest', () => {
    const plan = planLamps(request({ pastShares: Float64Array.of(0, 0, 1, 1) }));
    expect(Array.from(plan.shares.subarray(0, 4))).toEqual([0, 0, 1, 1]);
    expect(plan.days[0]?.dliMolM2).toBeCloseTo(12, 9);
    expect(lit(plan.shares)).toEqual([2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
  });

  it('gives days their own sun and price', () => {
    const two = request({ hours: 48, startUtcMs: 3 * 3_600_000, utcOffsetH: -3 });
    const plan = planLamps({ ...two, pricePerKWh: two.pricePerKWh.map((price, hour) => (hour < 24 ? price : 1 - price)) });
    expect(plan.days.map((day) => [day.fromHour, day.toHour])).toEqual([[0, 24], [24, 48]]);
    expect(lit(plan.shares).find((hour) => hour >= 24)).toBe(24 + 13);
  });

  it('is optimal: no light can be moved to a cheaper hour, and no dark period is cheaper (random days)', () => {
    fc.assert(fc.property(
      fc.array(fc.integer({ min: -5, max: 40 }), { minLength: 24, maxLength: 24 }), fc.array(fc.integer({ min: 0, max: 300 }), { minLength: 24, maxLength: 24 }),
      fc.integer({ min: 1, max: 25 }), fc.integer({ min: 0, max: 10 }), fc.constantFrom(undefined, 320),
      (cents, sun, target, darkH, most) => {
        const asked = request({ pricePerKWh: Float64Array.from(cents, (one) => one / 100), sunPpfdUmolM2S: Float64Array.from(sun), targetDliMolM2: target, darkH, mostPpfdUmolM2S: most });
        const plan = planLamps(asked);
        const inDark = (hour: number, from: number | undefined) => from !== undefined && (hour - from + 24) % 24 < darkH;
        const room = (hour: number, from: number | undefined) => (inDark(hour, from) ? 0 : most === undefined ? 1 : Math.max(0, Math.min(1, (most - (sun[hour] as number)) / 250)));
        const prices = asked.pricePerKWh;
        // Complementary slackness: an hour with light is never dearer than an hour with room left.
        for (let a = 0; a < 24; a += 1) {
          expect(plan.shares[a]).toBeLessThanOrEqual(room(a, plan.darkFromH) + 1e-12);
          for (let b = 0; b < 24; b += 1) {
            if ((plan.shares[a] as number) > 1e-9 && (plan.shares[b] as number) < room(b, plan.darkFromH) - 1e-9) expect(prices[a]).toBeLessThanOrEqual((prices[b] as number) + 1e-12);
          }
        }
        const day = plan.days[0]!;
        const sunMol = sun.reduce((sum, one) => sum + one * 0.0036, 0);
        const most24 = Array.from({ length: 24 }, (_, hour) => room(hour, plan.darkFromH) * 0.9).reduce((sum, one) => sum + one, 0);
        expect(day.dliMolM2).toBeCloseTo(Math.max(sunMol, Math.min(target, sunMol + most24)), 6);
        // Every other start of the dark period with as little sun is no better.
        if (darkH === 0) return;
        const sunIn = (from: number) => sun.reduce((sum, one, hour) => sum + (inDark(hour, from) && one > 1 ? one : 0), 0);
        const least = Math.min(...Array.from({ length: 24 }, (_, from) => sunIn(from)));
        expect(sunIn(plan.darkFromH as number)).toBe(least);
        for (let from = 0; from < 24; from += 1) {
          if (sunIn(from) > least) continue;
          const other = cheapest(prices, (hour) => room(hour, from), Math.max(0, target - sunMol) / 0.9);
          expect(day.shortfallMolM2).toBeLessThanOrEqual(other.missing * 0.9 + 1e-6);
          if (Math.abs(day.shortfallMolM2 - other.missing * 0.9) < 1e-6) expect(plan.cost).toBeLessThanOrEqual(other.cost * 0.1 + 1e-6);
        }
      },
    ), { numRuns: 300, seed: 4 });
  });
});

/** Independent least cost of a number of lamp hours: price level by price level. */
function cheapest(prices: Float64Array, room: (hour: number) => number, wanted: number): { cost: number; missing: number } {
  let [cost, left] = [0, wanted];
  for (const level of [...new Set(prices)].sort((a, b) => a - b)) {
    const here = Array.from(prices).reduce((sum, price, hour) => sum + (price === level ? room(hour) : 0), 0);
    cost += level * Math.min(left, here);
    left -= Math.min(left, here);
  }
  return { cost, missing: left };
}

describe('netLampPrice', () => {
  it('takes off the heat that lamps replace while heat is needed', () => {
    expect(netLampPrice(0.25, 0.1, 0.34, true)).toBeCloseTo(0.216, 9);
    expect(netLampPrice(0.25, 0.1, 0.34, false)).toBe(0.25);
  });
});
