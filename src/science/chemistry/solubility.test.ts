import { describe, expect, it } from 'vitest';
import { molarMassGPerMol } from './molarMass.ts';
import { solubilityGPerL } from './solubility.ts';
import { SUBSTANCES, substanceOf, type Substance, type SubstanceId } from './substances.ts';

describe('solubility per litre of solution', () => {
  // Manufacturers' fertigation table (Giri 2015), g/L at 5, 10 and 20 C.
  it.each([
    ['calcium-ammonium-nitrate-decahydrate', 1020, 1130, 1290], ['potassium-nitrate', 133, 170, 209], ['potassium-sulfate', 80, 90, 111], ['potassium-chloride', 229, 238, 255],
    ['potassium-dihydrogen-phosphate', 110, 180, 230], ['ammonium-dihydrogen-phosphate', 250, 295, 374], ['ammonium-sulfate', 710, 730, 750], ['magnesium-nitrate-hexahydrate', 680, 690, 710],
  ] as const)('%s', (id, at5, at10, at20) => {
    expect([5, 10, 20].map((t) => solubilityGPerL(id, t))).toEqual([at5, at10, at20]);
    expect(solubilityGPerL(id, 7.5)).toBeCloseTo((at5 + at10) / 2, 9);
    expect(solubilityGPerL(id, 15)).toBeCloseTo((at10 + at20) / 2, 9);
    expect(solubilityGPerL(id, 25)).toBe(at20);
    expect(solubilityGPerL(id, 4)).toBeCloseTo(0.97 * at5, 9);
  });
  // Suppliers' pages: at least 70, 100 and 60 g/L at 20 C.
  it.each([['iron-edta', 70], ['iron-dtpa', 100], ['iron-eddha', 60]] as const)('%s', (id, at20) => {
    expect(solubilityGPerL(id, 20)).toBe(at20);
    expect(solubilityGPerL(id, 30)).toBe(at20);
    expect(solubilityGPerL(id, 10)).toBeCloseTo(0.7 * at20, 9);
  });
});

describe('solubility per mass of water', () => {
  // CRC Handbook, "Aqueous solubility of inorganic compounds at various temperatures": mass percent of the anhydrous salt in the saturated
  // solution at 0, 10 and 20 C (from memory, unverified). Editions differ by up to 3 %, so this guards against slips, not against the source.
  // Seen in print for calcium chloride: 59.5 and 74.5 g per 100 g of water at 0 and 20 C (romek.info/baza/04-26.html).
  const published: readonly [SubstanceId, readonly [number, number, number], number?][] = [
    ['calcium-nitrate-tetrahydrate', [50.1, 53.1, 56.7]], ['calcium-chloride-dihydrate', [37.3, 39.3, 42.7]], ['ammonium-nitrate', [54, 60.1, 65.5]], ['magnesium-sulfate-heptahydrate', [18.2, 21.7, 25.1]],
    ['sodium-chloride', [26.28, 26.32, 26.41]], ['manganese-sulfate-monohydrate', [34.6, 37.3, 38.6]], ['manganese-sulfate-tetrahydrate', [34.6, 37.3, 38.6]],
    ['zinc-sulfate-heptahydrate', [29.1, 32, 35]], ['zinc-sulfate-monohydrate', [29.1, 32, 35]], ['copper-sulfate-pentahydrate', [12.4, 14.6, 16.9]], ['boric-acid', [2.61, 3.57, 4.72]],
    ['borax', [1.09, 1.58, 2.53]], ['sodium-molybdate-dihydrate', [30.6, 39.1, 39.5]], ['potassium-hydroxide', [48.7, 50.8, 53.2]], ['potassium-bicarbonate', [18.5, 21.6, 24.9]],
  ];
  const per100gWater = (massPct: number): number => (100 * massPct) / (100 - massPct);
  const listed = (id: SubstanceId): [number, number][] => ((substanceOf(id)).solubility ?? []).map((point) => [point.temperatureC, 'gPerL' in point ? Number.NaN : point.anhydrousGPer100gWater]);
  it.each(published)('%s', (id, massPct) => {
    expect(listed(id).map(([t]) => t)).toEqual([0, 10, 20]);
    listed(id).forEach(([t, grams], k) => expect(Math.abs(grams / per100gWater(massPct[k]!) - 1), `${t} C`).toBeLessThan(0.024));
  });
  it('covers every substance but those that mix freely with water', () => {
    const withTable = (Object.keys(SUBSTANCES) as SubstanceId[]).filter((id) => (substanceOf(id)).solubility !== undefined);
    expect(withTable).toHaveLength(published.length + 11);
  });
  it('turns salt without water of crystallisation into grams of the hydrate in a litre of saturated solution', () => {
    // Copper sulfate pentahydrate by hand at 10 C: 17.2 g CuSO4 and 100 g water; 26.90 g hydrate bring 9.70 g of that water: 26.9 of 117.2 g.
    const hydrate = (17.2 * molarMassGPerMol('CuSO4·5H2O')) / molarMassGPerMol('CuSO4');
    expect(solubilityGPerL('copper-sulfate-pentahydrate', 10)).toBeCloseTo((1000 * hydrate) / 117.2, 6);
    expect(solubilityGPerL('copper-sulfate-pentahydrate', 0)).toBeLessThan(solubilityGPerL('copper-sulfate-pentahydrate', 10)!);
  });
  it('says nothing of what mixes with water', () => {
    for (const id of ['nitric-acid', 'phosphoric-acid', 'sulfuric-acid', 'hydrogen-peroxide'] as const) expect((SUBSTANCES[id] as Substance).solubility).toBeUndefined();
  });
});

describe('storage classes', () => {
  // GHS classes as on common safety data sheets (from memory, unverified).
  it('keeps oxidisers and corrosives by their class', () => {
    const of = (storage: Substance['storage']): string[] => (Object.keys(SUBSTANCES) as SubstanceId[]).filter((id) => substanceOf(id).storage === storage);
    expect(of('oxidising')).toEqual(['calcium-nitrate-tetrahydrate', 'potassium-nitrate', 'ammonium-nitrate', 'magnesium-nitrate-hexahydrate']);
    expect(of('corrosive')).toEqual(['phosphoric-acid', 'sulfuric-acid', 'potassium-hydroxide', 'potassium-silicate']);
    expect(of('corrosive and oxidising')).toEqual(['nitric-acid', 'hydrogen-peroxide']);
  });
});
