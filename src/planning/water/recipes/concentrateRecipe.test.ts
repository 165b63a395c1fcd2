import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { describe, expect, it } from 'vitest';
import { cropCard } from '../../../greenhouse/schema/cropCard.ts';
import { productsFile } from '../../../greenhouse/schema/productsFile.ts';
import { CAUTIONS } from '../../../science/chemistry/cautions.ts';
import { concentrateRecipe, type ConcentrateQuestion, type ConcentrateRecipe } from './concentrateRecipe.ts';

const read = (path: string): unknown => parse(readFileSync(new URL(`../../../../data/${path}`, import.meta.url), 'utf8'));
const card = (id: string) => cropCard.parse(read(`crops/${id}.yaml`));
const { products } = productsFile.parse(read('fertilisers.yaml'));
const MAINS = { K: 0.05, Ca: 1.35, Mg: 0.42, Na: 0.62, NO3: 0.18, Cl: 0.72, SO4: 0.41, HCO3: 2.45, Si: 0.12 };
const RAIN = { NH4: 0.01, K: 0.02, Ca: 0.08, Mg: 0.03, Na: 0.16, NO3: 0.02, Cl: 0.18, SO4: 0.04, HCO3: 0.1 };
const question = (crop: string, mmolPerL: ConcentrateQuestion['water']['mmolPerL'], more: Partial<ConcentrateQuestion> = {}): ConcentrateQuestion => ({
  card: card(crop), table: 'target', water: { title: 'Water', mmolPerL, basis: 'an analysis' }, products, concentrationFactor: 100, tankVolumeL: 200, coldestC: 10, moves: {}, neededTodayL: 1500, ...more,
});
function made(asked: ConcentrateQuestion): ConcentrateRecipe {
  const outcome = concentrateRecipe(asked);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value;
}

describe('concentrates for a crop', () => {
  it.each([['butterhead', 'target'], ['butterhead', 'feed'], ['oakleaf', 'target'], ['basil', 'target'], ['basil', 'feed'], ['coriander', 'feed']] as const)('%s, %s: every component within a twenty-fifth of its table on hard and on soft water, pH within the band', (crop, table) => {
    for (const water of [MAINS, RAIN]) {
      const recipe = made(question(crop, water, { table }));
      for (const { component, target = 0, achieved } of recipe.components) if (target > 0) expect(Math.abs(achieved / target - 1), component).toBeLessThan(0.04);
      const [low, high] = card(crop).water.pH;
      expect(recipe.pH).toBeGreaterThan(low - 0.05);
      expect(recipe.pH).toBeLessThan(high);
      const ammonium = recipe.components.find(({ component }) => component === 'NH4');
      if (ammonium?.target === 0) expect(ammonium.achieved).toBeLessThan(card(crop).water[table].mmolPerL.Ca / 4);
    }
  });
  it('puts calcium in A, phosphate and sulfate in B, acid in C, and says water first', () => {
    const { sheets, dosing } = made(question('butterhead', MAINS));
    expect(sheets.map(({ id }) => id)).toEqual(['A', 'B', 'C']);
    expect(sheets[0]!.mmolPerL.P ?? 0).toBe(0);
    expect(sheets[1]!.mmolPerL.Ca ?? 0).toBe(0);
    const acid = sheets[2]!.steps;
    expect(acid.map(({ product }) => product)).toEqual([undefined, 'nitric-acid', undefined]);
    expect(acid[0]!.words).toContain('fill with water to 120 L');
    expect(acid[1]!.cautions).toContain(CAUTIONS.acid);
    expect(acid[1]!.millilitres).toBeCloseTo(acid[1]!.grams! / 1.367, 6);
    expect(dosing[0]).toBe('For 100 L of feed: 97 L of Water first.');
    expect(dosing.at(-2)).toContain('acid, into the water');
  });
  it('needs no acid on rainwater', () => expect(made(question('butterhead', RAIN)).sheets.map(({ id }) => id)).toEqual(['A', 'B']));
  it('says what a tank makes and what is left over', () => {
    const [sheet] = made(question('butterhead', RAIN)).sheets;
    expect(sheet!.yields).toEqual([
      '200 L make 20 m³ of feed at 1 L in 100 L, together with the other tanks of this set.',
      'If today\'s fillings of Butterhead lettuce were made with it, they would need 15 L; 185 L are left over.',
    ]);
    expect(made(question('butterhead', RAIN, { neededTodayL: 30_000 })).sheets[0]!.yields[1]).toContain('one tank is not enough');
  });
  it('says each caution once, at the step where it first applies', () => {
    for (const { steps } of made(question('butterhead', MAINS)).sheets) {
      const said = steps.flatMap(({ cautions }) => cautions);
      expect(new Set(said).size).toBe(said.length);
      steps.forEach(({ cautionsOfSteps }, i) => cautionsOfSteps.forEach((number) => { expect(number).toBeLessThanOrEqual(i); expect(steps[number - 1]!.cautions.length).toBeGreaterThan(0); }));
    }
  });
  it('refuses phosphate moved to the calcium tank, with the reason', () => {
    const outcome = concentrateRecipe(question('butterhead', RAIN, { moves: { 'monopotassium-phosphate': 'A' } }));
    expect(outcome.ok ? [] : outcome.refusals[0]).toMatchObject({ code: 'incompatible-products', path: 'tanks.A', value: 'calcium-nitrate + monopotassium-phosphate' });
  });
  it('takes a harmless move', () => {
    const { sheets } = made(question('butterhead', RAIN, { moves: { 'boric-acid': 'B' } }));
    expect(sheets[1]!.steps.some(({ product }) => product === 'boric-acid')).toBe(true);
  });
  it('refuses what does not dissolve in a cold store', () => {
    const outcome = concentrateRecipe(question('butterhead', RAIN, { table: 'feed', concentrationFactor: 200, coldestC: 5 }));
    expect(outcome.ok ? [] : outcome.refusals.map(({ code }) => code)).toContain('not-soluble');
  });
});
