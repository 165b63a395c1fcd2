import { COMPONENT_NAMES, COMPONENTS, massOf, type Component } from '../../science/chemistry/components.ts';
import { ATOMIC_MASS_G_PER_MOL } from '../../science/chemistry/molarMass.ts';
import type { ComponentName } from '../contract.ts';

/** First what growers talk of, then the rest in the order of the components. */
const FIRST: readonly Component[] = ['NO3', 'NH4', 'P', 'K', 'Ca', 'Mg', 'SO4', 'Na', 'Cl', 'HCO3', 'Si'];
const LABELS: Partial<Record<Component, string>> = { NO3: 'N-NO₃', NH4: 'N-NH₄', SO4: 'S', HCO3: 'HCO₃' };
const TRACES: ReadonlySet<Component> = new Set(['Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo']);

/** What dissolved components are called and how they are weighed: nutrients as their element, alkalinity as bicarbonate. */
export const componentNames: readonly ComponentName[] = [...FIRST, ...COMPONENT_NAMES.filter((name) => !FIRST.includes(name))].map((id) => {
  const { name, element } = COMPONENTS[id];
  const isAlkalinity = id === 'HCO3';
  return {
    id, name: name.split(',')[0]!, element: isAlkalinity ? 'HCO₃' : element, label: LABELS[id] ?? element,
    gPerMol: isAlkalinity ? massOf(id) : ATOMIC_MASS_G_PER_MOL[element]!, trace: TRACES.has(id),
  };
});
