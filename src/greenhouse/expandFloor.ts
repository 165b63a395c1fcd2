import type { Berth, Floor } from './state.ts';
import type { GreenhouseFile } from './schema/greenhouseFile.ts';

type FloorFile = GreenhouseFile['floor'];
type Grid = FloorFile['grids'][number];
type Point = { readonly xM: number; readonly yM: number };
interface Draft { nodes: Record<string, Point>; edges: Floor['edges'][number][]; berths: Berth[] }

/**
 * The floor as a graph, in metres. Nodes and berths that are written out come first; each grid adds its aisle nodes
 * (PREFIX aisle A number), a berth node left and right of each, the edges between them, and a lane across both ends.
 * Names that clash or edges that lead nowhere are refused where the folder is read; here the last one wins.
 */
export function expandFloor(floor: FloorFile): Floor {
  const draft: Draft = { nodes: {}, edges: [], berths: [] };
  for (const node of floor.nodes) draft.nodes[node.id] = { xM: node.atM[0], yM: node.atM[1] };
  for (const grid of floor.grids) addGrid(draft, grid);
  for (const edge of floor.edges) addEdge(draft, edge.from, edge.to, edge.oneWay);
  draft.berths.push(...floor.berths.map((berth) => ({ id: berth.id, node: berth.node, bay: berth.bay })));
  return draft;
}

function addGrid(draft: Draft, grid: Grid): void {
  for (let aisle = 1; aisle <= grid.aisles; aisle += 1) {
    const xM = grid.originM[0] + (aisle - 1) * grid.aislePitchM;
    for (let place = 1; place <= grid.berthsPerSide; place += 1) {
      const yM = grid.originM[1] + (place - 1) * grid.berthPitchM;
      const node = aisleNode(grid, aisle, place);
      draft.nodes[node] = { xM: round(xM), yM: round(yM) };
      if (place > 1) addEdge(draft, aisleNode(grid, aisle, place - 1), node, false);
      addBerth(draft, grid, aisle, place, 'L', xM - grid.aislePitchM / 4, yM);
      addBerth(draft, grid, aisle, place, 'R', xM + grid.aislePitchM / 4, yM);
    }
    if (aisle > 1) joinEnds(draft, grid, aisle);
  }
}

function addBerth(draft: Draft, grid: Grid, aisle: number, place: number, side: 'L' | 'R', xM: number, yM: number): void {
  const id = `${grid.prefix}${aisle}${side}${two(place)}`;
  draft.nodes[id] = { xM: round(xM), yM: round(yM) };
  draft.berths.push({ id, node: id, bay: grid.bay });
  addEdge(draft, aisleNode(grid, aisle, place), id, false);
}

/** The lanes that join this aisle to the one before, at its first and its last place. */
function joinEnds(draft: Draft, grid: Grid, aisle: number): void {
  for (const place of new Set([1, grid.berthsPerSide])) addEdge(draft, aisleNode(grid, aisle - 1, place), aisleNode(grid, aisle, place), false);
}

function addEdge(draft: Draft, from: string, to: string, oneWay: boolean): void {
  const a = draft.nodes[from];
  const b = draft.nodes[to];
  if (a === undefined || b === undefined) return;
  draft.edges.push({ from, to, lengthM: round(Math.hypot(a.xM - b.xM, a.yM - b.yM)), oneWay });
}

const aisleNode = (grid: Grid, aisle: number, place: number) => `${grid.prefix}${aisle}A${two(place)}`;
const two = (place: number) => String(place).padStart(2, '0');
const round = (metres: number) => Math.round(metres * 1000) / 1000;
