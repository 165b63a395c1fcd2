import { accepted, refused, type Outcome, type Refusal } from '../refusal.ts';
import type { BasinLayout } from './basinLayout.ts';
import { findRectangle, type FoundRectangle } from './findRectangle.ts';
import { findSlab, type Slab } from './slab.ts';
import { fitPlane, planeAt, type FittedPlane } from './fitPlane.ts';
import { fitRim, type FittedRim } from './fitRim.ts';
import { movePoints, pickBand, placePoints, thinPoints, type Band, type PlacedPoints } from './placedPoints.ts';
import type { PointCloud } from './pointCloud.ts';
import { chain, cross, dot, frameTransform, scaled, standUp, unitVector, type Transform, type Vector } from './rigidTransform.ts';

/** Where the basin lies in the cloud. */
export interface Pose {
  /** From file coordinates less the origin to the basin's frame: mm, x right, y away, z up from the surface of level rafts. */
  readonly toBasin: Transform;
  readonly unit: 'm' | 'mm';
  readonly quality: PoseQuality;
}

export interface PoseQuality {
  readonly rimPoints: number;
  readonly rimSides: number;
  /** Distance of rim points from the rim's plane, root mean square. */
  readonly rimFlatnessMm: number;
  /** Distance of rim points from the rim's centre line, root mean square. */
  readonly rimLineMm: number;
  readonly rimWidthMm: number;
  /** Size of the cloud over the size of the layout. */
  readonly sizeRatio: number;
  /** Angle between the basin's upward axis and the nearest axis of the file. */
  readonly tiltDeg: number;
  /** Turn about the upward axis. */
  readonly yawDeg: number;
}

/** Least sample for a pose. */
const MIN_POINTS = 2000;
/** One point in so many is enough for a rough frame. */
const ROUGHLY = 4;
/** Trust in a direction, 0 to 1, that the other direction cannot reach: rafts at their level make up this share of all points. */
const CLEARLY_UP = 0.4;
/** The wall of a basin is narrower than this. */
const RIM_REACH_MM = 60;
const NO_TURN: Transform = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0];

/**
 * Finds the basin in a sample of its cloud: flat slab, tightest rectangle, plane of the rim, which side is up, line of the rim. Any
 * turn and offset, metres or millimetres. Of the turns by which a basin looks the same, the one nearest to the file's own axes is
 * taken. Refused, with the figures, where there is no such basin.
 */
export function findPose(sample: PointCloud, layout: BasinLayout): Outcome<Pose> {
  if (sample.count < MIN_POINTS) return refuse('scan-too-few-points', sample.count, MIN_POINTS, '1', 'The cloud has too few points to find the basin; scan it again.');
  const raw = placePoints(sample, NO_TURN);
  const unit = unitOf(raw, layout);
  if (!unit.ok) return unit;
  const { factor, sizeRatio, slab } = unit.value;
  const toMm: Transform = [factor, 0, 0, 0, 0, factor, 0, 0, 0, 0, factor, 0];
  const points = movePoints(raw, toMm);
  // Where leaves hang over most of the rim, too little of it is among the few.
  const rough = roughFrame(thinPoints(points, ROUGHLY), slab, layout) ?? roughFrame(points, slab, layout);
  if (rough === undefined) return refuse('scan-rim-not-found', undefined, undefined, undefined, `No rim of a basin was found around the points: it is not in the picture, or leaves hide it. ${WAY_OUT}`);
  const fitted = refineOnRim(movePoints(points, rough), layout);
  if (fitted === undefined) return refuse('scan-rim-not-found', undefined, '3 sides', undefined, `Fewer than three sides of the rim are visible: they are not in the picture, or leaves hide them. ${WAY_OUT}`);
  const toBasin = chain(chain(toMm, rough), fitted.turn);
  return accepted({ toBasin, unit: factor === 1 ? 'mm' : 'm', quality: qualityOf(fitted, toBasin, factor, sizeRatio) });
}

const WAY_OUT = 'See that the whole basin is in the picture, lay leaves that hang over the rim inwards, and scan it again.';

const refuse = (code: Refusal['code'], value: unknown, limit: unknown, unit: string | undefined, message: string): Outcome<never> =>
  refused([{ code, path: 'cloud', value, limit, unit, message, severity: 'error' }]);

/** Metres or millimetres: whichever makes the cloud as large as the basin. */
function unitOf(raw: PlacedPoints, layout: BasinLayout): Outcome<{ factor: number; sizeRatio: number; slab: Slab }> {
  const slab = findSlab(thinPoints(raw, ROUGHLY));
  const ratio = slab.diagonal / Math.hypot(...layout.innerMm);
  const factor = ratio > 0.03 ? 1 : 1000;
  const sizeRatio = ratio * factor;
  if (!(sizeRatio > 0.75 && sizeRatio < 1.35)) return refuse('scan-wrong-size', sizeRatio, [0.75, 1.35], '1', `The cloud is ${sizeRatio.toPrecision(3)} times as large as the basin of the layout, in metres or in millimetres; check the layout and the unit.`);
  if (slab.thickness > 0.35) return refuse('scan-wrong-size', slab.thickness, 0.35, '1', 'The points do not lie in a flat basin.');
  return accepted({ factor, sizeRatio, slab: { ...slab, centre: scaled(slab.centre, factor), diagonal: slab.diagonal * factor } });
}

/** A frame within a degree and some millimetres of the basin's, z = 0 at the level of the rafts. */
function roughFrame(points: PlacedPoints, slab: Slab, layout: BasinLayout): Transform | undefined {
  const first = frameOnRim(points, slab.normal, slab.centre, layout);
  if (first !== undefined && first.trust > CLEARLY_UP) return first.turn;
  const second = frameOnRim(points, scaled(slab.normal, -1), slab.centre, layout);
  return (first?.trust ?? -Infinity) >= (second?.trust ?? -Infinity) ? first?.turn : second?.turn;
}

/** Stands the slab up with this direction upward, twice: the slab's own tilt, then that of the rim's plane. */
function frameOnRim(points: PlacedPoints, up: Vector, centre: Vector, layout: BasinLayout): { turn: Transform; trust: number } | undefined {
  let turn: Transform = frameTransform(...standUp(up), up, centre);
  let moved = movePoints(points, turn);
  for (let round = 0; round < 2; round += 1) {
    const rectangle = findRectangle(moved, 0.9 * Math.hypot(...layout.innerMm));
    const rim = rimPlane(moved, rectangle, layout);
    if (rim === undefined) return undefined;
    turn = chain(turn, ontoRim(rectangle, rim, turn, layout));
    moved = movePoints(points, turn);
  }
  return { turn, trust: uprightness(moved, layout) };
}

/** Plane of what lies around the basin's inside, of neutral colour where colours are known. */
function rimPlane(points: PlacedPoints, rectangle: FoundRectangle, layout: BasinLayout): FittedPlane | undefined {
  const [innerU, innerV] = sidesOf(rectangle, layout);
  const band = pickBand(points, { yawRad: rectangle.yawRad, middle: rectangle.middle, half: [innerU / 2, innerV / 2], off: [-5, RIM_REACH_MM] });
  return fitPlane(band, 15);
}

/** Inner sizes along the rectangle's own axes: a long basin may lie across. */
function sidesOf(rectangle: FoundRectangle, layout: BasinLayout): readonly [number, number] {
  const [x, y] = layout.innerMm;
  return (x > y) === (rectangle.half[0] > rectangle.half[1]) ? [x, y] : [y, x];
}

/** The turn from a frame in which rim and rectangle were found to the basin's frame. */
function ontoRim(rectangle: FoundRectangle, rim: FittedPlane, so: Transform, layout: BasinLayout): Transform {
  const up = unitVector([-rim.slopeX, -rim.slopeY, 1]);
  const c = Math.cos(rectangle.yawRad), s = Math.sin(rectangle.yawRad);
  const alongU: Vector = [c, s, 0];
  const x = unitVector(cross(cross(up, alongU), up));
  const right = nearestTurn(x, up, so, rectangle, layout);
  const middle: readonly [number, number] = [rectangle.middle[0] * c - rectangle.middle[1] * s, rectangle.middle[0] * s + rectangle.middle[1] * c];
  const centre: Vector = [...middle, planeAt(rim, ...middle)];
  const frame = frameTransform(right, cross(up, right), up, centre);
  return chain(frame, [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, layout.rimHeightMm]);
}

/** Of the quarter turns (half turns of a long basin), the one whose x axis lies nearest to the x axis of the stood-up file. */
function nearestTurn(x: Vector, up: Vector, so: Transform, rectangle: FoundRectangle, layout: BasinLayout): Vector {
  const [along, across] = layout.innerMm;
  const y = cross(up, x);
  const square = Math.abs(along - across) < 0.02 * along;
  const swapped = (along > across) !== (rectangle.half[0] > rectangle.half[1]);
  const turns = square ? [x, y, scaled(x, -1), scaled(y, -1)] : swapped ? [y, scaled(y, -1)] : [x, scaled(x, -1)];
  const wanted = fileRight(so);
  return turns.reduce((best, turn) => (dot(turn, wanted) > dot(best, wanted) ? turn : best));
}

/** x axis of the file stood up by the shortest turn, seen in the frame reached by `so`. */
function fileRight(so: Transform): Vector {
  const up: Vector = [so[8], so[9], so[10]];
  const [right] = standUp(up);
  return [so[0] * right[0] + so[1] * right[1] + so[2] * right[2], so[4] * right[0] + so[5] * right[1] + so[6] * right[2], 0];
}

/** How well the inside agrees with rafts at level zero and nothing far below them: share of neutral points there, less points below. */
function uprightness(points: PlacedPoints, layout: BasinLayout): number {
  let level = 0, below = 0, inside = 0;
  for (let i = 0; i < points.count; i += 1) {
    if (Math.abs(points.x[i]!) > layout.innerMm[0] / 2 - 15 || Math.abs(points.y[i]!) > layout.innerMm[1] / 2 - 15) continue;
    inside += 1;
    const z = points.z[i]!;
    if (points.grey[i] === 1 && Math.abs(z) < 18) level += 1;
    if (z < -45) below += 1;
  }
  return (level - 2 * below) / Math.max(1, inside);
}

interface Refined { readonly turn: Transform; readonly rim: FittedRim; readonly plane: FittedPlane }

/** Rim line and rim plane by least squares, in turn. */
function refineOnRim(points: PlacedPoints, layout: BasinLayout): Refined | undefined {
  let turn = NO_TURN;
  let moved = points;
  let last: Refined | undefined;
  for (let round = 0; round < 2; round += 1) {
    const near = pickBand(moved, { yawRad: 0, middle: [0, 0], half: [0, 0], off: [-Infinity, Infinity], level: layout.rimHeightMm, reach: 20 });
    const rim = fitRim(near, layout.innerMm);
    if (rim === undefined) return undefined;
    const onRim = pickBand(near, onLine(rim, layout));
    const plane = fitPlane(onRim, 15, { level: layout.rimHeightMm, slopeX: 0, slopeY: 0 });
    if (plane === undefined) return undefined;
    const up = unitVector([-plane.slopeX, -plane.slopeY, 1]);
    const x = unitVector(cross(cross(up, [Math.cos(rim.yawRad), Math.sin(rim.yawRad), 0]), up));
    const step = chain(frameTransform(x, cross(up, x), up, [...rim.shiftMm, planeAt(plane, ...rim.shiftMm)]), [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, layout.rimHeightMm]);
    turn = chain(turn, step);
    moved = movePoints(points, turn);
    last = { turn, rim, plane };
  }
  return last;
}

/** The rim itself: from its inner edge to its outer one. */
function onLine({ yawRad, shiftMm: [shiftX, shiftY], halfWidthMm }: FittedRim, { innerMm }: BasinLayout): Band {
  const c = Math.cos(yawRad), s = Math.sin(yawRad);
  return { yawRad, middle: [c * shiftX + s * shiftY, c * shiftY - s * shiftX], half: [innerMm[0] / 2, innerMm[1] / 2], off: [0, 2 * halfWidthMm] };
}

function qualityOf({ rim, plane }: Refined, toBasin: Transform, factor: number, sizeRatio: number): PoseQuality {
  const up = [toBasin[8], toBasin[9], toBasin[10]].map((part) => Math.abs(part) / factor);
  const right: Vector = [toBasin[0] / factor, toBasin[1] / factor, toBasin[2] / factor];
  const [across, away] = standUp(unitVector([toBasin[8], toBasin[9], toBasin[10]]));
  const degrees = 180 / Math.PI;
  return {
    rimPoints: rim.points, rimSides: rim.sides.filter((count) => count > rim.points / 40).length,
    rimFlatnessMm: plane.rmsMm, rimLineMm: rim.rmsMm, rimWidthMm: 2 * rim.halfWidthMm, sizeRatio,
    tiltDeg: Math.acos(Math.min(1, Math.max(...up))) * degrees, yawDeg: Math.atan2(dot(right, away), dot(right, across)) * degrees,
  };
}
