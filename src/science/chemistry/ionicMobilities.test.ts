import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ION_MOBILITIES, mobilityOf } from './ionicMobilities.ts';

interface PublishedIon { readonly z: number; readonly lambda25_S_cm2_per_mol: number; readonly dwT_K: number; readonly a_A: number; readonly visc_exp: number; readonly B_JD: number }
interface Published { readonly EC_DHO: { readonly ions: Record<string, PublishedIon>; readonly default_unlisted_ion: { readonly 'D25_1e-9_m2_s': number } & Omit<PublishedIon, 'z' | 'lambda25_S_cm2_per_mol'> } }

/** See test/chemistry/SOURCE.md. */
const { EC_DHO: { ions, default_unlisted_ion: unlisted } } = JSON.parse(readFileSync('test/chemistry/parameters.json', 'utf8')) as Published;
const own = Object.keys(ION_MOBILITIES).filter((symbol) => symbol !== 'MoO4-2');

describe('mobilities of ions', () => {
  it.each(own)('%s as in the reference table', (symbol) => {
    const { z, lambda25_S_cm2_per_mol: limitingScm2PerMol, dwT_K: temperatureK, a_A: sizeA, visc_exp: viscosityExponent, B_JD: jonesDoleLPerMol } = ions[symbol]!;
    const found = mobilityOf(symbol, z);
    expect(found).toEqual({ charge: z, limitingScm2PerMol, temperatureK, sizeA, jonesDoleLPerMol, viscosityExponent: found.viscosityExponent });
    expect(found.viscosityExponent).toBeCloseTo(viscosityExponent, 3.3);
  });
  // CRC Handbook, "Ionic conductivity and diffusion at infinite dilution", S cm2/mol, printed to fewer figures than they are used with.
  it.each([['H+', 349.65], ['Na+', 50.08], ['K+', 73.48], ['NH4+', 73.5], ['Ca+2', 118.94], ['Mg+2', 106], ['Mn+2', 107], ['Zn+2', 105.6], ['Cu+2', 107.2], ['OH-', 198], ['Cl-', 76.31],
    ['NO3-', 71.42], ['SO4-2', 160], ['HCO3-', 44.5], ['CO3-2', 138.6], ['HPO4-2', 114], ['HSO4-', 52], ['MoO4-2', 149]])('%s within 4 %% of the CRC Handbook', (symbol, crc) =>
    expect(Math.abs(mobilityOf(symbol, 1).limitingScm2PerMol / crc - 1)).toBeLessThan(0.035));
  it('assumes for molybdate, but for its conductivity, and for every other ion, what the reference assumes', () => {
    const { dwT_K: temperatureK, a_A: sizeA, visc_exp: viscosityExponent, B_JD: jonesDoleLPerMol } = unlisted;
    expect(mobilityOf('MoO4-2', -2)).toEqual({ charge: -2, limitingScm2PerMol: 149, temperatureK, sizeA, viscosityExponent, jonesDoleLPerMol });
    expect(mobilityOf('CaPO4-', -1)).toMatchObject({ charge: -1, temperatureK, sizeA, viscosityExponent, jonesDoleLPerMol });
  });
  it('gives an unlisted ion the conductivity of its diffusion: z2 D F2/(RT)', () => {
    // CODATA 2018: F 96485.33 C/mol, R 8.314463 J/(mol K).
    const faraday = 96485.33 ** 2 / (8.314463 * 298.15) * 1e4;
    for (const z of [1, -1, 2]) expect(mobilityOf('unknown', z).limitingScm2PerMol / (z * z * unlisted['D25_1e-9_m2_s'] * 1e-9 * faraday)).toBeCloseTo(1, 3);
  });
});
