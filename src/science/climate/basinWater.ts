/**
 * Temperature of the water in a basin, which follows the air with a delay of a day or more.
 * 450 kg of water hold 1.9 MJ/K, a hundred times the air above; so root temperature is a slow state of its own.
 * Rafts insulate: the coefficient below is for a covered surface and thin walls, from memory, unverified. Left out: sun on
 * the water, heat of the floor, evaporation from open water. Measured water temperature replaces it where there is any.
 */

const WATER_J_KGK = 4180;

export interface BasinBody {
  readonly waterKg: number;
  /** Surface that exchanges heat with the air: top and sides, m2. */
  readonly surfaceM2: number;
  /** Heat exchange with the air, W/(m2 K); 5 for rafts and thin plastic walls (from memory, unverified). */
  readonly exchangeWM2K: number;
}

/** Hours in which a difference to the air falls to 37 %. */
export const delayH = (basin: BasinBody): number => basin.waterKg * WATER_J_KGK / (basin.surfaceM2 * basin.exchangeWM2K) / 3600;

/**
 * Water temperature at the end of each hour, C, from the air temperature of each hour and a start; exact for air that is
 * constant over the hour. Valid between freezing and boiling.
 */
export function basinWaterC(airC: Float64Array, startC: number, basin: BasinBody): Float64Array {
  const keeps = Math.exp(-1 / delayH(basin));
  let waterC = startC;
  return airC.map((air) => {
    waterC = air + (waterC - air) * keeps;
    return waterC;
  });
}
