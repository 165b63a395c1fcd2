import type { ShopOrder } from './shopOrder.ts';

/** A search that goes on where it stopped: the same seed and the same steps give the same, however they are cut into turns. */
export interface ShopSearch {
  /** Runs so many steps, or fewer where it is told to stop or has nothing left to do. */
  readonly run: (steps: number, isStopped: () => boolean) => void;
  /** The shortest plan so far. */
  readonly best: () => { readonly ticks: number; readonly order: ShopOrder } | undefined;
  /** Proven: no plan takes fewer ticks. */
  readonly boundTicks: () => number;
  /** Tells it how long the best plan of another search is, so that it looks for shorter ones only. */
  readonly hearOf: (ticks: number) => void;
  /** Nothing left to do: a proof is complete. */
  readonly isFinished: () => boolean;
}
