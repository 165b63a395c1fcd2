import { describe, expect, it } from 'vitest';
import { inorganicCarbonMmolPerL } from './acidDose.ts';
import { mixWaters, type WaterVolume } from './mixWaters.ts';

const hard: WaterVolume = { volumeL: 300, temperatureC: 10, mmolPerL: { Ca: 2.5, Mg: 0.6, Na: 1.5, K: 0.1, SO4: 0.8, Cl: 1.55, NO3: 0.15, HCO3: 4.5 }, inorganicCarbonMmolPerL: 4.7 };
const returned: WaterVolume = { volumeL: 100, temperatureC: 22, mmolPerL: { K: 8, Ca: 3, NO3: 12, P: 2, HCO3: 0 }, inorganicCarbonMmolPerL: 0.05 };

describe('mixing', () => {
  it('conserves volume, components, alkalinity, carbon and heat', () => {
    const outcome = mixWaters([hard, returned]);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
    const { volumeL, temperatureC, mmolPerL, inorganicCarbonMmolPerL: carbon, speciation } = outcome.value;
    expect(volumeL).toBe(400);
    // By mass of water: 299.91 kg at 10 C and 99.78 kg at 22 C.
    expect(temperatureC).toBeCloseTo((299.91 * 10 + 99.777 * 22) / 399.687, 4);
    expect(mmolPerL.Ca).toBeCloseTo(2.625, 12);
    expect(mmolPerL.HCO3).toBeCloseTo(3.375, 12);
    expect(carbon).toBeCloseTo(3.5375, 12);
    expect(1000 * speciation.alkalinityEqPerKg).toBeCloseTo(3.375, 1);
    expect(speciation.temperatureC).toBe(temperatureC);
    // Same pH back from alkalinity and carbon.
    const back = inorganicCarbonMmolPerL(mmolPerL, speciation.pH, temperatureC);
    expect(back.ok ? back.value : 0).toBeCloseTo(carbon, 6);
  });
  it('does not change one water alone', () => {
    const outcome = mixWaters([hard]);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
    expect(outcome.value).toMatchObject({ volumeL: 300, temperatureC: 10 });
    for (const [name, v] of Object.entries(hard.mmolPerL)) expect(outcome.value.mmolPerL[name as 'K']).toBeCloseTo(v, 12);
  });
  it('refuses nothing, no volume, and malformed parts', () => {
    expect(mixWaters([])).toMatchObject({ ok: false, refusals: [{ code: 'value-missing' }] });
    const outcome = mixWaters([{ ...hard, volumeL: 0 }, { ...returned, temperatureC: -3, mmolPerL: { K: -1 } }]);
    expect(outcome.ok ? [] : outcome.refusals.map(({ path }) => path)).toEqual(['parts[0].volumeL', 'parts[1].temperatureC', 'parts[1].mmolPerL.K']);
  });
});
