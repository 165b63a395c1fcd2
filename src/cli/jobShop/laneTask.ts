import type { ShopModel } from '../../planning/jobShop/shopModel.ts';

/** What the thread of a lane is given at its start. */
export interface LaneStart {
  readonly model: ShopModel;
  readonly seed: number;
  readonly lane: number;
  /** Shared: 1 when time is up. */
  readonly stop: Int32Array;
}

/** One round. It answers with LaneNews. */
export interface LaneTask { readonly steps: number; readonly bestTicks: number }
