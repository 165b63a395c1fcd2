import type { Refusal } from '../../science/refusal.ts';

/** A place of clouds cannot be used now; in words for a person. Nothing of what lies there is judged by it. */
export class PlaceFault extends Error {
  override readonly name = 'PlaceFault';
  readonly refusal: Refusal;
  /** Whether the same call may work a moment later. */
  readonly retryHelps: boolean;
  constructor(refusal: Refusal, retryHelps: boolean, cause?: unknown) {
    super(refusal.message, cause === undefined ? undefined : { cause });
    this.refusal = refusal;
    this.retryHelps = retryHelps;
  }
}
