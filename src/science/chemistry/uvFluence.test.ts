import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { largestFlowLPerMin, NEEDED_FLUENCE_MJ_PER_CM2, uvFluenceMjPerCm2, waterFactor } from './uvFluence.ts';

const FILE = '../shared/data/horticulture-test-vectors.json';
const present = existsSync(FILE);
if (!present) console.warn(`UV vector skipped: ${FILE} is not here.`);

describe('UV-C in water', () => {
  it('averages Beer-Lambert over the layer: worked by hand, and against a sum over thin sheets', () => {
    // a L = 1: (1 - 0.1) / 2.302585 = 0.390865.
    expect(waterFactor(0.5, 2)).toBeCloseTo(0.390865, 6);
    expect(waterFactor(0, 2)).toBe(1);
    expect(waterFactor(1e-8, 1)).toBeCloseTo(1, 7);
    const sheets = Array.from({ length: 20_000 }, (_, i) => 10 ** (-0.7 * (1.5 * (i + 0.5)) / 20_000));
    expect(waterFactor(0.7, 1.5)).toBeCloseTo(sheets.reduce((sum, each) => sum + each, 0) / 20_000, 8);
  });

  it.skipIf(!present)('equals the printed vector: a 0.5 /cm, 1 cm -> 0.5939', () => {
    const { check } = (JSON.parse(readFileSync(FILE, 'utf8')) as { uv_water_factor: { check: { a_per_cm: number; L_cm: number; WF: number } } }).uv_water_factor;
    const ours = waterFactor(check.a_per_cm, check.L_cm);
    console.log(`water factor ${ours}, vector ${check.WF}`);
    expect(ours).toBeCloseTo(check.WF, 12);
  });

  it('gives the fluence worked by hand: 100 W, 2 cm, 0.5 /cm at 70 L/min is 67.0 mJ/cm2', () => {
    const chamber = { uvcW: 100, layerCm: 2, absorbancePerCm: 0.5 };
    // 100,000 mW x 2 cm x 0.390865 / (70,000 / 60 cm3/s).
    expect(uvFluenceMjPerCm2(chamber, 70)).toBeCloseTo(67.0055, 3);
    expect(uvFluenceMjPerCm2(chamber, 35)).toBeCloseTo(134.011, 3);
  });

  it('agrees with the ring integrated numerically, whatever the radii', () => {
    const [uvcW, lengthCm, inner, layerCm, a, flow] = [60, 80, 1.6, 3, 0.3, 40];
    const steps = 4000;
    let mean = 0;
    for (let i = 0; i < steps; i += 1) {
      const r = inner + (layerCm * (i + 0.5)) / steps;
      const mwPerCm2 = (1000 * uvcW * 10 ** (-a * (r - inner))) / (2 * Math.PI * r * lengthCm);
      mean += (mwPerCm2 * 2 * Math.PI * r * layerCm) / steps;
    }
    const area = Math.PI * ((inner + layerCm) ** 2 - inner ** 2);
    const seconds = (area * lengthCm) / ((flow * 1000) / 60);
    expect(uvFluenceMjPerCm2({ uvcW, layerCm, absorbancePerCm: a }, flow)).toBeCloseTo((mean / area) * seconds, 4);
  });

  it('finds the flow at which a fluence is just reached', () => {
    const chamber = { uvcW: 100, layerCm: 2, absorbancePerCm: 0.5 };
    for (const needed of Object.values(NEEDED_FLUENCE_MJ_PER_CM2)) expect(uvFluenceMjPerCm2(chamber, largestFlowLPerMin(chamber, needed))).toBeCloseTo(needed, 9);
    expect(NEEDED_FLUENCE_MJ_PER_CM2).toEqual({ 'fungi and bacteria': 100, viruses: 250 });
  });
});
