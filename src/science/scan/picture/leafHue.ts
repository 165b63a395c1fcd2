import type { LeafColour } from './plantColours.ts';

/** Excess green on chromatic coordinates, -1 to 2 (D.M. Woebbecke et al. 1995, Trans. ASAE 38:259-269); 0 for black. It does not change with brightness. */
export const excessGreen = ({ red, green, blue }: LeafColour): number => (2 * green - red - blue) / Math.max(1, red + green + blue);

/** Hue in degrees (HSV; A.R. Smith 1978, SIGGRAPH 12:12-19): 60 is yellow, 120 green, 0 red. Undefined for a grey. */
export function leafHue({ red, green, blue }: LeafColour): number | undefined {
  const most = Math.max(red, green, blue), range = most - Math.min(red, green, blue);
  if (range < 1e-9) return undefined;
  const sixth = most === red ? ((green - blue) / range + 6) % 6 : most === green ? (blue - red) / range + 2 : (red - green) / range + 4;
  return 60 * sixth;
}
