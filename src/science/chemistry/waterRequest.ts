import { accepted, refused, type Outcome, type Refusal } from '../refusal.ts';
import { chargeOf, isComponent, type Component } from './components.ts';
import type { CarbonCondition, EquilibriumProblem, ProtonCondition } from './equilibriumProblem.ts';
import { TOTALS } from './equilibriumSystem.ts';
import { refuseTemperature, VALIDITY } from './validity.ts';

/** A water as a grower or a laboratory states it, checked and without contradiction. */
export interface StatedWater {
  readonly id: string;
  readonly problem: EquilibriumProblem;
}

type Fields = Readonly<Record<string, unknown>>;

const KEYS: ReadonlySet<string> = new Set(['id', 'temperatureC', 'totalsMmolPerKg', 'pH', 'chargeAdjust', 'inorganicCarbonMmolPerKg', 'alkalinityMeqPerKg', 'log10PCO2Atm']);
/** Names of elements with their valence and other spellings, as geochemists write them. */
const OTHER_NAMES: ReadonlyMap<string, Component> = new Map<string, Component>(Object.entries({
  'N(-3)': 'NH4', NH3: 'NH4', 'N(5)': 'NO3', 'S(6)': 'SO4', S: 'SO4', PO4: 'P', HPO4: 'P', H2PO4: 'P', H3PO4: 'P', 'P(5)': 'P', 'K(1)': 'K', 'Na(1)': 'Na', 'Ca(2)': 'Ca', 'Mg(2)': 'Mg',
  'Cl(-1)': 'Cl', 'Mn(2)': 'Mn', 'Zn(2)': 'Zn', 'Cu(2)': 'Cu', SiO2: 'Si', H4SiO4: 'Si', 'Si(4)': 'Si', H3BO3: 'B', 'B(OH)3': 'B', 'B(3)': 'B', MoO4: 'Mo', 'Mo(6)': 'Mo',
} as const));
/** Inorganic carbon by any of its names; and alkalinity, which is no amount of carbon. */
const CARBON_NAMES: ReadonlySet<string> = new Set(['C', 'C(4)', 'CO2', 'H2CO3', 'HCO3', 'CO3']);
const ALKALINITY = 'Alkalinity';
/** What comes after a name as its charge: "Ca+2", "Ca2+", "Ca++". */
const CHARGES: readonly RegExp[] = [/[+-]\d?$/, /\d[+-]$/, /[+-]{2,3}$/];
/** Iron of any kind that is not in a chelate. */
const FREE_IRON = /^Fe(\([23]\)|[+-]?[23][+-]?|[+-]{2,3})$/;

const fault = (code: Refusal['code'], path: string, message: string, value?: unknown): Refusal =>
  ({ code, path, message, severity: 'error', ...(value !== undefined && { value }) });
const isFields = (value: unknown): value is Fields => typeof value === 'object' && value !== null && !Array.isArray(value);
const isStated = (value: unknown): boolean => value !== undefined && value !== null;

/** Reads `{ waters: [...] }`. Refused with every fault at once: shape, names, numbers, contradictions. */
export function readWaters(input: unknown): Outcome<readonly StatedWater[]> {
  if (!isFields(input) || !Array.isArray(input.waters)) return refused([fault('value-missing', 'waters', 'a list of waters is expected: { "waters": [ ... ] }')]);
  const unknownKeys = Object.keys(input).filter((key) => key !== 'waters').map((key) => fault('key-unknown', key, `${key} is not known here`));
  const waters: readonly unknown[] = input.waters;
  const read = waters.map((water, index) => readWater(water, `waters[${index}]`));
  const faults = [...unknownKeys, ...read.flatMap((outcome) => (outcome.ok ? [] : outcome.refusals)), ...refuseRepeatedIds(waters)];
  return faults.length > 0 ? refused(faults) : accepted(read.flatMap((outcome) => (outcome.ok ? [outcome.value] : [])));
}

function refuseRepeatedIds(waters: readonly unknown[]): Refusal[] {
  const ids = waters.map((water) => (isFields(water) ? water.id : undefined));
  return ids.flatMap((id, index) => (typeof id === 'string' && ids.indexOf(id) < index ? [fault('duplicate', `waters[${index}].id`, `the id ${id} is used twice`, id)] : []));
}

function readWater(water: unknown, path: string): Outcome<StatedWater> {
  if (!isFields(water)) return refused([fault('value-not-allowed', path, 'a water is an object', water)]);
  const faults = [
    ...Object.keys(water).filter((key) => !KEYS.has(key)).map((key) => fault('key-unknown', `${path}.${key}`, `${key} is not known here; known are ${[...KEYS].join(', ')}`)),
    ...(typeof water.id === 'string' && water.id !== '' ? [] : [fault('value-missing', `${path}.id`, 'each water needs an id', water.id)]),
    ...refuseTemperature(water.temperatureC, `${path}.temperatureC`),
    ...refuseTotals(water.totalsMmolPerKg, `${path}.totalsMmolPerKg`),
    ...refusePH(water.pH, `${path}.pH`),
    ...refuseOptional(water, 'inorganicCarbonMmolPerKg', path, 0, 1000),
    ...refuseOptional(water, 'alkalinityMeqPerKg', path, -1000, 1000),
    ...refuseOptional(water, 'log10PCO2Atm', path, -12, 1),
    ...refuseChargeAdjust(water, path),
    ...refuseContradictions(water, path),
  ];
  return faults.length > 0 ? refused(faults) : accepted({ id: water.id as string, problem: problemOf(water) });
}

/** A name as it is, and without what may be its charge. */
const barely = (name: string): string[] => [name, ...CHARGES.map((charge) => name.replace(charge, ''))];

/** The component that a name stands for: its own, an element with valence, an ion with its charge ("Ca+2", "NO3-"). */
export function componentNamed(name: string): Component | undefined {
  const known = COMPONENT_OF.get(name) ?? findComponent(name);
  if (known !== undefined) COMPONENT_OF.set(name, known);
  return known;
}

/** Names met so far that stand for something: there are only so many spellings of each. */
const COMPONENT_OF = new Map<string, Component>();

function findComponent(name: string): Component | undefined {
  if (FREE_IRON.test(name)) return undefined;
  return barely(name).map((bare) => OTHER_NAMES.get(bare) ?? (isComponent(bare) && bare !== 'HCO3' ? bare : undefined)).find((found) => found !== undefined);
}

const namesCarbon = (name: string): boolean => !COMPONENT_OF.has(name) && barely(name).some((bare) => CARBON_NAMES.has(bare));
/** What a name stands for, carbon and alkalinity included. */
const meaningOf = (name: string): string | undefined => componentNamed(name) ?? (namesCarbon(name) ? 'carbon' : name === ALKALINITY ? ALKALINITY : undefined);

function refuseTotals(totals: unknown, path: string): Refusal[] {
  if (!isFields(totals)) return [fault('value-missing', path, 'the amounts are expected as { ion or element: mmol per kg of water }', totals)];
  const names = Object.keys(totals);
  const meanings = names.map(meaningOf);
  const repeated = names.filter((_, index) => meanings[index] !== undefined && meanings.indexOf(meanings[index]) < index);
  return [...names.flatMap((name) => refuseTotal(name, totals[name], `${path}.${name}`)), ...repeated.map((name) => fault('duplicate', `${path}.${name}`, `${name} is stated twice under different names`))];
}

function refuseTotal(name: string, amount: unknown, path: string): Refusal[] {
  if (meaningOf(name) === undefined) return [fault('key-unknown', path, `${name} is not an ion or element known here${hintFor(name)}`)];
  if (typeof amount !== 'number' || !Number.isFinite(amount)) return [fault('value-not-a-number', path, 'an amount is a number of mmol/kg', amount)];
  return amount < 0 && name !== ALKALINITY ? [{ ...fault('value-out-of-range', path, 'an amount cannot be negative', amount), limit: 'at least 0', unit: 'mmol/kg' }] : [];
}

function hintFor(name: string): string {
  if (name === 'N') return ': write NO3 or NH4';
  if (FREE_IRON.test(name)) return ': iron is only known in its chelate, write Fe';
  return `; known are ${[...TOTALS, 'C', ALKALINITY].join(', ')}`;
}

function refusePH(pH: unknown, path: string): Refusal[] {
  if (pH === 'charge') return [];
  if (typeof pH !== 'number' || !Number.isFinite(pH)) return [fault('value-not-allowed', path, 'pH is a number, or "charge" for the pH at which charges balance', pH)];
  const { lowest, highest } = VALIDITY.pH;
  return pH < lowest || pH > highest ? [{ ...fault('value-out-of-range', path, 'pH is outside the scale', pH), limit: `${lowest} to ${highest}`, unit: '[pH]' }] : [];
}

function refuseOptional(water: Fields, key: string, path: string, lowest: number, highest: number): Refusal[] {
  const value = water[key];
  if (!isStated(value)) return [];
  if (typeof value !== 'number' || !Number.isFinite(value)) return [fault('value-not-a-number', `${path}.${key}`, `${key} is a number or null`, value)];
  return value < lowest || value > highest ? [{ ...fault('value-out-of-range', `${path}.${key}`, `${key} is out of range`, value), limit: `${lowest} to ${highest}` }] : [];
}

function refuseChargeAdjust(water: Fields, path: string): Refusal[] {
  const name = water.chargeAdjust;
  if (!isStated(name)) return [];
  const component = typeof name === 'string' ? componentNamed(name) : undefined;
  if (component === undefined || chargeOf(component) === 0) return [fault('value-not-allowed', `${path}.chargeAdjust`, 'chargeAdjust names a charged ion or element, or is null', name)];
  return water.pH === 'charge' ? [fault('inconsistent', `${path}.chargeAdjust`, 'either pH or an ion balances the charges, not both', name)] : [];
}

/** The three ways of fixing the carbon, whether stated beside the amounts or among them. */
interface StatedCarbon { readonly inorganicCarbonMmolPerKg?: number; readonly alkalinityMeqPerKg?: number; readonly log10PCO2Atm?: number }

/** Everything that is said about carbon; a list, because it may be said twice. */
function statedCarbon(water: Fields): StatedCarbon[] {
  const beside = ['inorganicCarbonMmolPerKg', 'alkalinityMeqPerKg', 'log10PCO2Atm'].filter((key) => isStated(water[key])).map((key): StatedCarbon => ({ [key]: water[key] }));
  const totals = isFields(water.totalsMmolPerKg) ? Object.entries(water.totalsMmolPerKg) : [];
  const among = totals.flatMap(([name, amount]): StatedCarbon[] => (namesCarbon(name) ? [{ inorganicCarbonMmolPerKg: amount as number }] : name === ALKALINITY ? [{ alkalinityMeqPerKg: amount as number }] : []));
  return [...beside, ...among];
}

/** Carbon may be fixed once; and an alkalinity says nothing new where the charges already fix it. */
function refuseContradictions(water: Fields, path: string): Refusal[] {
  const carbon = statedCarbon(water);
  const twice = carbon.length > 1 ? [fault('inconsistent', path, `only one of ${carbon.flatMap(Object.keys).join(', ')} can be stated: each fixes the carbon`)] : [];
  const both = water.pH === 'charge' && carbon.some(({ alkalinityMeqPerKg }) => alkalinityMeqPerKg !== undefined)
    ? [fault('inconsistent', `${path}.alkalinityMeqPerKg`, 'with pH "charge" the amounts already fix the alkalinity; state a pH, or inorganic carbon, or CO2')] : [];
  return [...twice, ...both];
}

/** Only for a water without faults. */
function problemOf(water: Fields): EquilibriumProblem {
  const totalsMolPerKg = new Float64Array(TOTALS.length);
  for (const [name, mmol] of Object.entries(water.totalsMmolPerKg as Record<string, number>)) {
    const component = componentNamed(name);
    if (component !== undefined) totalsMolPerKg[TOTALS.indexOf(component)] = mmol / 1000;
  }
  const adjusted = isStated(water.chargeAdjust) ? TOTALS.indexOf(componentNamed(water.chargeAdjust as string)!) : undefined;
  const protons: ProtonCondition = water.pH === 'charge' ? { by: 'charge' } : { by: 'pH', pH: water.pH as number };
  return { temperatureC: water.temperatureC as number, totalsMolPerKg, protons, carbon: carbonOf(statedCarbon(water)[0] ?? {}), ...(adjusted !== undefined && { chargeAdjust: adjusted }) };
}

function carbonOf({ inorganicCarbonMmolPerKg: total, alkalinityMeqPerKg: alkalinity, log10PCO2Atm }: StatedCarbon): CarbonCondition {
  if (total !== undefined) return { by: 'total', molPerKg: total / 1000 };
  if (alkalinity !== undefined) return { by: 'alkalinity', eqPerKg: alkalinity / 1000 };
  return log10PCO2Atm === undefined ? { by: 'none' } : { by: 'air', log10PCO2Atm };
}
