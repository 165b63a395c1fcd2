/** Emission factors that no file of the greenhouse gives, each with its unit, range and source. */
export interface EmissionFactor {
  readonly value: number;
  readonly unit: string;
  readonly range: readonly [number, number];
  readonly meaning: string;
  readonly source: string;
}

export const EMISSION_FACTORS = {
  /** Products of fertilisers.yaml that carry no factor of their own. */
  unknownProductKgPerKg: {
    value: 1, unit: 'kg/kg', range: [0.2, 6], meaning: 'Making one kilogram of a fertiliser without a factor of its own',
    source: 'between magnesium salts (0.1-0.3) and chelates (3-6): from memory, unverified',
  },
  vehicleRollingShare: {
    value: 0.02, unit: '1', range: [0.01, 0.04], meaning: 'Rolling resistance as a share of weight, solid tyres on concrete', source: 'common practice, no source',
  },
  vehicleEfficiency: { value: 0.7, unit: '1', range: [0.5, 0.9], meaning: 'Socket to wheel', source: 'common practice, no source' },
  vehicleEmptyKg: { value: 250, unit: 'kg', range: [100, 800], meaning: 'Weight of a vehicle without a basin', source: 'common practice, no source' },
} as const satisfies Record<string, EmissionFactor>;
