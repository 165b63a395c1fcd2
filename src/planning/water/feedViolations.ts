import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { BasinState } from '../../greenhouse/state.ts';
import { SATURATION_LIMITS } from '../../science/chemistry/saturation.ts';
import type { BlendBasin, QualityLimit, Violation } from './blendProblem.ts';
import type { MixedWater } from './feed.ts';
import { componentLimits } from './feedLimits.ts';
import { findViolations } from './solveBlend.ts';

const ABOUT_WATER: readonly string[] = ['conductivity', 'pH', 'saturation'];

/** Limits that only speciation can check. */
export const isAboutWater = (limit: string): boolean => ABOUT_WATER.some((name) => limit.startsWith(name));

/** Misses below this share of a limit are rounding of meters. */
const TOLERANCE = 5e-4;

/** A mixture against the true bands of its crop: components, volume, and by full speciation conductivity, pH and saturation. */
export function feedViolations({ basin, card }: { readonly basin: BasinState; readonly card: CropCard }, after: MixedWater, volumeBandL: readonly [number, number]): Violation[] {
  const figures: QualityLimit[] = [
    figure('conductivity', 'mS/cm', after.ecMsPerCm25, card.water.ecMsPerCm25[0], card.water.ecMsPerCm25[1]),
    ...(after.pH === undefined ? [] : [figure('pH', '', after.pH, card.water.pH[0], card.water.pH[1])]),
    ...SATURATION_LIMITS.feed.flatMap(({ mineral, refuseAbove }) => {
      const index = after.saturation[mineral];
      return index === undefined || refuseAbove === undefined ? [] : [figure(`saturation of ${mineral}`, 'log', index, undefined, refuseAbove)];
    }),
  ];
  const asked: BlendBasin = { id: basin.id, volumeL: 0, mmolPerL: {}, volumeBandL, limits: [...componentLimits(card, 0), ...figures] };
  return findViolations(asked, { volumeL: after.volumeL, mmolPerL: after.mmolPerL as Record<string, number> }, TOLERANCE);
}

const figure = (name: string, unit: string, value: number, low: number | undefined, high: number): QualityLimit =>
  ({ name, unit, weights: {}, constant: value, ...(low === undefined ? {} : { low }), high });
