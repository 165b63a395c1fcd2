import type { HeightPicture } from './heightPicture.ts';
import type { Levels } from './paintPicture.ts';
import type { Rgb } from './ramp.ts';

/** Levels by height over the raft, from 0 to `topMm`. */
export function heightLevels({ heights, heightFromMm, heightStepMm }: HeightPicture, topMm: number, colour: (share: number) => Rgb): Levels {
  return { ofCells: Int16Array.from(heights, (value) => (value === 0 ? -1 : level((heightFromMm + heightStepMm * value) / topMm))), colours: tableOf(colour, 0) };
}

/** Levels by change of height, from -`reachMm` to `reachMm`. */
export function changeLevels(change: Float32Array, reachMm: number, colour: (share: number) => Rgb): Levels {
  return { ofCells: Int16Array.from(change, (value) => (Number.isNaN(value) ? -1 : level((value / reachMm + 1) / 2))), colours: tableOf(colour, -1) };
}

const level = (share: number): number => Math.max(0, Math.min(255, Math.round(255 * share)));

/** 256 colours of a scale from `from` to 1. */
export function tableOf(colour: (share: number) => Rgb, from: number): Uint8Array {
  return Uint8Array.from({ length: 256 }, (_, i) => i).reduce((table, i) => { table.set(colour(from + ((1 - from) * i) / 255), 3 * i); return table; }, new Uint8Array(768));
}
