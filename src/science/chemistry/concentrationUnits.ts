import { chargeOf, type Component } from './components.ts';
import { molarMassGPerMol } from './molarMass.ts';

interface ConcentrationForm {
  readonly component: Component;
  /** What is weighed. */
  readonly formula: string;
  /** Moles of the component in one mole of what is weighed. */
  readonly perFormula: number;
}

/** Every form in which laboratories and labels state a component, and nowhere else: element, ion, oxide. */
export const CONCENTRATION_FORMS = {
  'NO3-N': { component: 'NO3', formula: 'N', perFormula: 1 },
  NO3: { component: 'NO3', formula: 'NO3', perFormula: 1 },
  'NH4-N': { component: 'NH4', formula: 'N', perFormula: 1 },
  NH4: { component: 'NH4', formula: 'NH4', perFormula: 1 },
  P: { component: 'P', formula: 'P', perFormula: 1 },
  PO4: { component: 'P', formula: 'PO4', perFormula: 1 },
  H2PO4: { component: 'P', formula: 'H2PO4', perFormula: 1 },
  P2O5: { component: 'P', formula: 'P2O5', perFormula: 2 },
  K: { component: 'K', formula: 'K', perFormula: 1 },
  K2O: { component: 'K', formula: 'K2O', perFormula: 2 },
  Ca: { component: 'Ca', formula: 'Ca', perFormula: 1 },
  CaO: { component: 'Ca', formula: 'CaO', perFormula: 1 },
  Mg: { component: 'Mg', formula: 'Mg', perFormula: 1 },
  MgO: { component: 'Mg', formula: 'MgO', perFormula: 1 },
  S: { component: 'SO4', formula: 'S', perFormula: 1 },
  SO4: { component: 'SO4', formula: 'SO4', perFormula: 1 },
  SO3: { component: 'SO4', formula: 'SO3', perFormula: 1 },
  Na: { component: 'Na', formula: 'Na', perFormula: 1 },
  Cl: { component: 'Cl', formula: 'Cl', perFormula: 1 },
  HCO3: { component: 'HCO3', formula: 'HCO3', perFormula: 1 },
  /** Alkalinity as calcium carbonate: one mole takes up two of acid. Not a calcium content. */
  'alkalinity-CaCO3': { component: 'HCO3', formula: 'CaCO3', perFormula: 2 },
  Si: { component: 'Si', formula: 'Si', perFormula: 1 },
  SiO2: { component: 'Si', formula: 'SiO2', perFormula: 1 },
  Fe: { component: 'Fe', formula: 'Fe', perFormula: 1 },
  Mn: { component: 'Mn', formula: 'Mn', perFormula: 1 },
  Zn: { component: 'Zn', formula: 'Zn', perFormula: 1 },
  Cu: { component: 'Cu', formula: 'Cu', perFormula: 1 },
  B: { component: 'B', formula: 'B', perFormula: 1 },
  Mo: { component: 'Mo', formula: 'Mo', perFormula: 1 },
} as const satisfies Record<string, ConcentrationForm>;

export type ConcentrationFormName = keyof typeof CONCENTRATION_FORMS;

/** Moles of the component in one gram of the form. */
export function molPerGram(form: ConcentrationFormName): number {
  const { formula, perFormula } = CONCENTRATION_FORMS[form];
  return perFormula / molarMassGPerMol(formula);
}

/** mg/L (ppm in dilute water) of the form to mmol/L of its component. */
export const mmolPerLFromMgPerL = (form: ConcentrationFormName, mgPerL: number): number => mgPerL * molPerGram(form);

/** mmol/L of the form's component to mg/L of the form. */
export const mgPerLFromMmolPerL = (form: ConcentrationFormName, mmolPerL: number): number => mmolPerL / molPerGram(form);

/** Charge concentration, always positive; absent for a component without charge (silicon, boron). */
export function meqPerLFromMmolPerL(component: Component, mmolPerL: number): number | undefined {
  const charge = Math.abs(chargeOf(component));
  return charge === 0 ? undefined : mmolPerL * charge;
}

export function mmolPerLFromMeqPerL(component: Component, meqPerL: number): number | undefined {
  const charge = Math.abs(chargeOf(component));
  return charge === 0 ? undefined : meqPerL / charge;
}

/** Grams of one form in a gram of another form of the same component, for example P in P2O5: 0.4364. Throws on two components. */
export function massFactor(from: ConcentrationFormName, to: ConcentrationFormName): number {
  if (CONCENTRATION_FORMS[from].component !== CONCENTRATION_FORMS[to].component) throw new Error(`${from} and ${to} are different components`);
  return molPerGram(from) / molPerGram(to);
}
