/**
 * Concentrates go into water: of what is in a basin after a filling at least this share must have been there, or have come, as water. A
 * dose of stock is some 1 % of the basin, all doses together rarely 5 % (common practice, no source); beyond a fifth there is no telling
 * whether the parts met undiluted, or acid an empty basin.
 */
export const LEAST_WATER_SHARE = 0.8;
