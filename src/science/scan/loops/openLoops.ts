import { LOOPS_BASE64 } from './loopsBytes.ts';

/** The compiled loops: see the sources in `assembly` for what each does. Arrays are given by their place in memory. */
interface LoopsCode {
  readonly memory: WebAssembly.Memory;
  boxSum(values: number, columns: number, rows: number, radius: number, sums: number, along: number, running: number): void;
  bareCells(field: number, columns: number, left: number, right: number, near: number, far: number, step: number, around: number, cellMm: number, leftMm: number, nearMm: number, x: number, y: number, z: number, weight: number): number;
  countSurfaces(points: number, coloured: number, allPoints: number, allColoured: number, columns: number, rows: number, size: number, blockColumns: number, closed: number, barePoints: number, bareCells: number, leafPoints: number, leafCells: number): void;
  countEmpty(points: number, columns: number, left: number, right: number, near: number, far: number): number;
  coverCells(points: number, coloured: number, heights: number, allPoints: number, allColoured: number, allHeights: number, density: number, columns: number, rows: number, size: number, blockColumns: number, oneSurface: number, cover: number, heightMm: number, smoothMm: number, smoothCover: number): void;
  findStains(coloured: number, heights: number, windowCount: number, windowSum: number, stainMm: number, cells: number, stainCount: number, stainSum: number): number;
  readCells(field: number, columns: number, rows: number, cellMm: number, leftMm: number, nearMm: number, raft: number, planes: number, spike: number, points: number, coloured: number, heights: number): void;
  takeStains(coloured: number, heights: number, windowCount: number, windowSum: number, stained: number, low: number, stainCount: number, leastPoints: number, cells: number): void;
  countAlong(x: number, y: number, count: number, every: number, alongX: number, alongY: number, reach: number, bins: number, size: number): number;
  countHeights(cover: number, heightMm: number, list: number, count: number, lowestMm: number, binMm: number, bins: number, size: number): void;
  groupCells(label: number, cells: number, plants: number, starts: number, cellsOf: number): void;
  heightBelow(bins: number, size: number, weight: number): number;
  movePoints(x: number, y: number, z: number, count: number, by: number, toX: number, toY: number, toZ: number): void;
  nearestRafts(columns: number, rows: number, step: number, cellMm: number, leftMm: number, nearMm: number, rafts: number, count: number, nearest: number): void;
  outline(label: number, smoothCover: number, columns: number, cellMm: number, plant: number, list: number, count: number, directions: number, directionCount: number, ends: number): void;
  pickBand(x: number, y: number, z: number, grey: number, count: number, cosine: number, sine: number, shiftU: number, shiftV: number, halfU: number, halfV: number, least: number, most: number, level: number, reach: number, toX: number, toY: number, toZ: number): number;
  planeCost(x: number, y: number, z: number, count: number, every: number, level: number, slopeX: number, slopeY: number, reach: number): number;
  planeMoments(x: number, y: number, z: number, weight: number, count: number, level: number, slopeX: number, slopeY: number, reach: number, sums: number): void;
  planeSquares(x: number, y: number, z: number, weight: number, count: number, level: number, slopeX: number, slopeY: number, reach: number, support: number): number;
  plantSums(field: number, cover: number, heightMm: number, list: number, count: number, sums: number): void;
  rimMoments(x: number, y: number, count: number, shiftX: number, shiftY: number, cosine: number, sine: number, outX: number, outY: number, reach: number, sums: number): void;
  queueBytes(): number;
  slabMoments(x: number, y: number, z: number, count: number, limits: number, across: number, along: number, sums: number): void;
  spread(label: number, cost: number, bareWay: number, seeds: number, seedCount: number, smoothCover: number, smoothMm: number, columns: number, cells: number, cellMm: number, slowness: number, limits: number, queue: number): void;
  trimFringe(label: number, cover: number, bareWay: number, fringeMm: number, cells: number): void;
  addPoints(x: number, y: number, z: number, red: number, green: number, blue: number, count: number, field: number, columns: number, rows: number, transform: number, low: number, high: number, keep: number, above: number): number;
  mergeField(into: number, from: number, cells: number): void;
  readFloats(bytes: number, count: number, recordBytes: number, x: number, y: number, z: number, red: number, green: number, blue: number, toX: number, toY: number, toZ: number, toRed: number, toGreen: number, toBlue: number, to: number, farthest: number): number;
}

type Numbers = Uint8Array | Int16Array | Int32Array | Float32Array | Float64Array;
type NumbersKind<T extends Numbers> = new (buffer: ArrayBufferLike, offset: number, length: number) => T;

/** The loops with a memory of their own, in which arrays are laid one behind the other. */
export interface Loops {
  readonly code: LoopsCode;
  /** Room for so many bytes, zero at first; the place. */
  room(bytes: number): number;
  /** Lays an array down; the place. */
  put(values: Numbers): number;
  /** The array at a place, as it stands in memory: no longer valid when more room is made. */
  view<T extends Numbers>(kind: NumbersKind<T>, place: number, length: number): T;
  /** A copy of the array at a place. */
  copy<T extends Numbers>(kind: NumbersKind<T>, place: number, length: number): T;
}

const PAGE = 65_536;
/** Below lies what the compiler keeps for itself. */
const FIRST = 1024;

let compiled: WebAssembly.Module | undefined;
/** Copies that were closed, smallest first. */
const idle: ClosableLoops[] = [];

/** The loops with what empties them. */
interface ClosableLoops extends Loops { readonly empty: () => void }

/**
 * Loops with an empty memory: a copy that was closed, the smallest that has room for `bytes`, or else a new one. What is opened should be
 * closed: memory outside the language's own heap is otherwise given back late, and a scan opens a dozen.
 */
export function openLoops(bytes = 0): Loops {
  const large = idle.findIndex(({ code }) => code.memory.buffer.byteLength >= bytes);
  const used = idle.splice(large, 1)[0];
  used?.empty();
  return used ?? newLoops();
}

/** Ends the use of loops: every place and view in them is void from now on. They are emptied when they are used again, which a single scan never does. */
export function closeLoops(loops: Loops): void {
  const closed = loops as ClosableLoops, size = closed.code.memory.buffer.byteLength;
  const larger = idle.findIndex(({ code }) => code.memory.buffer.byteLength > size);
  idle.splice(larger < 0 ? idle.length : larger, 0, closed);
}

/** What `act` finds with loops of its own; they are closed after it. */
export function inLoops<T>(act: (loops: Loops) => T, bytes = 0): T {
  const loops = openLoops(bytes);
  try { return act(loops); } finally { closeLoops(loops); }
}

/**
 * A new copy of the loops. They are compiled ahead to WebAssembly (decision record 0004) because a scan in a fresh process is over before
 * a just-in-time compiler has seen them; same numbers in, same numbers out, on every machine.
 */
function newLoops(): ClosableLoops {
  compiled ??= new WebAssembly.Module(Uint8Array.from(atob(LOOPS_BASE64), (letter) => letter.charCodeAt(0)));
  const code = new WebAssembly.Instance(compiled, { env: { abort: () => { throw new Error('A loop of the scan ran out of memory.'); } } }).exports as unknown as LoopsCode;
  let next = FIRST;
  const room = (bytes: number): number => {
    const place = next;
    next = (next + bytes + 15) & ~15;
    const missing = next - code.memory.buffer.byteLength;
    if (missing > 0) code.memory.grow(Math.ceil(missing / PAGE));
    return place;
  };
  const view: Loops['view'] = (kind, place, length) => new kind(code.memory.buffer, place, length);
  return {
    code, room, view,
    empty: () => { new Uint8Array(code.memory.buffer).fill(0, FIRST, next); next = FIRST; },
    copy: (kind, place, length) => view(kind, place, length).slice() as never,
    put: (values) => {
      const place = room(values.byteLength);
      new Uint8Array(code.memory.buffer, place, values.byteLength).set(new Uint8Array(values.buffer, values.byteOffset, values.byteLength));
      return place;
    },
  };
}
