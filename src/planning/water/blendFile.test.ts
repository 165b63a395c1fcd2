import * as fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { LinearSolver } from '../solver/linearModel.ts';
import { loadLinearSolver } from '../solver/loadLinearSolver.ts';
import { blendFile, type BlendFileAnswer } from './blendFile.ts';

let solver: LinearSolver;
beforeAll(async () => { solver = await loadLinearSolver(); });

function blend(input: unknown): BlendFileAnswer {
  const out = blendFile(input, solver);
  if (!out.ok) throw new Error(JSON.stringify(out.refusals));
  return out.value;
}

const RAIN = { id: 'rain', mmolPerL: {}, availableL: 1000, costPerL: 0.001 };
/** One mole a litre of each salt of Hoagland & Arnon (1950), solution no. 1. */
const SALTS = [
  { id: 'KH2PO4', mmolPerL: { K: 1000, P: 1000 }, availableL: 10, costPerL: 1 },
  { id: 'KNO3', mmolPerL: { K: 1000, NO3: 1000 }, availableL: 10, costPerL: 1 },
  { id: 'Ca(NO3)2', mmolPerL: { Ca: 1000, NO3: 2000 }, availableL: 10, costPerL: 1 },
  { id: 'MgSO4', mmolPerL: { Mg: 1000, SO4: 1000 }, availableL: 10, costPerL: 1 },
];
const exactly = (target: Record<string, number>) => Object.fromEntries(Object.entries(target).map(([ion, at]) => [ion, [at, at]]));
const empty = (band: object, litres = 100) => ({ id: 'B1', volumeL: 0, mmolPerL: {}, targetVolumeL: [litres, litres], mmolPerLBand: band });

describe('blendFile', () => {
  it('finds the salts of Hoagland & Arnon 1950 no. 1: 1 KH2PO4, 5 KNO3, 5 Ca(NO3)2, 2 MgSO4 mmol/L', () => {
    console.log('blend checked against Hoagland & Arnon 1950, solution no. 1');
    const answer = blend({ sources: [RAIN, ...SALTS], basins: [empty(exactly({ K: 6, Ca: 5, Mg: 2, NO3: 15, SO4: 2, P: 1 }))] });
    expect(answer.status).toBe('optimal');
    const drawn = answer.drawL['B1']!;
    for (const [salt, litres] of [['KH2PO4', 0.1], ['KNO3', 0.5], ['Ca(NO3)2', 0.5], ['MgSO4', 0.2], ['rain', 98.7]] as const) expect(drawn[salt]).toBeCloseTo(litres, 6);
    expect(answer.cost).toBeCloseTo(1.3987, 6);
    expect(answer.lowerBound).toBeCloseTo(1.3987, 6);
  });

  it('has nothing to do where there is no basin', () => {
    expect(blend({ sources: [RAIN], basins: [] })).toMatchObject({ status: 'optimal', cost: 0, lowerBound: 0, drawL: {}, violation: [] });
  });

  it('drains before it fills where that is what it takes, and says what the band is worth', () => {
    const answer = blend({
      sources: [RAIN], dischargeCostPerL: 0.01,
      basins: [{ id: 'B1', volumeL: 100, mmolPerL: { Na: 8 }, targetVolumeL: [100, 100], mmolPerLBand: { Na: [0, 4] } }],
    });
    expect(answer.drainL['B1']).toBeCloseTo(50, 6);
    expect(answer.result['B1']!.mmolPerL['Na']).toBeCloseTo(4, 6);
    expect(answer.cost).toBeCloseTo(0.55, 9);
    // One mmol/L more would drain 100 - 100 x 5/8 = 37.5 L at the margin 12.5 L a mmol/L: 12.5 x 0.011.
    expect(answer.binding.find((is) => is.limit === 'Na')).toMatchObject({ basin: 'B1', side: 'high', at: 4 });
    expect(answer.binding.find((is) => is.limit === 'Na')!.worthPerUnit).toBeCloseTo(12.5 * 0.011, 6);
  });

  it('shares out what is scarce and prices it', () => {
    const cheap = { id: 'returned', mmolPerL: {}, availableL: 60, costPerL: 0 };
    const basins = ['B1', 'B2'].map((id) => ({ ...empty({}, 50), id }));
    const answer = blend({ sources: [cheap, RAIN], basins });
    expect(answer.cost).toBeCloseTo(0.04, 9);
    expect(answer.drawL['B1']!['returned']! + answer.drawL['B2']!['returned']!).toBeCloseTo(60, 6);
    expect(answer.binding.find((is) => is.limit === 'returned')).toMatchObject({ side: 'available', worthPerUnit: expect.closeTo(0.001, 9) });
  });

  it('names the least miss when no mix holds', () => {
    const answer = blend({ sources: [{ ...RAIN, mmolPerL: { Na: 2 } }], basins: [empty({ Na: [0, 1] })] });
    expect(answer.status).toBe('infeasible');
    expect(answer.violation).toEqual([{ basin: 'B1', limit: 'Na', side: 'high', allowed: 1, reached: expect.closeTo(2, 4), unit: 'mmol/L' }]);
    const dry = blend({ sources: [{ ...RAIN, availableL: 30 }], basins: [empty({}, 100)] });
    expect(dry.violation).toEqual([{ basin: 'B1', limit: 'volume', side: 'low', allowed: 100, reached: expect.closeTo(30, 3), unit: 'L' }]);
  });

  it('refuses what it cannot read, all at once', () => {
    const out = blendFile({ sources: [{ id: 'a', mmolPerL: { K: 'x' }, availableL: -1, costPerL: 0 }], basins: [], extra: 1 }, solver);
    expect(out.ok).toBe(false);
    if (!out.ok) expect(out.refusals.map((is) => is.path).sort()).toEqual(['blend', 'sources.0.availableL', 'sources.0.mmolPerL.K']);
    const twice = blendFile({ sources: [RAIN, RAIN], basins: [] }, solver);
    expect(twice.ok ? [] : twice.refusals.map((is) => is.code)).toEqual(['duplicate']);
  });

  it('balances mass, stays finite and within what is at hand, for any input', () => {
    const amount = fc.nat(2000).map((n) => n / 100);
    const water = fc.record({ Na: amount, K: amount, NO3: amount });
    const source = fc.record({ mmolPerL: water, availableL: fc.nat(50_000).map((n) => n / 100), costPerL: fc.nat(1000).map((n) => n / 1000) });
    const band = fc.tuple(amount, amount).map(([a, b]): [number, number] => (a < b ? [a, b] : [b, a]));
    const basin = fc.record({ volumeL: fc.nat(50_000).map((n) => n / 100), mmolPerL: water, targetVolumeL: band.map(([a, b]): [number, number] => [20 * a, 20 * b]), mmolPerLBand: fc.record({ Na: band, K: band }) });
    fc.assert(fc.property(fc.array(source, { minLength: 1, maxLength: 4 }), fc.array(basin, { minLength: 1, maxLength: 4 }), (s, b) => {
      const sources = s.map((is, i) => ({ id: `S${i}`, ...is }));
      const basins = b.map((is, i) => ({ id: `B${i}`, ...is }));
      const answer = blend({ sources, basins, dischargeCostPerL: 0.01 });
      expect(JSON.stringify(answer)).not.toContain('null');
      for (const is of sources) expect(basins.reduce((sum, at) => sum + answer.drawL[at.id]![is.id]!, 0)).toBeLessThanOrEqual(is.availableL + 1e-5);
      for (const is of basins) {
        const { volumeL, mmolPerL } = answer.result[is.id]!;
        const keptL = is.volumeL - answer.drainL[is.id]!;
        const inL = sources.reduce((sum, from) => sum + answer.drawL[is.id]![from.id]!, keptL);
        expect(Math.abs(volumeL - inL)).toBeLessThan(1e-9 * (1 + inL));
        const inMmol = sources.reduce((sum, from) => sum + answer.drawL[is.id]![from.id]! * from.mmolPerL.Na, keptL * is.mmolPerL.Na);
        expect(Math.abs(volumeL * (mmolPerL['Na'] ?? 0) - inMmol)).toBeLessThan(1e-9 * (1 + inMmol));
      }
      if (answer.status === 'optimal') {
        expect(answer.violation).toEqual([]);
        expect(answer.lowerBound).toBeLessThanOrEqual(answer.cost + 1e-6);
        expect(answer.cost - answer.lowerBound).toBeLessThan(1e-5 * (1 + answer.cost));
      } else expect(answer.violation.length).toBeGreaterThan(0);
    }), { numRuns: 150, seed: 20 });
  });
});
