import { compositionOfAnalysis } from '../../greenhouse/compositionOfAnalysis.ts';
import { tellsComposition } from '../../greenhouse/tellsComposition.ts';
import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { Composition } from '../../science/chemistry/composition.ts';
import { targetComposition } from './feedLimits.ts';

/** Sodium and chloride of a water, mmol/L. */
export type Salts = Pick<Composition, 'Na' | 'Cl'>;

/**
 * The salts that basins are likely to hold where nobody analysed them: what the latest analyses of the return tanks found,
 * since that is solution spent in such basins; without one, what fresh water brings. Empty where neither was analysed.
 */
export function likelySalts({ file, analyses }: GreenhouseState, atMs: number): Salts {
  for (const kind of ['return', 'fresh'] as const) {
    const found = (file?.sources ?? []).filter((source) => source.kind === kind).flatMap(({ id }) => {
      const row = analyses.filter(({ place, at }) => place === `tank:${id}` && Date.parse(at) <= atMs).filter(tellsComposition).reduce<(typeof analyses)[number] | undefined>((best, each) => (best !== undefined && best.at > each.at ? best : each), undefined);
      return row === undefined ? [] : [compositionOfAnalysis(row).mmolPerL];
    });
    if (found.length > 0) return { Na: mean(found.map(({ Na = 0 }) => Na)), Cl: mean(found.map(({ Cl = 0 }) => Cl)) };
  }
  return {};
}

/** What the water around a crop is likely made like: its target, and the salts that no target asks for. */
export const likelyWater = (card: CropCard, salts: Salts): Composition => ({ ...salts, ...targetComposition(card) });

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
