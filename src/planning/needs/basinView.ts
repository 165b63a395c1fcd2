import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { BasinState } from '../../greenhouse/state.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import type { LitresBetween } from '../lots/waterUse.ts';
import type { SolutionEstimate } from '../water/solutionEstimate.ts';

/** One basin with everything that a decision about it needs. */
export interface BasinView {
  readonly basin: BasinState;
  readonly card: CropCard | undefined;
  readonly lot: LotExpectation | undefined;
  readonly water: SolutionEstimate;
  /** As the model has it; multiply by the factor that the basin's own levels taught. */
  readonly litresBetween: LitresBetween;
}

/** Litres that this basin will lose, with the factor learned from its levels. */
export function expectedLossL(view: BasinView, fromMs: number, toMs: number): number {
  const factor = view.water.known ? view.water.solution.transpirationFactor : 1;
  return factor * view.litresBetween(fromMs, toMs);
}
