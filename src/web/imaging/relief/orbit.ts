/** Where the eye is: it looks at a place on the basin from a side, a height and a distance. */
export interface Orbit {
  /** Side from which it looks, counted from the near side, degrees. */
  readonly turnDeg: number;
  /** 90 looks straight down. */
  readonly tiltDeg: number;
  readonly farMm: number;
  readonly atXMm: number;
  readonly atYMm: number;
}

type Vector = readonly [x: number, y: number, z: number];

const [LOWEST_DEG, HIGHEST_DEG] = [8, 89];
const [NEAREST_MM, FURTHEST_MM] = [250, 9000];

/** Place of the eye, mm over the rafts. */
export function eyeOf({ turnDeg, tiltDeg, farMm, atXMm, atYMm }: Orbit): Vector {
  const [turn, tilt] = [(turnDeg * Math.PI) / 180, (tiltDeg * Math.PI) / 180];
  return [atXMm + farMm * Math.cos(tilt) * Math.sin(turn), atYMm - farMm * Math.cos(tilt) * Math.cos(turn), farMm * Math.sin(tilt)];
}

export const turned = (orbit: Orbit, byDeg: number, tiltByDeg: number): Orbit =>
  ({ ...orbit, turnDeg: (orbit.turnDeg + byDeg + 360) % 360, tiltDeg: Math.max(LOWEST_DEG, Math.min(HIGHEST_DEG, orbit.tiltDeg + tiltByDeg)) });

/** Nearer by a factor below 1, further by one above. */
export const moved = (orbit: Orbit, factor: number): Orbit => ({ ...orbit, farMm: Math.max(NEAREST_MM, Math.min(FURTHEST_MM, orbit.farMm * factor)) });

export const lookingAt = (orbit: Orbit, atXMm: number, atYMm: number): Orbit => ({ ...orbit, atXMm, atYMm });
