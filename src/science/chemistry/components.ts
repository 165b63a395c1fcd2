import { molarMassGPerMol } from './molarMass.ts';

interface ComponentFacts {
  /** Printed form. */
  readonly symbol: string;
  readonly name: string;
  /** Charge that the component carries at the pH of nutrient solutions (5 to 7), per mole. */
  readonly charge: number;
  /** Formula without charge, from which the molar mass is computed. */
  readonly formula: string;
  /** The element by which analyses and labels report it. */
  readonly element: string;
}

/**
 * The parts of which every solution is made: the single source of symbols, charges and masses.
 * P is all orthophosphate, counted as H2PO4-; HCO3 is alkalinity (in meq/L equal to mmol/L as bicarbonate), so an acid
 * carries it with a minus sign; Fe is chelated iron, counted with one negative charge (FeEDTA-, FeEDDHA-, FeHDTPA-).
 */
export const COMPONENTS = {
  NH4: { symbol: 'NH4+', name: 'ammonium', charge: 1, formula: 'NH4', element: 'N' },
  K: { symbol: 'K+', name: 'potassium', charge: 1, formula: 'K', element: 'K' },
  Ca: { symbol: 'Ca+2', name: 'calcium', charge: 2, formula: 'Ca', element: 'Ca' },
  Mg: { symbol: 'Mg+2', name: 'magnesium', charge: 2, formula: 'Mg', element: 'Mg' },
  Na: { symbol: 'Na+', name: 'sodium', charge: 1, formula: 'Na', element: 'Na' },
  NO3: { symbol: 'NO3-', name: 'nitrate', charge: -1, formula: 'NO3', element: 'N' },
  Cl: { symbol: 'Cl-', name: 'chloride', charge: -1, formula: 'Cl', element: 'Cl' },
  SO4: { symbol: 'SO4-2', name: 'sulfate', charge: -2, formula: 'SO4', element: 'S' },
  P: { symbol: 'H2PO4-', name: 'phosphate', charge: -1, formula: 'H2PO4', element: 'P' },
  HCO3: { symbol: 'HCO3-', name: 'alkalinity as bicarbonate', charge: -1, formula: 'HCO3', element: 'C' },
  Si: { symbol: 'H4SiO4', name: 'silicon', charge: 0, formula: 'H4SiO4', element: 'Si' },
  Fe: { symbol: 'Fe-chelate', name: 'iron, chelated', charge: -1, formula: 'Fe', element: 'Fe' },
  Mn: { symbol: 'Mn+2', name: 'manganese', charge: 2, formula: 'Mn', element: 'Mn' },
  Zn: { symbol: 'Zn+2', name: 'zinc', charge: 2, formula: 'Zn', element: 'Zn' },
  Cu: { symbol: 'Cu+2', name: 'copper', charge: 2, formula: 'Cu', element: 'Cu' },
  B: { symbol: 'H3BO3', name: 'boron', charge: 0, formula: 'H3BO3', element: 'B' },
  Mo: { symbol: 'MoO4-2', name: 'molybdenum', charge: -2, formula: 'MoO4', element: 'Mo' },
} as const satisfies Record<string, ComponentFacts>;

export type Component = keyof typeof COMPONENTS;

/** In the order of the table. */
export const COMPONENT_NAMES = Object.keys(COMPONENTS) as readonly Component[];

export const isComponent = (name: string): name is Component => Object.hasOwn(COMPONENTS, name);

export const chargeOf = (component: Component): number => COMPONENTS[component].charge;

/** g/mol of the component in the form of its formula (iron: of the element, the chelating agent is not counted). */
export const massOf = (component: Component): number => molarMassGPerMol(COMPONENTS[component].formula);
