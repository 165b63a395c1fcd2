import { describe, expect, it } from 'vitest';
import { MINERAL_IDS, MINERALS } from './minerals.ts';
import { molarMassGPerMol } from './molarMass.ts';
import { SATURATION_LIMITS } from './saturation.ts';
import { SPECIES } from './species.ts';

/** Formulas as in mineral tables (Mindat; octacalcium phosphate per half of Ca8H2(PO4)6.5H2O). Carbon dioxide is the gas. */
const FORMULAS: Readonly<Record<string, string>> = {
  calcite: 'CaCO3', aragonite: 'CaCO3', gypsum: 'CaSO4·2H2O', brushite: 'CaHPO4·2H2O', monetite: 'CaHPO4', octacalciumPhosphate: 'Ca8H2(PO4)6·5H2O', tricalciumPhosphate: 'Ca3(PO4)2',
  hydroxyapatite: 'Ca5(PO4)3OH', struvite: 'MgNH4PO4·6H2O', potassiumStruvite: 'MgKPO4·6H2O', newberyite: 'MgHPO4·3H2O', manganesePhosphate: 'MnHPO4', zincPhosphate: 'Zn3(PO4)2·4H2O',
  amorphousSilica: 'SiO2', carbonDioxide: 'CO2',
};
const HALVED = 'octacalciumPhosphate';

const chargeOf = (name: string): number => SPECIES.find((species) => species.name === name)?.charge ?? 0;
const massOf = (name: string): number => molarMassGPerMol(name.replace(/[+-]\d?$/, ''));

describe('minerals dissolve into what they are made of', () => {
  it.each(MINERAL_IDS)('%s', (id) => {
    const parts = Object.entries(MINERALS[id].dissolvesInto) as [string, number][];
    const mass = parts.reduce((sum, [name, n]) => sum + n * massOf(name), 0);
    expect(mass * (id === HALVED ? 2 : 1)).toBeCloseTo(molarMassGPerMol(FORMULAS[id]!), 6);
    expect(parts.reduce((sum, [name, n]) => sum + n * chargeOf(name), 0)).toBe(0);
  });
});

describe('saturation limits', () => {
  // Engineering judgement, no published limits: brushite above 0 warned, above 0.5 refused; gypsum -0.1; calcite in source water 0.3 and 1; struvite 0.3;
  // stock tanks, calculated to 0.3 only, with that margin.
  it('stand as they were judged', () => {
    const shown = Object.fromEntries(Object.entries(SATURATION_LIMITS).map(([place, limits]) => [place, limits.map(({ mineral, warnAbove, refuseAbove }) => `${mineral} ${warnAbove} ${refuseAbove}`)]));
    expect(shown).toEqual({
      source: ['calcite 0.3 1'],
      feed: ['brushite 0 0.5', 'gypsum -0.1 0', 'calcite 0.3 1', 'struvite 0.3 1'],
      stock: ['brushite -0.3 0.2', 'gypsum -0.4 -0.1', 'struvite 0 0.3'],
    });
  });
});
