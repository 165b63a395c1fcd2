import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { BasinOutlook } from '../../planning/morningPlan.ts';
import type { WaterBand } from '../contract.ts';

const MACRO = { NO3: ['nitrate', 'NO₃⁻'], NH4: ['ammonium', 'NH₄⁺'], P: ['phosphate', 'H₂PO₄⁻'], K: ['potassium', 'K⁺'], Ca: ['calcium', 'Ca²⁺'], Mg: ['magnesium', 'Mg²⁺'], SO4: ['sulfate', 'SO₄²⁻'] } as const;
const MICRO = { Fe: ['iron', 'Fe'], Mn: ['manganese', 'Mn²⁺'], Zn: ['zinc', 'Zn²⁺'], B: ['boron', 'B'], Cu: ['copper', 'Cu²⁺'], Mo: ['molybdenum', 'Mo'] } as const;

/** The water of a basin, each property against its band on the crop card, mmol per litre of solution (traces umol). */
export function waterBands(outlook: BasinOutlook, card: CropCard): WaterBand[] {
  const { water } = outlook;
  const absentBecause = water === undefined ? (outlook.waterUnknown ?? 'nothing is known of this water yet') : 'not analysed';
  const { tolerance, target } = card.water;
  const band = (name: string, symbol: string, unit: string, low: number, high: number, value: number | undefined, at?: number): WaterBand =>
    ({ name, symbol, unit, low, high, ...(at === undefined ? {} : { target: at }), ...(value === undefined ? { absentBecause } : { value }) });
  const around = ([name, symbol]: readonly [string, string], unit: string, at: number, value: number | undefined): WaterBand[] =>
    at > 0 ? [band(name, symbol, unit, at * (1 - tolerance), at * (1 + tolerance), value, at)] : [];
  const [ecLow, ecHigh] = card.water.ecMsPerCm25;
  const [pHLow, pHHigh] = card.water.pH;
  return [
    band('conductivity at 25 °C', 'EC', 'mS/cm', ecLow, ecHigh, water?.ecMsPerCm25),
    band('acidity', 'pH', '', pHLow, pHHigh, water?.pH),
    ...keysOf(MACRO).flatMap((key) => around(MACRO[key], 'mmol/L', target.mmolPerL[key], water?.mmolPerL[key])),
    ...keysOf(MICRO).flatMap((key) => around(MICRO[key], 'µmol/L', target.umolPerL[key], thousandfold(water?.mmolPerL[key]))),
    band('sodium', 'Na⁺', 'mmol/L', 0, card.water.sodiumMaxMmolPerL, water?.mmolPerL.Na),
    band('chloride', 'Cl⁻', 'mmol/L', 0, card.water.chlorideMaxMmolPerL, water?.mmolPerL.Cl),
  ];
}

const keysOf = <T extends object>(table: T) => Object.keys(table) as (keyof T)[];
const thousandfold = (mmol: number | undefined): number | undefined => (mmol === undefined ? undefined : mmol * 1000);
