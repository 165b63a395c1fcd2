import type { Floor } from '../../greenhouse/state.ts';
import type { PointM } from '../contract.ts';

/** Half the width of an aisle: the gap between its middle and the basins beside it. */
const HALF_AISLE_M = 0.9;

/**
 * Middle of each berth in metres, as drawn: north is up, so y runs down. A berth with a node of its own lies on it; berths that share an aisle node lie on both sides of
 * it, the first to the left, so that no two basins are drawn on top of each other.
 */
export function berthPlaces(floor: Floor, basinLengthM: number): ReadonlyMap<string, PointM> {
  const sharing = new Map<string, string[]>();
  for (const berth of floor.berths) sharing.set(berth.node, [...(sharing.get(berth.node) ?? []), berth.id]);
  const aside = basinLengthM / 2 + HALF_AISLE_M;
  return new Map(floor.berths.map((berth) => {
    const [xM, yM] = nodePlace(floor, berth.node);
    const at = sharing.get(berth.node) ?? [];
    if (at.length < 2) return [berth.id, [xM, yM] as const];
    return [berth.id, [xM + (at.indexOf(berth.id) % 2 === 0 ? -aside : aside), yM] as const];
  }));
}

/** A node of the floor as drawn. The floor file has x to the east and y to the north; a drawing has y downwards. */
export function nodePlace(floor: Floor, node: string): PointM {
  const at = floor.nodes[node];
  return [at?.xM ?? 0, 0 - (at?.yM ?? 0)];
}

/**
 * Extent in x and y of a basin among its neighbours: lengthwise in x, or in y where only that way it does not lie on the berth
 * beside it. The floor file says where berths are, not which way round basins stand on them.
 */
export function basinExtent(places: readonly PointM[], lengthM: number, widthM: number): PointM {
  const [roomX, roomY] = [leastGap(places, 0), leastGap(places, 1)];
  const lengthwise = lengthM <= roomX && widthM <= roomY;
  const crosswise = widthM <= roomX && lengthM <= roomY;
  return !lengthwise && crosswise ? [widthM, lengthM] : [lengthM, widthM];
}

/** Smallest distance along one axis between two places that lie on the same line of the other. */
function leastGap(places: readonly PointM[], axis: 0 | 1): number {
  const lines = new Map<number, number[]>();
  for (const place of places) {
    const line = Math.round(place[axis === 0 ? 1 : 0] * 100);
    lines.set(line, [...(lines.get(line) ?? []), place[axis]]);
  }
  const gaps = [...lines.values()].flatMap((line) => line.sort((a, b) => a - b).slice(1).map((value, index) => value - line[index]!));
  return Math.min(Number.POSITIVE_INFINITY, ...gaps.filter((gap) => gap > 0.01));
}
