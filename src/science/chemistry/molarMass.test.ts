import { describe, expect, it } from 'vitest';
import { massOf } from './components.ts';
import { ATOMIC_MASS_G_PER_MOL, molarMassGPerMol } from './molarMass.ts';

describe('molar mass', () => {
  // Each line fixes the masses of its elements to the digits printed. Hand sums of the IUPAC abridged atomic weights.
  it.each([
    ['Ca(NO3)2·4H2O', 236.146], ['KNO3', 101.102], ['KH2PO4', 136.084], ['MgSO4·7H2O', 246.466], ['NH4NO3', 80.043],
    ['K2SO4', 174.252], ['NH4H2PO4', 115.025], ['Mg(NO3)2·6H2O', 256.403], ['H3BO3', 61.831], ['MnSO4·H2O', 169.009],
    ['ZnSO4·7H2O', 287.541], ['CuSO4·5H2O', 249.677], ['Na2MoO4·2H2O', 241.956], ['5Ca(NO3)2·NH4NO3·10H2O', 1080.623],
    ['SiO2', 60.083], ['NaCl', 58.44], ['CO2', 44.009], ['Fe', 55.845], ['(NH4)6Mo7O24·4H2O', 1235.92],
  ])('%s is %f g/mol', (formula, expected) => expect(molarMassGPerMol(formula)).toBeCloseTo(expected, 3));

  it('covers every element of the table', () => expect(Object.keys(ATOMIC_MASS_G_PER_MOL)).toHaveLength(18));
  it('refuses what is not a formula', () => {
    expect(() => molarMassGPerMol('Xx2')).toThrow('no atomic mass');
    expect(() => molarMassGPerMol('K?')).toThrow('not a chemical formula');
    expect(() => molarMassGPerMol('')).toThrow('not a chemical formula');
  });
  it('weighs components in the form of their symbol', () => expect(massOf('P')).toBeCloseTo(96.986, 3));
});
