import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { BasinState } from '../../greenhouse/state.ts';
import type { Composition } from '../../science/chemistry/composition.ts';
import type { BindingLimit, Violation } from './blendProblem.ts';
import type { ExpectedUptake } from './feedLimits.ts';
import type { SourceWater } from './sourceWaters.ts';
import type { WaterFigures } from './waterFigures.ts';

/** A basin that is to be filled. */
export interface FeedRequest {
  readonly basin: BasinState;
  /** The crop that stands in it, or that comes into it today. */
  readonly card: CropCard;
  readonly present: { readonly volumeL: number; readonly mmolPerL: Composition };
  /** Heaviest that a vehicle may carry, kg. */
  readonly maximumLoadKg: number;
  /** What the crop is expected to take before the basin is filled again: the feed has to last so long. */
  readonly uptake: ExpectedUptake;
  /** Litres that were already decided (an approved ticket): kept, only checked. */
  readonly fixed?: { readonly drainL: number; readonly drainTo?: string; readonly drawL: Readonly<Record<string, number>> };
}

export interface Feed {
  readonly request: FeedRequest;
  readonly drainL: number;
  /** Sources drawn from, in the order of the greenhouse file; litres as on the ticket. */
  readonly draws: readonly { readonly from: SourceWater; readonly litres: number }[];
  readonly after: MixedWater;
  readonly cost: number;
  readonly costLowerBound: number;
  readonly violations: readonly Violation[];
  readonly binding: readonly BindingLimit[];
}

/** What a feed makes of the water, with the figures of full speciation. */
export interface MixedWater extends WaterFigures { readonly volumeL: number; readonly mmolPerL: Composition }
