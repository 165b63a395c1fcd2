import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeWaters, type WaterDescription } from '../../src/science/chemistry/describeWaters.ts';
import { log10KAt } from '../../src/science/chemistry/equilibriumConstant.ts';
import { MINERAL_IDS, MINERALS } from '../../src/science/chemistry/minerals.ts';
import { SPECIES, type Species } from '../../src/science/chemistry/species.ts';
import { debyeA, debyeBPerAngstrom } from '../../src/science/chemistry/waterProperties.ts';

/**
 * What a water is said to hold, checked against first principles and not against the solver: atoms and charges are counted from the names of
 * the species as written, activity coefficients and constants are worked out anew for every published reaction.
 */
const ELEMENT_OF: Readonly<Record<string, string>> = { NH4: 'N(-3)', K: 'K', Ca: 'Ca', Mg: 'Mg', Na: 'Na', NO3: 'N(5)', Cl: 'Cl', SO4: 'S', P: 'P', Si: 'Si', Fe: 'Fe', Mn: 'Mn', Zn: 'Zn', Cu: 'Cu', B: 'B', Mo: 'Mo' };

function chargeOf(name: string): number {
  const [, sign = '', size = ''] = /([+-])(\d?)$/.exec(name.replace('Fe-chelate', 'Fe-')) ?? [];
  return sign === '' ? 0 : Number(`${sign}${size === '' ? 1 : size}`);
}

/** Atoms of each element in a species, nitrogen by whether it is in nitrate. */
function atomsIn(name: string): Record<string, number> {
  if (name === 'Fe-chelate') return { Fe: 1 };
  const atoms: Record<string, number> = {};
  for (const [, symbol, count] of name.replace(/[+-]\d?$/, '').matchAll(/([A-Z][a-z]?)(\d*)/g)) {
    const element = symbol === 'N' ? (name.startsWith('NO3') ? 'N(5)' : 'N(-3)') : symbol!;
    atoms[element] = (atoms[element] ?? 0) + (count === '' ? 1 : Number(count));
  }
  return atoms;
}

function log10Gamma({ name, activity }: Species, strength: number, temperatureC: number): number {
  const z2 = chargeOf(name) ** 2, root = Math.sqrt(strength);
  if (activity === 'neutral') return 0.1 * strength;
  if (activity === 'davies') return -debyeA(temperatureC) * z2 * (root / (1 + root) - 0.3 * strength);
  return (-debyeA(temperatureC) * z2 * root) / (1 + debyeBPerAngstrom(temperatureC) * activity.sizeA * root) + activity.linear * strength;
}

/** log10 activity of everything that is in the water, water itself included. */
function activities(water: WaterDescription, temperatureC: number): Map<string, number> {
  const solutes = Object.values(water.speciesMolPerKg).reduce((sum, m) => sum + m, 0);
  const known = new Map([['H2O', Math.log10(1 - 0.017 * solutes)]]);
  for (const species of SPECIES) {
    const m = water.speciesMolPerKg[species.name];
    if (m !== undefined) known.set(species.name, Math.log10(m) + log10Gamma(species, water.ionicStrengthMolPerKg, temperatureC));
  }
  return known;
}

const sumOver = (water: WaterDescription, of: (name: string) => number): number => Object.entries(water.speciesMolPerKg).reduce((sum, [name, m]) => sum + m * of(name), 0);

function expectReactions(water: WaterDescription, temperatureC: number): void {
  const known = activities(water, temperatureC);
  for (const { name, from, constant } of SPECIES) {
    // Amounts near the smallest number have lost their digits.
    if (Object.keys(from).length === 0 || (water.speciesMolPerKg[name] ?? 0) < 1e-250) continue;
    const product = Object.entries(from).reduce((sum, [part, n]) => sum + n * known.get(part)!, 0);
    expect(Math.abs(known.get(name)! - product - log10KAt(constant, temperatureC)), `${water.id} ${name}`).toBeLessThan(1e-7);
  }
  for (const id of MINERAL_IDS) {
    const index = water.saturationIndex[id];
    if (index === undefined) continue;
    const product = Object.entries(MINERALS[id].dissolvesInto).reduce((sum, [part, n]) => sum + n * known.get(part)!, 0);
    expect(Math.abs(product - log10KAt(MINERALS[id].constant, temperatureC) - index), id).toBeLessThan(1e-7);
  }
}

function expectBalances(water: WaterDescription, stated: { readonly totalsMmolPerKg: Readonly<Record<string, number>>; readonly chargeAdjust?: string | null | undefined }): void {
  for (const [name, mmol] of Object.entries(stated.totalsMmolPerKg)) {
    if (name === stated.chargeAdjust || mmol < 1e-12) continue;
    const held = 1000 * sumOver(water, (species) => atomsIn(species)[ELEMENT_OF[name]!] ?? 0);
    expect(Math.abs(held / mmol - 1), `${name} ${mmol}`).toBeLessThan(1e-8);
  }
  const charge = sumOver(water, chargeOf), both = sumOver(water, (name) => Math.abs(chargeOf(name)));
  expect(Math.abs(100 * charge - water.chargeErrorPct * both)).toBeLessThan(1e-9 * (100 * both));
  expect(Math.abs(0.5 * sumOver(water, (name) => chargeOf(name) ** 2) / water.ionicStrengthMolPerKg - 1)).toBeLessThan(1e-8);
}

describe('any water holds together', () => {
  const mmol = (most: number) => fc.oneof(fc.double({ min: 0, max: most, noNaN: true }), fc.constantFrom(0, most, most * 1e-4, most * 1e-8));
  const totals = fc.record({ Ca: mmol(8), Mg: mmol(5), Na: mmol(10), K: mmol(20), NH4: mmol(4), NO3: mmol(30), Cl: mmol(10), SO4: mmol(8), P: mmol(4) });
  const others = fc.record({ Si: mmol(1), Fe: mmol(0.1), Mn: mmol(0.05), Zn: mmol(0.05), Cu: mmol(0.01), B: mmol(0.1), Mo: mmol(0.01) });
  /** Rain (a thousandth), fresh water and feeds, and strong solutions of an ionic strength up to 0.5 mol/kg. */
  const strength = fc.constantFrom(1e-3, 0.1, 1, 1, 1, 6);
  const temperatureC = fc.double({ min: 5, max: 40, noNaN: true });
  const scaled = fc.tuple(totals, others, strength).map(([main, rest, by]) => Object.fromEntries(Object.entries({ ...main, ...rest }).map(([name, amount]) => [name, amount * by])));
  const carbon = fc.oneof(fc.constant({}), fc.double({ min: -4, max: -1, noNaN: true }).map((log10PCO2Atm) => ({ log10PCO2Atm })), mmol(8).map((inorganicCarbonMmolPerKg) => ({ inorganicCarbonMmolPerKg })));

  it('atoms, charges, reactions and minerals, at a pH of 3 to 10, open or closed', () => {
    let [answered, refusedOnes, strongest] = [0, 0, 0];
    const water = fc.record({ totalsMmolPerKg: scaled, temperatureC, pH: fc.double({ min: 3, max: 10, noNaN: true }), chargeAdjust: fc.constantFrom(null, null, 'K', 'Cl', 'NO3', 'Ca', 'SO4'), carbon });
    fc.assert(fc.property(water, ({ carbon: by, ...rest }) => {
      const outcome = describeWaters({ waters: [{ id: 'w', ...rest, ...by }] });
      // Charges that one ion cannot balance are the one good reason to refuse such a water; strong CO2 at a high pH the other.
      if (!outcome.ok) { refusedOnes += 1; expect(['infeasible', 'value-out-of-range']).toContain(outcome.refusals[0]!.code); return; }
      const [found] = outcome.value.waters;
      [answered, strongest] = [answered + 1, Math.max(strongest, found!.ionicStrengthMolPerKg)];
      expect(found!.pH).toBeCloseTo(rest.pH, 9);
      if (rest.chargeAdjust !== null) expect(Math.abs(found!.chargeErrorPct)).toBeLessThan(1e-5);
      expectBalances(found!, rest);
      expectReactions(found!, rest.temperatureC);
    }), { seed: 31, numRuns: 400 });
    console.log(`waters at a stated pH: ${answered} held together, ${refusedOnes} refused, ionic strength up to ${strongest.toFixed(2)} mol/kg`);
    expect(answered).toBeGreaterThan(250);
  });

  it('at the pH of its charges, whatever that is', () => {
    const range = { low: 14, high: 0 };
    const water = fc.record({ totalsMmolPerKg: scaled, temperatureC, carbon });
    fc.assert(fc.property(water, ({ carbon: by, ...rest }) => {
      const outcome = describeWaters({ waters: [{ id: 'w', ...rest, pH: 'charge', ...by }] });
      if (!outcome.ok) { expect(outcome.refusals[0]!.code).toBe('value-out-of-range'); return; }
      const [found] = outcome.value.waters;
      Object.assign(range, { low: Math.min(range.low, found!.pH), high: Math.max(range.high, found!.pH) });
      expect(Math.abs(found!.chargeErrorPct)).toBeLessThan(1e-5);
      expectBalances(found!, rest);
      expectReactions(found!, rest.temperatureC);
    }), { seed: 32, numRuns: 400 });
    console.log(`waters at the pH of their charges: pH ${range.low.toFixed(2)} to ${range.high.toFixed(2)}`);
  });

  it('and says the same of carbon and alkalinity whichever of them is stated', () => {
    const water = fc.record({ totalsMmolPerKg: scaled, temperatureC, pH: fc.double({ min: 4, max: 9.5, noNaN: true }), inorganicCarbonMmolPerKg: fc.double({ min: 0.05, max: 6, noNaN: true }) });
    fc.assert(fc.property(water, (closed) => {
      const [first] = answer({ id: 'w', ...closed });
      const { inorganicCarbonMmolPerKg: carbonMmol, ...rest } = closed;
      const byAir = { id: 'w', ...rest, log10PCO2Atm: first!.saturationIndex.carbonDioxide };
      const [open] = answer(byAir);
      expect(Math.abs(1000 * sumOver(open!, (name) => atomsIn(name).C ?? 0) / carbonMmol - 1)).toBeLessThan(1e-6);
      const [again] = answer({ id: 'w', ...rest, alkalinityMeqPerKg: first!.alkalinityMeqPerKg });
      // Alkalinity hardly depends on the carbon of acid waters, so the carbon is compared by what it adds.
      expect(Math.abs(again!.alkalinityMeqPerKg - first!.alkalinityMeqPerKg)).toBeLessThan(1e-6 * (1 + Math.abs(first!.alkalinityMeqPerKg)));
      expect(again!.pH).toBeCloseTo(first!.pH, 9);
    }), { seed: 33, numRuns: 150 });
  });
});

function answer(water: object): readonly WaterDescription[] {
  const outcome = describeWaters({ waters: [water] });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value.waters;
}
