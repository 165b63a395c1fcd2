import { describe, expect, it } from 'vitest';
import { log10KAt } from './equilibriumConstant.ts';
import { MINERALS, type MineralId } from './minerals.ts';
import { CARBON_DIOXIDE_SOLUBILITY, SPECIES } from './species.ts';

/** Five temperatures over the range of the constants: a wrong digit anywhere in an expression shows at one of them. */
const TEMPERATURES_C = [0, 10, 25, 40, 50] as const;
const speciesNamed = (name: string) => SPECIES.find((species) => species.name === name)!;

/** The published expressions, written out a second time: log10 K = a1 + a2 T + a3/T + a4 log10 T + a5/T^2, and van 't Hoff's equation. */
function fromExpression([a1 = 0, a2 = 0, a3 = 0, a4 = 0, a5 = 0]: readonly number[], temperatureC: number): number {
  const kelvin = 273.15 + temperatureC;
  return a1 + a2 * kelvin + a3 / kelvin + (a4 * Math.log(kelvin)) / Math.log(10) + a5 / kelvin ** 2;
}
/** R in kJ/(mol K): CODATA 2018. */
const fromHeat = (at25: number, heatKJPerMol: number, temperatureC: number): number =>
  at25 + (heatKJPerMol / (0.00831446 * Math.log(10))) * (1 / 298.15 - 1 / (273.15 + temperatureC));

describe('constants with an analytic expression', () => {
  // As printed in WATEQ4F (Ball & Nordstrom 1991, USGS OFR 91-183; file wateq4f.dat of the USGS): Plummer & Busenberg 1982 and Nordstrom et al. 1990.
  // The last column is the rounded value at 25 C that stands beside each in that file.
  const species: readonly [string, readonly number[], number][] = [
    ['OH-', [-283.971, -0.05069842, 13323, 102.24447, -1119669], -14],
    ['HCO3-', [107.8871, 0.03252849, -5151.79, -38.92561, 563713.9], 10.329],
    ['CO2', [464.1965, 0.09344813, -26986.16, -165.75951, 2248628.9], 16.681],
    ['CaHCO3+', [1209.12, 0.31294, -34765.05, -478.782], 1.106],
    ['CaCO3', [-1228.732, -0.299444, 35512.75, 485.818], 3.224],
    ['MgHCO3+', [-59.215, 0, 2537.455, 20.92298], 1.07],
    ['MgCO3', [0.991, 0.00667], 2.98],
  ];
  it.each(species)('%s', (name, coefficients, at25) => {
    for (const t of TEMPERATURES_C) expect(log10KAt(speciesNamed(name).constant, t), `${t} C`).toBeCloseTo(fromExpression(coefficients, t), 9);
    expect(fromExpression(coefficients, 25)).toBeCloseTo(at25, 2.3);
  });
  // Calcite, aragonite, CO2(g): Plummer & Busenberg 1982 as in WATEQ4F. Brushite: Gregory, Moreno & Brown 1970, beta-TCP: Gregory et al. 1974,
  // hydroxyapatite: McDowell et al. 1977 (their equations from memory; the values at 25 C confirmed in print). Silica: USGS phreeqc.dat.
  const minerals: readonly [MineralId, readonly number[], number][] = [
    ['calcite', [-171.9065, -0.077993, 2839.319, 71.595], -8.48],
    ['aragonite', [-171.9773, -0.077993, 2903.293, 71.595], -8.336],
    ['brushite', [41.863 / Math.LN10, -0.09678 / Math.LN10, -8403.5 / Math.LN10], -6.59],
    ['tricalciumPhosphate', [287.4536, -0.546763, -45723.26], -28.92],
    ['hydroxyapatite', [-1.6657, -0.098215, -8219.41], -58.52],
    ['amorphousSilica', [-0.26, 0, -731], -2.71],
    ['carbonDioxide', [108.3865, 0.01985076, -6919.53, -40.45154, 669365], -1.468],
  ];
  it.each(minerals)('%s', (id, coefficients, at25) => {
    for (const t of TEMPERATURES_C) expect(Math.abs(log10KAt(MINERALS[id].constant, t) - fromExpression(coefficients, t)), `${t} C`).toBeLessThan(4e-4);
    expect(fromExpression(coefficients, 25)).toBeCloseTo(at25, 2);
  });
  it('dissolves carbon dioxide by the same expression', () => {
    for (const t of TEMPERATURES_C) expect(log10KAt(CARBON_DIOXIDE_SOLUBILITY, t)).toBeCloseTo(fromExpression(minerals.at(-1)![1], t), 9);
  });
});

describe('constants with a heat of reaction', () => {
  // log10 K at 25 C and heat (kJ/mol): NIST Standard Reference Database 46 as in MINTEQ v4 (USGS file minteq.v4.dat). Last: log10 K of WATEQ4F, an
  // independent compilation, where it has one; both agree to 0.31 but for the pairs of phosphate with potassium, sodium and (1.94) magnesium.
  const species: readonly [string, number, number, number | undefined, number?][] = [
    ['NaHCO3', -0.25, 0, -0.25], ['NaCO3-', 1.27, -20.35, 1.27], ['HPO4-2', 12.375, -15, 12.346], ['H2PO4-', 19.573, -18, 19.553], ['H3PO4', 21.721, -10.1, undefined],
    ['CaHPO4', 2.66, 12, 2.739], ['CaH2PO4+', 1.35, 12, 1.408], ['CaPO4-', 6.46, 13, 6.459], ['MgHPO4', 2.8, 12, 2.87], ['MgH2PO4+', 1.683, 13.3, 1.513],
    ['MgPO4-', 4.654, 13, 6.589, 1.94], ['KHPO4-', 0.88, 0, 0.29, 0.6], ['NaHPO4-', 1.07, 0, 0.29, 0.79], ['HSO4-', 1.99, 22, 1.988], ['CaSO4', 2.36, 7.1, 2.3],
    ['MgSO4', 2.26, 5.8, 2.37], ['NaSO4-', 0.73, 1, 0.7], ['KSO4-', 0.85, 4.1, 0.85], ['NH4SO4-', 1.03, 0, 1.11], ['MnSO4', 2.25, 8.7, 2.25], ['ZnSO4', 2.34, 6.2, 2.37],
    ['CuSO4', 2.36, 8.7, 2.31], ['NH3', -9.244, 52, -9.252], ['H2BO3-', -9.236, 13, -9.24], ['H3SiO4-', -9.84, 20, -9.83], ['HMoO4-', 4.299, 20, undefined],
  ];
  it.each(species)('%s', (name, at25, heat, wateq4f, apart = 0.2) => {
    for (const t of TEMPERATURES_C) expect(log10KAt(speciesNamed(name).constant, t), `${t} C`).toBeCloseTo(fromHeat(at25, heat, t), 9);
    if (wateq4f !== undefined) expect(Math.abs(at25 - wateq4f)).toBeLessThan(apart);
  });
  // Gypsum: NIST 46. Monetite and octacalcium phosphate: table 3 of PMC5445792 at 25 and 37 C. Struvite: Ronteltap et al. 2007. Potassium struvite
  // and newberyite: Taylor et al. 1963 (Ksp 2.4e-11 and 1.48e-6 in PMC7281443, table 5). Metal phosphates: MINTEQ v4.
  const minerals: readonly [MineralId, number, number][] = [
    ['gypsum', -4.61, 1], ['monetite', -6.9, -17.7], ['octacalciumPhosphate', -48.3, 51.6], ['struvite', -13.26, 22.6], ['potassiumStruvite', Math.log10(2.4e-11), 0],
    ['newberyite', Math.log10(1.48e-6), 0], ['manganesePhosphate', -25.4, 0], ['zincPhosphate', -35.42, 0]];
  it.each(minerals)('%s', (id, at25, heat) => {
    for (const t of TEMPERATURES_C) expect(Math.abs(log10KAt(MINERALS[id].constant, t) - fromHeat(at25, heat, t)), `${t} C`).toBeLessThan(0.011);
  });
  it('names every mineral and every formed species once', () => {
    const formed = SPECIES.filter(({ from }) => Object.keys(from).length > 0).map(({ name }) => name);
    expect(formed).toHaveLength(species.length + 7);
    expect(Object.keys(MINERALS)).toHaveLength(minerals.length + 7);
  });
});

describe('sizes of ions in the activity coefficients', () => {
  // Truesdell & Jones 1974, J. Res. USGS 2, 233, table 3 (a in angstrom, b in kg/mol) and Kielland 1937, as in WATEQ4F.
  const sized: readonly [string, number, number][] = [
    ['Ca+2', 5, 0.165], ['Mg+2', 5.5, 0.2], ['Na+', 4, 0.075], ['K+', 3.5, 0.015], ['Cl-', 3.5, 0.015], ['SO4-2', 5, -0.04], ['NO3-', 3, 0], ['CO3-2', 5.4, 0], ['HCO3-', 5.4, 0],
    ['NH4+', 2.5, 0], ['PO4-3', 5, 0], ['HPO4-2', 5, 0], ['H2PO4-', 5.4, 0], ['H+', 9, 0], ['OH-', 3.5, 0], ['HSO4-', 4.5, 0], ['CaHCO3+', 6, 0], ['MgHCO3+', 4, 0], ['CaH2PO4+', 5.4, 0],
    ['MgH2PO4+', 5.4, 0], ['CaPO4-', 5.4, 0], ['MgPO4-', 5.4, 0], ['KHPO4-', 5.4, 0], ['NaHPO4-', 5.4, 0], ['KSO4-', 5.4, 0], ['NaSO4-', 5.4, 0], ['NaCO3-', 5.4, 0], ['NH4SO4-', 5, 0],
    ['H3SiO4-', 4, 0], ['H2BO3-', 2.5, 0], ['Mn+2', 6, 0], ['Zn+2', 6, 0], ['Cu+2', 6, 0]];
  it.each(sized)('%s', (name, sizeA, linear) => expect(speciesNamed(name).activity).toEqual({ sizeA, linear }));
  it('leaves to Davies what has no size, and to 0.1 I what has no charge', () => {
    const rest = SPECIES.filter(({ name }) => !sized.some(([known]) => known === name));
    expect(rest.filter(({ charge }) => charge !== 0).map(({ name, activity }) => `${name} ${String(activity)}`)).toEqual(['MoO4-2 davies', 'Fe-chelate davies', 'HMoO4- davies']);
    for (const { charge, activity } of rest) if (charge === 0) expect(activity).toBe('neutral');
  });
});
