import { describe, expect, it } from 'vitest';
import { acidDose, inorganicCarbonMmolPerL, type AcidRequest, type Aeration } from './acidDose.ts';
import { CHELATE_PH_WINDOWS, warnChelate } from './chelates.ts';
import type { Composition } from './composition.ts';
import { PRODUCT_CATALOGUE } from './productCatalogue.ts';
import { waterKgPerL } from './solutionSpeciation.ts';

const product = (id: string) => PRODUCT_CATALOGUE.find((entry) => entry.id === id)!;
/** Hard tap water of alkalinity 4.5 meq/kg and pH 7.60, mmol per kg of water. */
const HARD_TAP_PER_KG: Composition = { Ca: 2.5, Mg: 0.6, Na: 1.5, K: 0.1, SO4: 0.8, Cl: 1.55, NO3: 0.15, Si: 0.25, HCO3: 4.5 };
const perLitre = (kgPerL: number): Composition => Object.fromEntries(Object.entries(HARD_TAP_PER_KG).map(([name, v]) => [name, v * kgPerL]));

function requestFor(targetPH: number, aeration: Aeration, temperatureC = 25, acid = 'nitric-acid-60'): AcidRequest {
  const kgPerL = waterKgPerL(HARD_TAP_PER_KG, temperatureC);
  return { waterMmolPerL: perLitre(kgPerL), temperatureC, inorganicCarbonMmolPerL: 4.6859 * kgPerL, targetPH, acid: product(acid), aeration };
}
function dose(request: AcidRequest) {
  const outcome = acidDose(request);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return { ...outcome.value, meqPerKg: outcome.value.meqPerL / waterKgPerL(HARD_TAP_PER_KG, request.temperatureC) };
}

describe('nitric acid for a hard tap water', () => {
  const air = { log10PCO2Atm: -3.4 }, basin = { log10PCO2Atm: -2.7 };
  // Computed with PHREEQC 3.8.9 (USGS) and the same constants, mmol HNO3 per kg of water.
  const table: [string, Aeration, number, number[]][] = [
    ['closed', 'closed', 25, [3.856, 3.366, 2.925, 1.613]], ['closed', 'closed', 15, [3.94, 3.497, 3.087, 1.793]],
    ['open to outdoor air', air, 25, [4.501, 4.497, 4.494, 4.478]], ['open to basin air', basin, 25, [4.493, 4.48, 4.467, 4.391]],
  ];
  it.each(table)('%s %#', (_name, aeration, temperatureC, wanted) => {
    const found = [5.5, 5.8, 6, 6.5].map((pH) => dose(requestFor(pH, aeration, temperatureC)).meqPerKg);
    console.log(`HNO3 against PHREEQC 3.8.9, ${temperatureC} C: ${found.map((v) => v.toFixed(3)).join(', ')} (${wanted.join(', ')}) mmol/kg`);
    found.forEach((value, k) => expect(Math.abs(value - wanted[k]!)).toBeLessThan(0.0012));
  });
  it('shows that a closed dose to 5.8 drifts to about 8 in air, and an open one stays', () => {
    // 1.13 meq/kg of bicarbonate are left (PHREEQC 3.8.9).
    const closed = dose(requestFor(5.8, 'closed'));
    expect(closed.pHAfterAeration).toBeCloseTo(8.19, 2);
    expect(closed.achievedMmolPerL.HCO3).toBeCloseTo(1.13, 2);
    expect(dose(requestFor(5.8, air)).pHAfterAeration).toBeCloseTo(5.8, 6);
  });
  it('states grams and millilitres of the acid as bought', () => {
    const { gramsPerL, mlPerL, meqPerL } = dose(requestFor(5.8, 'closed'));
    expect(gramsPerL).toBeCloseTo((meqPerL * 63.012) / 600, 5);
    expect(mlPerL).toBeCloseTo(gramsPerL / 1.367, 10);
  });
  // Equivalents per mole at pH 5.8: sulfuric acid 2; phosphoric acid 1 and the share of HPO4, 1.04 to 1.08, so that less of it is needed.
  it('needs the same equivalents of sulfuric acid and fewer moles of phosphoric acid', () => {
    const nitric = dose(requestFor(5.8, air)).meqPerL;
    expect(dose(requestFor(5.8, air, 25, 'sulfuric-acid-37')).meqPerL / nitric).toBeCloseTo(1, 2);
    const perMole = nitric / dose(requestFor(5.8, air, 25, 'phosphoric-acid-85')).meqPerL;
    expect(perMole).toBeGreaterThan(1.04);
    expect(perMole).toBeLessThan(1.08);
  });
  it('refuses what is no acid, and a pH that the water has already', () => {
    expect(acidDose({ ...requestFor(5.8, 'closed'), acid: product('potassium-nitrate') })).toMatchObject({ ok: false, refusals: [{ code: 'value-not-allowed', path: 'acid' }] });
    expect(acidDose(requestFor(7.7, 'closed'))).toMatchObject({ ok: false, refusals: [{ code: 'value-out-of-range', path: 'targetPH' }] });
    for (const [pH, ok] of [[3, true], [2.99, false]] as const) expect(acidDose(requestFor(pH, 'closed')).ok, String(pH)).toBe(ok);
    const alkaline = { ...requestFor(9, 'closed'), waterMmolPerL: { K: 5, HCO3: 5 }, inorganicCarbonMmolPerL: 2 };
    expect(acidDose(alkaline).ok).toBe(true);
    expect(acidDose({ ...alkaline, targetPH: 9.01 })).toMatchObject({ ok: false, refusals: [{ limit: 3 }] });
    const broken = acidDose({ ...requestFor(2, 'closed'), temperatureC: 90, inorganicCarbonMmolPerL: Number.NaN, waterMmolPerL: { Ca: -1 } });
    expect(broken.ok ? [] : broken.refusals.map(({ path }) => path)).toEqual(['waterMmolPerL.Ca', 'temperatureC', 'inorganicCarbonMmolPerL', 'targetPH']);
  });
});

describe('inorganic carbon', () => {
  it('follows from alkalinity and pH', () => {
    // 4.686 mmol/kg (PHREEQC 3.8.9).
    const kgPerL = waterKgPerL(HARD_TAP_PER_KG, 25), carbon = inorganicCarbonMmolPerL(perLitre(kgPerL), 7.6, 25);
    expect(carbon.ok ? carbon.value / kgPerL : 0).toBeCloseTo(4.6859, 3);
  });
  it('is refused where pH and alkalinity contradict each other', () => expect(inorganicCarbonMmolPerL({ K: 1, P: 1, HCO3: 0.001 }, 8, 25)).toMatchObject({ ok: false }));
});

describe('chelates', () => {
  it.each([['EDTA', 6, 6.5], ['DTPA', 7, 7.5], ['EDDHA', 8.5, 9]] as const)('%s holds to pH %f', (agent, holds, loses) => {
    expect(warnChelate(agent, holds, 'pH')).toEqual([]);
    expect(warnChelate(agent, loses, 'pH')[0]!.message).toContain('begins to lose');
    expect(warnChelate(agent, loses + 0.1, 'pH')[0]!.message).toContain('stronger agent');
    expect(CHELATE_PH_WINDOWS[agent]).toEqual({ holdsToPH: holds, losesAbovePH: loses });
  });
});
