import type { Component } from './components.ts';
import { SPECIES, type ActivityRule, type Species } from './species.ts';

/**
 * The species table in the form in which the equations are solved. Every species is one of the unknown ligands sulfate, H2PO4-, CO2
 * and H+ (and water) joined to at most one of the other components. Those others never meet each other, so their mass balances are
 * solved in closed form and only four unknowns are left. In this basis the sum over the proton numbers is minus the alkalinity.
 */
export const UNKNOWNS = ['SO4', 'P', 'C', 'H'] as const;
export const [SULFATE, PHOSPHATE, CARBON, PROTON] = [0, 1, 2, 3] as const;

/** Master species of each component that is eliminated. */
const CARRIERS: readonly (readonly [Component, string])[] = [
  ['NH4', 'NH4+'], ['K', 'K+'], ['Ca', 'Ca+2'], ['Mg', 'Mg+2'], ['Na', 'Na+'], ['NO3', 'NO3-'], ['Cl', 'Cl-'],
  ['Si', 'H4SiO4'], ['Fe', 'Fe-chelate'], ['Mn', 'Mn+2'], ['Zn', 'Zn+2'], ['Cu', 'Cu+2'], ['B', 'H3BO3'], ['Mo', 'MoO4-2'],
];
export const CARRIER_COMPONENTS: readonly Component[] = CARRIERS.map(([component]) => component);

/** Amounts that a problem states: carriers, then sulfate and phosphate, mol/kg. Alkalinity and carbon are stated apart. */
export const TOTALS: readonly Component[] = [...CARRIER_COMPONENTS, 'SO4', 'P'];
export const TOTAL_SULFATE = TOTALS.indexOf('SO4');
export const TOTAL_PHOSPHATE = TOTALS.indexOf('P');

/** Coefficients over master species and water. */
type Formation = Map<string, number>;

const formations = new Map<string, Formation>();
for (const species of SPECIES) formations.set(species.name, formationOf(species));

function formationOf(species: Species): Formation {
  const parts = Object.entries(species.from);
  if (parts.length === 0) return new Map([[species.name, 1]]);
  const sum: Formation = new Map();
  for (const [part, n] of parts) {
    const inner = part === 'H2O' ? new Map([['H2O', 1]]) : formations.get(part);
    if (inner === undefined) throw new Error(`${species.name} is formed from ${part}, which is not above it in the table`);
    for (const [name, m] of inner) sum.set(name, (sum.get(name) ?? 0) + n * m);
  }
  return sum;
}

const carrierOf = (formation: Formation): number => CARRIERS.findIndex(([, name]) => formation.has(name));

/** Species in the order of the arrays: those without carrier first, then carrier by carrier, the bare one leading. */
const ordered = [...SPECIES].map((species) => ({ species, formation: formations.get(species.name)! }))
  .map((entry) => ({ ...entry, carrier: carrierOf(entry.formation) }))
  .sort((a, b) => a.carrier - b.carrier);

export const SPECIES_NAMES: readonly string[] = ordered.map(({ species }) => species.name);
export const SPECIES_COUNT = ordered.length;
export const speciesIndex = (name: string): number => {
  const index = SPECIES_NAMES.indexOf(name);
  if (index < 0) throw new Error(`no species ${name}`);
  return index;
};

export const SPECIES_CHARGE = Int8Array.from(ordered, ({ species }) => species.charge);

/** Number of each unknown in a species: four entries a species, in the order of UNKNOWNS, in the basis SO4-2, H2PO4-, CO2, H+. */
export const STOICHIOMETRY = Int8Array.from(ordered.flatMap(({ formation }) => {
  const [s, p, c, h] = ['SO4-2', 'PO4-3', 'CO3-2', 'H+'].map((name) => formation.get(name) ?? 0) as [number, number, number, number];
  return [s, p, c, h - 2 * p - 2 * c];
}));
/** Number of water molecules taken up, in the same basis. */
export const WATER_NUMBER = Int8Array.from(ordered, ({ formation }) => (formation.get('H2O') ?? 0) + (formation.get('CO3-2') ?? 0));

/** First species of each carrier, and one past the last of all. */
export const CARRIER_START = Int32Array.from([...CARRIERS.map((_, index) => ordered.findIndex(({ carrier }) => carrier === index)), SPECIES_COUNT]);

/** Charge of each total when phosphate is H2PO4- and carbon is CO2; its balance is the alkalinity. */
export const TOTAL_CHARGE = Int8Array.from([...CARRIERS.map(([, name]) => SPECIES.find((species) => species.name === name)!.charge), -2, -1]);

/** Species that share a rule and a charge share an activity coefficient. */
const keyOf = ({ charge, activity }: Species): string => JSON.stringify([Math.abs(charge), activity]);
const keys = [...new Set(ordered.map(({ species }) => keyOf(species)))];
export const ACTIVITY_CLASS = Int32Array.from(ordered, ({ species }) => keys.indexOf(keyOf(species)));
export const ACTIVITY_CLASSES: readonly { readonly charge: number; readonly rule: ActivityRule }[] = keys.map((key) => {
  const [charge, rule] = JSON.parse(key) as [number, ActivityRule];
  return { charge, rule };
});

/** log10 formation constants of all species in the basis, from those of the published reactions. */
export function formationConstants(log10K: (species: Species) => number): Float64Array {
  const total = new Map<string, number>();
  for (const species of SPECIES) {
    const inherited = Object.entries(species.from).reduce((sum, [part, n]) => sum + n * (total.get(part) ?? 0), 0);
    total.set(species.name, log10K(species) + inherited);
  }
  const phosphate = total.get('H2PO4-')!, carbon = total.get('CO2')!;
  return Float64Array.from(ordered, ({ species, formation }) =>
    total.get(species.name)! - (formation.get('PO4-3') ?? 0) * phosphate - (formation.get('CO3-2') ?? 0) * carbon);
}
