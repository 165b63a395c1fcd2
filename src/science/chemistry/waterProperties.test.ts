import { describe, expect, it } from 'vitest';
import { debyeA, debyeBPerAngstrom, onsagerElectrophoresis, onsagerRelaxation, waterDensityKgPerL, waterPermittivity, waterViscosityMPaS } from './waterProperties.ts';

describe('water', () => {
  // CRC Handbook, standard density of water, kg/L; Kell's equation lies up to 3.1 parts per million below this later scale.
  it.each([[0, 0.9998396], [4, 0.999972], [10, 0.9997021], [15, 0.9991016], [20, 0.9982063], [25, 0.9970479], [30, 0.9956502], [40, 0.9922187], [50, 0.9880363]])(
    'density at %d C', (t, rho) => expect(Math.abs(waterDensityKgPerL(t) - rho)).toBeLessThan(4e-6));
  // Kell 1975, J. Chem. Eng. Data 20, 97: the polynomial as printed, kg/m3, summed power by power (from memory; the values above confirm it).
  it.each([5, 18, 33, 45, 50])('density at %d C, by Kell\'s polynomial', (t) => {
    const kell = (999.83952 + 16.945176 * t - 7.9870401e-3 * t ** 2 - 46.170461e-6 * t ** 3 + 105.56302e-9 * t ** 4 - 280.54253e-12 * t ** 5) / (1 + 16.87985e-3 * t);
    expect(waterDensityKgPerL(t) * 1000).toBeCloseTo(kell, 9);
  });
  // IAPWS 2008 / CRC: 1.792, 1.0016, 0.8900, 0.6527, 0.5465 mPa s.
  it.each([[0, 1.792], [20, 1.0016], [25, 0.89], [40, 0.6527], [50, 0.5465]])('viscosity at %d C', (t, eta) =>
    expect(waterViscosityMPaS(t) / eta).toBeCloseTo(1, 3));
  // Bradley & Pitzer 1979: 78.38 at 25 C; Malmberg & Maryott 1956: 87.74 at 0, 80.10 at 20, 69.91 at 50 C, which they miss by up to 0.15 %.
  it.each([[0, 87.74, 0.12], [20, 80.1, 0.12], [25, 78.38, 0.005], [50, 69.91, 0.06]])('permittivity at %d C', (t, eps, allowed) =>
    expect(Math.abs(waterPermittivity(t) - eps)).toBeLessThan(allowed));
  // Debye-Hueckel coefficients from the same two correlations, and Onsager's for a 1:1 salt (q = 1/2).
  it.each([[15, 0.5017, 0.3269, 0.2256, 23.57], [20, 0.5057, 0.3277, 0.2274, 26.83], [25, 0.51, 0.3285, 0.2293, 30.27], [30, 0.5145, 0.3293, 0.2313, 33.88]])(
    'limiting laws at %d C', (t, a, b, b1, b2) => {
      expect(debyeA(t)).toBeCloseTo(a, 4);
      expect(debyeBPerAngstrom(t)).toBeCloseTo(b, 4);
      expect((onsagerRelaxation(t) * 0.5) / (1 + Math.SQRT1_2)).toBeCloseTo(b1, 4);
      expect(onsagerElectrophoresis(t)).toBeCloseTo(b2, 1);
    });
});
