import type { Floor } from './state.ts';

/** Metres of the shortest way between nodes: `metres[i][j]` from `places[i]` to `places[j]`; Infinity where no way leads there. */
export interface Travel {
  readonly places: readonly string[];
  readonly metres: readonly Float64Array[];
}

/**
 * Shortest ways between the given nodes over the floor's edges, one-way edges respected (Dijkstra 1959 with a binary heap).
 * A place that is not a node of the floor throws: references are checked where the folder is read.
 */
export function shortestTravel(floor: Floor, places: readonly string[]): Travel {
  const ids = Object.keys(floor.nodes);
  const index = new Map(ids.map((id, i) => [id, i]));
  const neighbours = neighboursOf(floor, index);
  const wanted = places.map((place) => {
    const at = index.get(place);
    if (at === undefined) throw new Error(`the floor has no node '${place}'`);
    return at;
  });
  const metres = wanted.map((from) => {
    const all = distancesFrom(from, neighbours);
    return Float64Array.from(wanted, (to) => all[to]!);
  });
  return { places, metres };
}

/** Nodes that cannot be reached from a node, or cannot reach it; empty for a floor that hangs together. */
export function unreachableNodes(floor: Floor, from: string): string[] {
  const ids = Object.keys(floor.nodes);
  const index = new Map(ids.map((id, i) => [id, i]));
  const start = index.get(from);
  if (start === undefined) return ids;
  const there = distancesFrom(start, neighboursOf(floor, index));
  const back = distancesFrom(start, neighboursOf({ ...floor, edges: floor.edges.map((edge) => (edge.oneWay ? { ...edge, from: edge.to, to: edge.from } : edge)) }, index));
  return ids.filter((_, i) => there[i] === Infinity || back[i] === Infinity);
}

type Neighbours = readonly (readonly { readonly to: number; readonly metres: number }[])[];

function neighboursOf(floor: Floor, index: ReadonlyMap<string, number>): Neighbours {
  const lists: { to: number; metres: number }[][] = Array.from(index, () => []);
  for (const edge of floor.edges) {
    const from = index.get(edge.from)!;
    const to = index.get(edge.to)!;
    lists[from]!.push({ to, metres: edge.lengthM });
    if (!edge.oneWay) lists[to]!.push({ to: from, metres: edge.lengthM });
  }
  return lists;
}

function distancesFrom(start: number, neighbours: Neighbours): Float64Array {
  const metres = new Float64Array(neighbours.length).fill(Infinity);
  metres[start] = 0;
  const heap: { node: number; metres: number }[] = [{ node: start, metres: 0 }];
  for (let next = popLeast(heap); next !== undefined; next = popLeast(heap)) {
    if (next.metres > metres[next.node]!) continue;
    for (const edge of neighbours[next.node]!) {
      const along = next.metres + edge.metres;
      if (along < metres[edge.to]!) { metres[edge.to] = along; push(heap, { node: edge.to, metres: along }); }
    }
  }
  return metres;
}

interface HeapEntry { readonly node: number; readonly metres: number }

function push(heap: HeapEntry[], entry: HeapEntry): void {
  let at = heap.push(entry) - 1;
  while (at > 0) {
    const parent = (at - 1) >> 1;
    if (heap[parent]!.metres <= entry.metres) break;
    heap[at] = heap[parent]!;
    at = parent;
  }
  heap[at] = entry;
}

function popLeast(heap: HeapEntry[]): HeapEntry | undefined {
  const least = heap[0];
  const last = heap.pop();
  if (least === undefined || last === undefined || heap.length === 0) return least;
  let at = 0;
  for (let child = 1; child < heap.length; child = 2 * at + 1) {
    if (child + 1 < heap.length && heap[child + 1]!.metres < heap[child]!.metres) child += 1;
    if (last.metres <= heap[child]!.metres) break;
    heap[at] = heap[child]!;
    at = child;
  }
  heap[at] = last;
  return least;
}
