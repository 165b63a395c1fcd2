import type { AnalysisRow } from './schema/tableRows.ts';
import { chargeBalanceMeqPerL, chargeErrorPct, type Component, type Composition } from '../science/chemistry/composition.ts';

const MACRO = {
  NH4: 'ammoniumMmolPerL', K: 'potassiumMmolPerL', Ca: 'calciumMmolPerL', Mg: 'magnesiumMmolPerL', Na: 'sodiumMmolPerL', NO3: 'nitrateMmolPerL',
  Cl: 'chlorideMmolPerL', SO4: 'sulfateMmolPerL', P: 'phosphateMmolPerL', HCO3: 'bicarbonateMmolPerL', Si: 'siliconMmolPerL',
} as const satisfies Partial<Record<Component, keyof AnalysisRow>>;
const MICRO = {
  Fe: 'ironUmolPerL', Mn: 'manganeseUmolPerL', Zn: 'zincUmolPerL', B: 'boronUmolPerL', Cu: 'copperUmolPerL', Mo: 'molybdenumUmolPerL',
} as const satisfies Partial<Record<Component, keyof AnalysisRow>>;

export interface AnalysedWater {
  readonly analysis: string;
  readonly at: string;
  readonly mmolPerL: Composition;
  /** Components that the laboratory did not report; they are absent from `mmolPerL`. */
  readonly notAnalysed: readonly Component[];
  /** Absent where nothing charged was found. Good analyses lie within 5 % (120 solutions: sd 1.5 %). */
  readonly chargeErrorPct: number | undefined;
  readonly pH?: number;
  readonly ecMsPerCm25?: number;
}

/**
 * A laboratory's row as a composition. Where bicarbonate was not reported it is taken as the missing negative charge,
 * if any is missing (common practice); everything else that was not reported stays absent.
 */
export function compositionOfAnalysis(row: AnalysisRow): AnalysedWater {
  const mmolPerL: Partial<Record<Component, number>> = {};
  const notAnalysed: Component[] = [];
  const take = (component: Component, value: number | undefined, factor: number) => {
    if (value === undefined) notAnalysed.push(component);
    else mmolPerL[component] = value * factor;
  };
  for (const component of Object.keys(MACRO) as (keyof typeof MACRO)[]) take(component, row[MACRO[component]], 1);
  for (const component of Object.keys(MICRO) as (keyof typeof MICRO)[]) take(component, row[MICRO[component]], 1e-3);
  const chargeError = chargeErrorPct(mmolPerL);
  const missing = chargeBalanceMeqPerL(mmolPerL);
  if (mmolPerL.HCO3 === undefined && missing > 0) mmolPerL.HCO3 = missing;
  return {
    analysis: row.analysis, at: row.at, mmolPerL, notAnalysed, chargeErrorPct: chargeError,
    ...(row.pH === undefined ? {} : { pH: row.pH }), ...(row.ecMsPerCm25 === undefined ? {} : { ecMsPerCm25: row.ecMsPerCm25 }),
  };
}
