import type { Refusal } from '../refusal.ts';

/** Where the equations hold. */
export const VALIDITY = {
  /** Constants and water properties. */
  temperatureC: { lowest: 0, highest: 50 },
  /** Beyond it a result is not given at all, mol/kg: no activity rule here means anything there. */
  ionicStrengthMolPerKg: { good: 0.1, fair: 0.5, highest: 6 },
  pH: { lowest: 0, highest: 14, good: [3, 10] },
  /** Laboratory analyses of nutrient solutions lie within this. */
  chargeErrorPct: 5,
} as const;

/** What a reader of a result must be told about its limits. */
export function warnValidity(speciation: { readonly ionicStrengthMolPerKg: number; readonly pH: number; readonly chargeErrorPct: number }, path: string): Refusal[] {
  const { ionicStrengthMolPerKg: strength, pH, chargeErrorPct } = speciation;
  const { good, fair } = VALIDITY.ionicStrengthMolPerKg;
  const [lowPH, highPH] = VALIDITY.pH.good;
  const warnings: [boolean, Omit<Refusal, 'path' | 'severity' | 'code'>][] = [
    [strength > fair, { value: strength, limit: fair, unit: 'mol/kg', message: 'a stock solution, outside the models: saturation indices to plus or minus 0.3, conductivity and pH for order of magnitude' }],
    [strength > good && strength <= fair, { value: strength, limit: good, unit: 'mol/kg', message: 'more concentrated than the models are checked for: saturation indices to plus or minus 0.3, conductivity to some 5 %' }],
    [pH < lowPH || pH > highPH, { value: pH, limit: `${lowPH} to ${highPH}`, unit: '[pH]', message: 'pH outside the range of nutrient solutions and source waters' }],
    [Math.abs(chargeErrorPct) > VALIDITY.chargeErrorPct, { value: chargeErrorPct, limit: VALIDITY.chargeErrorPct, unit: '%', message: 'cations and anions do not balance: something is missing from the analysis or wrong in it' }],
  ];
  return warnings.flatMap(([applies, warning]): Refusal[] => (applies ? [{ code: 'value-out-of-range', path, severity: 'warning', ...warning }] : []));
}

export function refuseTemperature(temperatureC: unknown, path: string): Refusal[] {
  const { lowest, highest } = VALIDITY.temperatureC;
  if (typeof temperatureC !== 'number' || !Number.isFinite(temperatureC)) {
    return [{ code: 'value-not-a-number', path, value: temperatureC, unit: 'Cel', message: 'the temperature must be a number of degrees Celsius', severity: 'error' }];
  }
  if (temperatureC >= lowest && temperatureC <= highest) return [];
  return [{ code: 'value-out-of-range', path, value: temperatureC, limit: `${lowest} to ${highest}`, unit: 'Cel', message: 'the temperature is outside the range of the constants', severity: 'error' }];
}
