import type { BasinType } from './schema/greenhouseFile.ts';

/** Water surface, m2. */
export const basinAreaM2 = (type: BasinType): number => (type.lengthMm * type.widthMm) / 1e6;

/** Litres when full: inner length x width x depth. What the rafts and roots displace is left out (common practice). */
export const basinFullL = (type: BasinType): number => (type.lengthMm * type.widthMm * type.depthMm) / 1e6;

/** Lowest litres permitted while plants stand in it. */
export const basinLeastL = (type: BasinType): number => type.levelMinShare * basinFullL(type);

/** Litres at a water level measured from the bottom, mm. */
export const litresAtLevel = (type: BasinType, levelMm: number): number => (type.lengthMm * type.widthMm * levelMm) / 1e6;

/** Weight with this much water and its rafts; plants are left out (below 2 % of a filled basin). 1 kg a litre. */
export const basinWeightKg = (type: BasinType, volumeL: number): number => type.emptyKg + type.rafts * type.raftKg + volumeL;
