import { describe, expect, it } from 'vitest';
import { basinWaterC, delayH } from './basinWater.ts';

const BASIN = { waterKg: 450, surfaceM2: 4, exchangeWM2K: 5 };

describe('basinWaterC', () => {
  it('follows the air with the delay of its heat capacity', () => {
    // 450 kg x 4180 J/(kg K) = 1.881 MJ/K over 20 W/K: 94,050 s.
    expect(delayH(BASIN)).toBeCloseTo(94_050 / 3600, 9);
    const water = basinWaterC(new Float64Array(200).fill(20), 10, BASIN);
    expect(water[0]).toBeCloseTo(20 - 10 * Math.exp(-3600 / 94_050), 9);
    expect(water[99]).toBeCloseTo(20 - 10 * Math.exp(-360_000 / 94_050), 9);
  });
  it('evens out day and night', () => {
    const air = Float64Array.from({ length: 480 }, (_, hour) => 20 + 5 * Math.sin(hour * Math.PI / 12));
    const last = basinWaterC(air, 20, BASIN).subarray(456);
    // A first-order lag damps a daily wave to 1/sqrt(1 + (2 pi 26.1/24)^2) = 0.145 of it.
    expect((Math.max(...last) - Math.min(...last)) / 10).toBeCloseTo(0.145, 2);
  });
});
