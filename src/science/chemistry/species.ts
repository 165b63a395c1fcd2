import { analytic, vantHoff, type EquilibriumConstant } from './equilibriumConstant.ts';

/** How the activity coefficient of a species follows the ionic strength. */
export type ActivityRule =
  /** Truesdell & Jones 1974: size in angstrom and linear term, kg/mol. */
  | { readonly sizeA: number; readonly linear: number }
  /** Davies 1962, for ions nobody has fitted. */
  | 'davies'
  /** log gamma = 0.1 I for uncharged species. */
  | 'neutral';

export interface Species {
  readonly name: string;
  readonly charge: number;
  /** Formed from these, by moles; H2O and species above it in the table. A master species is formed from nothing. */
  readonly from: Readonly<Record<string, number>>;
  readonly constant: EquilibriumConstant;
  readonly activity: ActivityRule;
}

const NONE = vantHoff(0);
const size = (sizeA: number, linear = 0): ActivityRule => ({ sizeA, linear });
const master = (name: string, charge: number, activity: ActivityRule): Species => ({ name, charge, from: {}, constant: NONE, activity });
const formed = (name: string, charge: number, from: Readonly<Record<string, number>>, constant: EquilibriumConstant, activity: ActivityRule): Species =>
  ({ name, charge, from, constant, activity });

/**
 * Every dissolved species, as published reactions at zero ionic strength.
 * Constants: carbonate system and calcium carbonate pairs Plummer & Busenberg 1982 (Geochim. Cosmochim. Acta 46, 1011); water, magnesium
 * carbonate pairs, acids Nordstrom et al. 1990 (ACS Symp. Ser. 416, 398) as in WATEQ4F (Ball & Nordstrom 1991, USGS OFR 91-183); phosphate,
 * sulfate, ammonia, borate and molybdate pairs NIST Standard Reference Database 46 as in MINTEQ v4. Sizes: Truesdell & Jones 1974
 * (J. Res. USGS 2, 233), Kielland 1937. There is no calcium nitrate pair: the activity and conductivity of nitrate carry its effect.
 * Nitrate and ammonium do not turn into each other; iron stays in its chelate.
 */
export const SPECIES: readonly Species[] = [
  master('H+', 1, size(9)),
  master('Ca+2', 2, size(5, 0.165)),
  master('Mg+2', 2, size(5.5, 0.2)),
  master('Na+', 1, size(4, 0.075)),
  master('K+', 1, size(3.5, 0.015)),
  master('NH4+', 1, size(2.5)),
  master('Mn+2', 2, size(6)),
  master('Zn+2', 2, size(6)),
  master('Cu+2', 2, size(6)),
  master('NO3-', -1, size(3)),
  master('Cl-', -1, size(3.5, 0.015)),
  master('SO4-2', -2, size(5, -0.04)),
  master('PO4-3', -3, size(5)),
  master('CO3-2', -2, size(5.4)),
  master('H3BO3', 0, 'neutral'),
  master('H4SiO4', 0, 'neutral'),
  master('MoO4-2', -2, 'davies'),
  master('Fe-chelate', -1, 'davies'),

  formed('OH-', -1, { H2O: 1, 'H+': -1 }, analytic(-283.971, -0.05069842, 13323, 102.24447, -1119669), size(3.5)),
  formed('HCO3-', -1, { 'CO3-2': 1, 'H+': 1 }, analytic(107.8871, 0.03252849, -5151.79, -38.92561, 563713.9), size(5.4)),
  formed('CO2', 0, { 'CO3-2': 1, 'H+': 2, H2O: -1 }, analytic(464.1965, 0.09344813, -26986.16, -165.75951, 2248628.9), 'neutral'),
  formed('CaHCO3+', 1, { 'Ca+2': 1, 'HCO3-': 1 }, analytic(1209.12, 0.31294, -34765.05, -478.782), size(6)),
  formed('CaCO3', 0, { 'Ca+2': 1, 'CO3-2': 1 }, analytic(-1228.732, -0.299444, 35512.75, 485.818), 'neutral'),
  formed('MgHCO3+', 1, { 'Mg+2': 1, 'HCO3-': 1 }, analytic(-59.215, 0, 2537.455, 20.92298), size(4)),
  formed('MgCO3', 0, { 'Mg+2': 1, 'CO3-2': 1 }, analytic(0.991, 0.00667), 'neutral'),
  formed('NaHCO3', 0, { 'Na+': 1, 'HCO3-': 1 }, vantHoff(-0.25), 'neutral'),
  formed('NaCO3-', -1, { 'Na+': 1, 'CO3-2': 1 }, vantHoff(1.27, -20.35), size(5.4)),

  formed('HPO4-2', -2, { 'PO4-3': 1, 'H+': 1 }, vantHoff(12.375, -15), size(5)),
  formed('H2PO4-', -1, { 'PO4-3': 1, 'H+': 2 }, vantHoff(19.573, -18), size(5.4)),
  formed('H3PO4', 0, { 'PO4-3': 1, 'H+': 3 }, vantHoff(21.721, -10.1), 'neutral'),
  formed('CaHPO4', 0, { 'Ca+2': 1, 'HPO4-2': 1 }, vantHoff(2.66, 12), 'neutral'),
  formed('CaH2PO4+', 1, { 'Ca+2': 1, 'H2PO4-': 1 }, vantHoff(1.35, 12), size(5.4)),
  formed('CaPO4-', -1, { 'Ca+2': 1, 'PO4-3': 1 }, vantHoff(6.46, 13), size(5.4)),
  formed('MgHPO4', 0, { 'Mg+2': 1, 'HPO4-2': 1 }, vantHoff(2.8, 12), 'neutral'),
  formed('MgH2PO4+', 1, { 'Mg+2': 1, 'H2PO4-': 1 }, vantHoff(1.683, 13.3), size(5.4)),
  formed('MgPO4-', -1, { 'Mg+2': 1, 'PO4-3': 1 }, vantHoff(4.654, 13), size(5.4)),
  formed('KHPO4-', -1, { 'K+': 1, 'HPO4-2': 1 }, vantHoff(0.88), size(5.4)),
  formed('NaHPO4-', -1, { 'Na+': 1, 'HPO4-2': 1 }, vantHoff(1.07), size(5.4)),

  formed('HSO4-', -1, { 'SO4-2': 1, 'H+': 1 }, vantHoff(1.99, 22), size(4.5)),
  formed('CaSO4', 0, { 'Ca+2': 1, 'SO4-2': 1 }, vantHoff(2.36, 7.1), 'neutral'),
  formed('MgSO4', 0, { 'Mg+2': 1, 'SO4-2': 1 }, vantHoff(2.26, 5.8), 'neutral'),
  formed('NaSO4-', -1, { 'Na+': 1, 'SO4-2': 1 }, vantHoff(0.73, 1), size(5.4)),
  formed('KSO4-', -1, { 'K+': 1, 'SO4-2': 1 }, vantHoff(0.85, 4.1), size(5.4)),
  formed('NH4SO4-', -1, { 'NH4+': 1, 'SO4-2': 1 }, vantHoff(1.03), size(5)),
  formed('MnSO4', 0, { 'Mn+2': 1, 'SO4-2': 1 }, vantHoff(2.25, 8.7), 'neutral'),
  formed('ZnSO4', 0, { 'Zn+2': 1, 'SO4-2': 1 }, vantHoff(2.34, 6.2), 'neutral'),
  formed('CuSO4', 0, { 'Cu+2': 1, 'SO4-2': 1 }, vantHoff(2.36, 8.7), 'neutral'),

  formed('NH3', 0, { 'NH4+': 1, 'H+': -1 }, vantHoff(-9.244, 52), 'neutral'),
  formed('H2BO3-', -1, { H3BO3: 1, 'H+': -1 }, vantHoff(-9.236, 13), size(2.5)),
  formed('H3SiO4-', -1, { H4SiO4: 1, 'H+': -1 }, vantHoff(-9.84, 20), size(4)),
  formed('HMoO4-', -1, { 'MoO4-2': 1, 'H+': 1 }, vantHoff(4.299, 20), 'davies'),
];

/** CO2(g) = CO2(aq), partial pressure in atm. Plummer & Busenberg 1982. */
export const CARBON_DIOXIDE_SOLUBILITY: EquilibriumConstant = analytic(108.3865, 0.01985076, -6919.53, -40.45154, 669365);
