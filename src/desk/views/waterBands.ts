import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { Component } from '../../science/chemistry/composition.ts';
import type { BasinOutlook } from '../../planning/morningPlan.ts';
import { componentBands, targetComposition } from '../../planning/water/feedLimits.ts';
import type { WaterBand } from '../contract.ts';

const MACRO = { NO3: ['nitrate', 'NO₃⁻'], NH4: ['ammonium', 'NH₄⁺'], P: ['phosphate', 'H₂PO₄⁻'], K: ['potassium', 'K⁺'], Ca: ['calcium', 'Ca²⁺'], Mg: ['magnesium', 'Mg²⁺'], SO4: ['sulfate', 'SO₄²⁻'] } as const;
const MICRO = { Fe: ['iron', 'Fe'], Mn: ['manganese', 'Mn²⁺'], Zn: ['zinc', 'Zn²⁺'], B: ['boron', 'B'], Cu: ['copper', 'Cu²⁺'], Mo: ['molybdenum', 'Mo'] } as const;
const BALLAST = { Na: ['sodium', 'Na⁺'], Cl: ['chloride', 'Cl⁻'] } as const;

/** The water of a basin, each property against its band as planning holds it, mmol per litre of solution (traces umol). */
export function waterBands(outlook: BasinOutlook, card: CropCard): WaterBand[] {
  const { water } = outlook;
  const absentBecause = water === undefined ? (outlook.waterUnknown ?? 'nothing is known of this water yet') : 'not analysed';
  const [bands, targets] = [componentBands(card), targetComposition(card)];
  const band = (name: string, symbol: string, unit: string, [low, high]: readonly [number, number], value: number | undefined, target?: number): WaterBand =>
    ({ name, symbol, unit, low, high, ...(target === undefined ? {} : { target }), ...(value === undefined ? { absentBecause } : { value }) });
  const component = (key: Component, [name, symbol]: readonly [string, string], unit: string, times: number): WaterBand[] => {
    const range = bands[key];
    if (range === undefined) return [];
    return [band(name, symbol, unit, [range[0] * times, range[1] * times], scaled(water?.mmolPerL[key], times), scaled(targets[key], times))];
  };
  return [
    band('conductivity at 25 °C', 'EC', 'mS/cm', card.water.ecMsPerCm25, water?.ecMsPerCm25),
    band('acidity', 'pH', '', card.water.pH, water?.pH),
    ...keysOf(MACRO).flatMap((key) => component(key, MACRO[key], 'mmol/L', 1)),
    ...keysOf(MICRO).flatMap((key) => component(key, MICRO[key], 'µmol/L', 1000)),
    ...keysOf(BALLAST).flatMap((key) => component(key, BALLAST[key], 'mmol/L', 1)),
  ];
}

const keysOf = <T extends object>(table: T) => Object.keys(table) as (keyof T)[];
const scaled = (value: number | undefined, times: number): number | undefined => (value === undefined ? undefined : value * times);
