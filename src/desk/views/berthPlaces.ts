import type { Floor } from '../../greenhouse/state.ts';
import type { PointM } from '../contract.ts';

/** Half the width of an aisle: the gap between its middle and the basins beside it. */
const HALF_AISLE_M = 0.9;

/**
 * Middle of each berth in metres. A berth with a node of its own lies on it; berths that share an aisle node lie on both sides of
 * it, the first to the left, so that no two basins are drawn on top of each other.
 */
export function berthPlaces(floor: Floor, basinLengthM: number): ReadonlyMap<string, PointM> {
  const sharing = new Map<string, string[]>();
  for (const berth of floor.berths) sharing.set(berth.node, [...(sharing.get(berth.node) ?? []), berth.id]);
  const aside = basinLengthM / 2 + HALF_AISLE_M;
  return new Map(floor.berths.map((berth) => {
    const { xM, yM } = floor.nodes[berth.node] ?? { xM: 0, yM: 0 };
    const at = sharing.get(berth.node) ?? [];
    if (at.length < 2) return [berth.id, [xM, yM] as const];
    return [berth.id, [xM + (at.indexOf(berth.id) % 2 === 0 ? -aside : aside), yM] as const];
  }));
}
