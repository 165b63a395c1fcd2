import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bleedToHold, concentrationAfter, daysToReach, plateauOf, type SaltPool } from './saltBuildUp.ts';

/** A basin of 450 L, 12 L a day absorbed, make-up of 0.6 mmol/L sodium. */
const POOL: SaltPool = { volumeL: 450, startMmolPerL: 0.6, absorbedLPerDay: 12, makeUpMmolPerL: 0.6, uptakeMmolPerL: 0, uptakeShare: 0, bleedShare: 0 };
const VECTORS = '../shared/data/horticulture-test-vectors.json';

describe('salts that a crop leaves behind', () => {
  it('rises evenly where uptake does not follow it: (4 - 0.6) x 450 / (12 x 0.3) = 425 days to 4 mmol/L', () => {
    const pool = { ...POOL, uptakeMmolPerL: 0.3 };
    expect(daysToReach(pool, 4)).toBeCloseTo(425, 9);
    expect(concentrationAfter(pool, 425)).toBeCloseTo(4, 12);
    expect(plateauOf(pool)).toBeUndefined();
    expect(daysToReach({ ...pool, uptakeMmolPerL: 0.7 }, 4)).toBeUndefined();
    expect(daysToReach(pool, 0.5)).toBe(0);
  });
  it('levels off where uptake is a share of it: 0.6 / 0.1 = 6 mmol/L, with 450 / (12 x 0.1) = 375 days', () => {
    const pool = { ...POOL, uptakeShare: 0.1 };
    expect(plateauOf(pool)).toBeCloseTo(6, 12);
    expect((6 - concentrationAfter(pool, 375)) / (6 - 0.6)).toBeCloseTo(Math.exp(-1), 12);
    expect(concentrationAfter(pool, daysToReach(pool, 4)!)).toBeCloseTo(4, 12);
    expect(daysToReach(pool, 6)).toBeUndefined();
  });
  it('is held by a bleed, and the bled pool levels off just there', () => {
    const bleedShare = bleedToHold({ ...POOL, makeUpMmolPerL: 1, uptakeMmolPerL: 0.3 }, 4)!;
    expect(bleedShare).toBeCloseTo(0.7 / 3, 12);
    expect(plateauOf({ ...POOL, makeUpMmolPerL: 1, uptakeMmolPerL: 0.3, bleedShare })).toBeCloseTo(4, 12);
    expect(bleedToHold(POOL, 0.6)).toBeUndefined();
    expect(bleedToHold({ ...POOL, uptakeMmolPerL: 0.8 }, 4)).toBe(0);
  });
  it.skipIf(!existsSync(VECTORS))('agrees with the test vectors of the horticulture notes (computed there from the balance; behaviour as in Savvas et al. 2005)', () => {
    const { na_accumulation: is } = JSON.parse(readFileSync(VECTORS, 'utf8')) as { na_accumulation: { const_uptake: Record<string, number>; proportional: Record<string, number>; bleed_fraction: Record<string, number> } };
    const constant = { ...POOL, volumeL: is.const_uptake.V_L!, absorbedLPerDay: is.const_uptake.W_L_d!, makeUpMmolPerL: is.const_uptake.c_in!, uptakeMmolPerL: is.const_uptake.c_up!, startMmolPerL: is.const_uptake.C0! };
    expect(daysToReach(constant, 4)).toBeCloseTo(is.const_uptake.days_to_4mmol!, 6);
    const shared = { ...POOL, uptakeShare: is.proportional.lambda! };
    expect([plateauOf(shared), 450 / 12 / is.proportional.lambda!]).toEqual([expect.closeTo(is.proportional.C_inf!, 6), expect.closeTo(is.proportional.tau_d!, 6)]);
    for (const days of [30, 100, 365]) expect(concentrationAfter(shared, days), `${days} d`).toBeCloseTo(is.proportional[`C${days}`]!, 3);
    for (const makeUp of ['0.5', '1.0', '2.0']) expect(bleedToHold({ makeUpMmolPerL: Number(makeUp), uptakeMmolPerL: is.bleed_fraction.c_up!, uptakeShare: 0 }, is.bleed_fraction.C_max!)).toBeCloseTo(is.bleed_fraction[`c_in_${makeUp}`]!, 4);
    console.log('sodium build-up: 9 figures of the horticulture notes met');
  });
});
