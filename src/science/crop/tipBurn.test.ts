import { describe, expect, it } from 'vitest';
import { burntShare, countedGrowth, countedLight, LETTUCE_TIP_BURN } from './tipBurn.ts';

const day = (ppfd: number, airC: number) => ({ airC: new Float64Array(24).fill(airC), ppfdUmolM2S: Float64Array.from({ length: 24 }, (_, h) => (h >= 6 && h < 22 ? ppfd : 0)) });

describe('tip-burn', () => {
  it('counts light above 17 mol a day: 400 umol for 16 h are 23.04', () => {
    expect(countedLight(LETTUCE_TIP_BURN, day(400, 22), 0)).toBeCloseTo(6.04, 10);
    expect(countedLight(LETTUCE_TIP_BURN, day(200, 22), 0)).toBe(0);
  });
  it('counts all light of hours above 28 C, unless the roots are at 26 C or more', () => {
    expect(countedLight(LETTUCE_TIP_BURN, day(200, 30), 0)).toBeCloseTo(11.52, 10);
    expect(countedLight(LETTUCE_TIP_BURN, day(200, 28), 0)).toBe(0);
    expect(countedLight(LETTUCE_TIP_BURN, day(200, 30), 0, 25.9)).toBeCloseTo(11.52, 10);
    expect(countedLight(LETTUCE_TIP_BURN, day(400, 30), 0, 26)).toBeCloseTo(6.04, 10);
  });
  it('counts growth beyond 15 g/m2/d as light at 0.75 g/mol; a part of a day as far as it reaches', () => {
    expect(countedGrowth(LETTUCE_TIP_BURN, 18)).toBeCloseTo(4, 12);
    expect(countedGrowth(LETTUCE_TIP_BURN, 15)).toBe(0);
    expect(countedLight(LETTUCE_TIP_BURN, day(400, 30), 18)).toBeCloseTo(4 * 1.44, 10);
  });
  it('half of the plants after 40 mol, three quarters after 80', () => {
    expect([0, 40, 80].map((mol) => burntShare(LETTUCE_TIP_BURN, mol))).toEqual([0, 0.5, 0.75]);
    expect(burntShare({ ...LETTUCE_TIP_BURN, halfMolM2: 20 }, 40)).toBe(0.75);
  });
});
