import type { WaterBand } from '../../desk/contract.ts';

export type BandStanding = 'below' | 'within' | 'above' | 'not known';

export const STANDING_WORDS: Readonly<Record<BandStanding, string>> = { below: 'too low', within: 'within', above: 'too high', 'not known': 'not known' };

export function standingOf({ value, low, high }: WaterBand): BandStanding {
  if (value === undefined) return 'not known';
  if (value < low) return 'below';
  return value > high ? 'above' : 'within';
}

/** Length of the strip in drawing units; a value beyond it lies at its end. */
const STRIP = 200;
const EDGE = 7;

/** Places of band, target and value on a strip that reaches half a band width (or down to 0) beyond both sides. */
export function stripOf(band: WaterBand): { readonly low: number; readonly high: number; readonly target?: number; readonly value?: number } {
  const reach = (band.high - band.low) * 0.75;
  const from = Math.max(0, band.low - reach);
  const to = band.high + reach;
  const at = (value: number): number => EDGE + Math.min(1, Math.max(0, (value - from) / (to - from))) * (STRIP - 2 * EDGE);
  return {
    low: at(band.low), high: at(band.high),
    ...(band.target === undefined ? {} : { target: at(band.target) }),
    ...(band.value === undefined ? {} : { value: at(band.value) }),
  };
}
