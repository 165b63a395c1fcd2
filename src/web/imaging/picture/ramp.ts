export type Rgb = readonly [red: number, green: number, blue: number];

const hex = (text: string): Rgb => [0, 2, 4].map((at) => Number.parseInt(text.slice(at, at + 2), 16)) as unknown as Rgb;

/** From straw to deep water: lighter is less at every step, so that it reads without seeing colour. Own scale. */
const STEPS = ['f6edcf', 'd9dba0', '98c39a', '4ba097', '177480', '0c475b', '0c2536'].map(hex);
/** From rust over paper to deep water: less, as it should be, more. Rust and blue differ for all common colour blindness. Own scale. */
const SIDES = ['6d2f0d', 'b06a28', 'e0b881', 'f5f0e4', 'a6cdcf', '3d8d98', '08434f'].map(hex);

/** Colour of a share from 0 (least) to 1 (most); beyond them the colour of the end. */
export const stepColour = (share: number): Rgb => between(STEPS, share);
/** Colour of a share from -1 over 0 to 1. */
export const sideColour = (share: number): Rgb => between(SIDES, (share + 1) / 2);

function between(stops: readonly Rgb[], share: number): Rgb {
  const at = Math.max(0, Math.min(1, share)) * (stops.length - 1), lower = Math.min(stops.length - 2, Math.floor(at)), part = at - lower;
  return [0, 1, 2].map((k) => Math.round(stops[lower]![k]! * (1 - part) + stops[lower + 1]![k]! * part)) as unknown as Rgb;
}
