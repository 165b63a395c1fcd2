import { analytic, vantHoff, type EquilibriumConstant } from './equilibriumConstant.ts';

export interface Mineral {
  readonly name: string;
  /** Under which the entry stands in the constant set that the reference cases were computed with. */
  readonly constantName: string;
  /** What it dissolves into, by moles; H2O counts with the activity of water. */
  readonly dissolvesInto: Readonly<Record<string, number>>;
  readonly constant: EquilibriumConstant;
}

/**
 * Solids that plug emitters and settle in tanks, and the partial pressure of CO2. Sources beside each entry. Saturation indices are
 * only comparable within one set of constants: published values of hydroxyapatite differ by four units.
 */
export const MINERALS = {
  /** Plummer & Busenberg 1982. */
  calcite: { name: 'calcite', constantName: 'Calcite', dissolvesInto: { 'Ca+2': 1, 'CO3-2': 1 }, constant: analytic(-171.9065, -0.077993, 2839.319, 71.595) },
  aragonite: { name: 'aragonite', constantName: 'Aragonite', dissolvesInto: { 'Ca+2': 1, 'CO3-2': 1 }, constant: analytic(-171.9773, -0.077993, 2903.293, 71.595) },
  /** NIST 46. */
  gypsum: { name: 'gypsum', constantName: 'Gypsum', dissolvesInto: { 'Ca+2': 1, 'SO4-2': 1, H2O: 2 }, constant: vantHoff(-4.61, 1) },
  /** Gregory, Moreno & Brown 1970 (equation from memory; -6.59 at 25 C confirmed in print). */
  brushite: { name: 'brushite', constantName: 'Brushite_G70', dissolvesInto: { 'Ca+2': 1, 'HPO4-2': 1, H2O: 2 }, constant: analytic(18.1809, -0.042031, -3649.6) },
  /** Table 3 of the review PMC5445792. */
  monetite: { name: 'monetite', constantName: 'Monetite_r', dissolvesInto: { 'Ca+2': 1, 'HPO4-2': 1 }, constant: vantHoff(-6.9, -17.7) },
  /** Tung et al. 1988, as in the same table. */
  octacalciumPhosphate: { name: 'octacalcium phosphate', constantName: 'OCP_T88', dissolvesInto: { 'Ca+2': 4, 'H+': 1, 'PO4-3': 3, H2O: 2.5 }, constant: vantHoff(-48.3, 51.6) },
  /** Gregory et al. 1974 (equation from memory; -28.92 confirmed). */
  tricalciumPhosphate: { name: 'beta-tricalcium phosphate', constantName: 'TCP_beta', dissolvesInto: { 'Ca+2': 3, 'PO4-3': 2 }, constant: analytic(287.4536, -0.546763, -45723.26) },
  /** McDowell et al. 1977 (equation from memory). Information only: every healthy nutrient solution is above it. */
  hydroxyapatite: { name: 'hydroxyapatite', constantName: 'HAP_McD77', dissolvesInto: { 'Ca+2': 5, 'PO4-3': 3, 'OH-': 1 }, constant: analytic(-1.6657, -0.098215, -8219.41) },
  /** Ronteltap et al. 2007. */
  struvite: { name: 'struvite', constantName: 'Struvite', dissolvesInto: { 'Mg+2': 1, 'NH4+': 1, 'PO4-3': 1, H2O: 6 }, constant: vantHoff(-13.26, 22.6) },
  /** Taylor et al. 1963. */
  potassiumStruvite: { name: 'potassium struvite', constantName: 'K_struvite', dissolvesInto: { 'Mg+2': 1, 'K+': 1, 'PO4-3': 1, H2O: 6 }, constant: vantHoff(-10.62) },
  newberyite: { name: 'newberyite', constantName: 'Newberyite', dissolvesInto: { 'Mg+2': 1, 'HPO4-2': 1, H2O: 3 }, constant: vantHoff(-5.82) },
  /** MINTEQ v4. */
  manganesePhosphate: { name: 'manganese hydrogen phosphate', constantName: 'MnHPO4(C)', dissolvesInto: { 'Mn+2': 1, 'H+': 1, 'PO4-3': 1 }, constant: vantHoff(-25.4) },
  zincPhosphate: { name: 'hopeite', constantName: 'Zn3(PO4)2:4H2O', dissolvesInto: { 'Zn+2': 3, 'PO4-3': 2, H2O: 4 }, constant: vantHoff(-35.42) },
  /** USGS phreeqc.dat (Rimstidt & Barnes 1980). */
  amorphousSilica: { name: 'amorphous silica', constantName: 'SiO2(a)', dissolvesInto: { H4SiO4: 1, H2O: -2 }, constant: analytic(-0.26, 0, -731) },
  /** log10 of the partial pressure, atm. Plummer & Busenberg 1982. */
  carbonDioxide: { name: 'carbon dioxide gas', constantName: 'CO2(g)', dissolvesInto: { CO2: 1 }, constant: analytic(108.3865, 0.01985076, -6919.53, -40.45154, 669365) },
} as const satisfies Record<string, Mineral>;

export type MineralId = keyof typeof MINERALS;
export const MINERAL_IDS = Object.keys(MINERALS) as readonly MineralId[];
