import type { DemoCrop } from './demoTypes.ts';

/** Basin area of the demo's one basin type, m2. */
export const BASIN_M2 = 2.4 * 1.2;

/** Days that seed spends in a tray before the seedlings come into a basin. */
export const TRAY_DAYS = 5;

const lettuceStages = (finishDays: number): DemoCrop['stages'] => [
  { id: 'nursery', bay: 'nursery', days: 14, plantsInBasins: [345] },
  { id: 'young', bay: 'glass', days: 12, plantsInBasins: [138, 207] },
  { id: 'finish', bay: 'glass', days: finishDays, plantsInBasins: [69, 69, 69, 69, 69] },
];

/** The four crops of the demonstration: invented sowing rhythm and vigour; the crop cards in data/crops describe the rest. */
export const DEMO_CROPS: readonly DemoCrop[] = [
  { id: 'butterhead', code: 'BH', stages: lettuceStages(17), evenDay: 0, seedlingDryG: 0.006, dryGPerMol: 0.84, leafM2PerG: 0.03, unitGrams: 150, plantsPerUnit: 1, lossShare: 0.05 },
  { id: 'oakleaf', code: 'OL', stages: lettuceStages(16), evenDay: 1, seedlingDryG: 0.006, dryGPerMol: 0.77, leafM2PerG: 0.03, unitGrams: 125, plantsPerUnit: 1, lossShare: 0.05 },
  {
    id: 'basil', code: 'BA', evenDay: 0, seedlingDryG: 0.005, dryGPerMol: 0.58, leafM2PerG: 0.035, unitGrams: 50, plantsPerUnit: 2, lossShare: 0.06,
    stages: [{ id: 'nursery', bay: 'nursery', days: 12, plantsInBasins: [692] }, { id: 'field', bay: 'glass', days: 23, plantsInBasins: [173, 173, 173, 173] }],
  },
  {
    id: 'coriander', code: 'CO', evenDay: 1, seedlingDryG: 0.004, dryGPerMol: 0.6, leafM2PerG: 0.035, unitGrams: 40, plantsPerUnit: 4, lossShare: 0.08,
    stages: [{ id: 'nursery', bay: 'nursery', days: 12, plantsInBasins: [951] }, { id: 'field', bay: 'glass', days: 21, plantsInBasins: [317, 317, 317] }],
  },
];
