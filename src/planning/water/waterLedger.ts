import { filledWater } from '../../greenhouse/filledWater.ts';
import type { BasinState, GreenhouseState } from '../../greenhouse/state.ts';
import { addWater, NO_WATER, type WaterAmount, type WaterBook, type WaterFlow } from '../../greenhouse/waterBook.ts';
import { entriesOf, scaleComposition } from '../../science/chemistry/composition.ts';
import type { KnownSolution, SolutionEstimate } from './solutionEstimate.ts';
import type { TankState } from './tankState.ts';

export interface LedgerQuestion {
  readonly state: GreenhouseState;
  readonly basins: readonly { readonly basin: BasinState; readonly water: SolutionEstimate }[];
  /** Return tanks by id. */
  readonly tanks: ReadonlyMap<string, TankState>;
  readonly fromMs: number;
  readonly atMs: number;
}

/** Flows of a span of time, and what stood in every basin and tank at both ends. */
export interface WaterLedger {
  readonly flows: readonly WaterFlow[];
  /** By place: `basin:B017`, `tank:R1` (return tanks only). `end` is what estimate and tracker say, not what the flows add up to. */
  readonly contents: Readonly<Record<string, { readonly start: WaterAmount; readonly end: WaterAmount }>>;
  /**
   * Largest difference, over places, of water and of any component, between start plus what came less what went and end; as
   * a share of what was there or moved. Rounding (1e-12) where everything was booked.
   */
  readonly closesWithin: number;
}

/**
 * The water and every component of the whole greenhouse over a span: the book of what was done, the balances of all basins
 * that are still open (as if each were closed now), and what readings corrected in the tanks. What was first seen without a
 * record of how it came there counts as having stood there at the start.
 */
export function waterLedger({ state, basins, tanks, fromMs, atMs }: LedgerQuestion): WaterLedger {
  const open = basins.flatMap(({ basin, water }) => (water.known ? openFlows(basin, water.solution, atMs) : []));
  const all = [...state.water.flows, ...open, ...[...tanks.values()].flatMap(({ corrections }) => corrections)].filter(({ at }) => Date.parse(at) <= atMs);
  const [before, within] = split(all, ({ at, from }) => from === 'found' || Date.parse(at) <= fromMs);
  const start = sumByPlace(before, state.water.earlier);
  const moved = sumByPlace(within, {});
  const held = new Map<string, WaterAmount>([
    ...basins.map(({ basin, water }): [string, WaterAmount] => [`basin:${basin.id}`, heldNow(basin, water)]),
    ...[...tanks].map(([id, tank]): [string, WaterAmount] => [`tank:${id}`, tankNow(tank, start.get(`tank:${id}`), moved.get(`tank:${id}`))]),
  ]);
  const contents = Object.fromEntries([...held].map(([place, end]) => [place, { start: start.get(place) ?? NO_WATER, end }]));
  const closesWithin = Math.max(0, ...[...held].map(([place, end]) => missShare(addWater(start.get(place) ?? NO_WATER, moved.get(place) ?? NO_WATER), end)));
  return { flows: within, contents, closesWithin };
}

/** What closing the balance of a basin now would book. */
function openFlows(basin: BasinState, { balance }: KnownSolution, atMs: number): WaterFlow[] {
  const place = `basin:${basin.id}`;
  const at = new Date(atMs).toISOString();
  const isBooked = basin.filled !== undefined && Date.parse(basin.filled.at) === Date.parse(balance.from);
  return [
    ...(isBooked ? [] : [{ at: balance.from, from: 'found', to: place, ...addWater({ litres: balance.startL, mmol: balance.startMmol }, filledWater(basin), -1) }]),
    { at, from: place, to: 'crops', litres: balance.transpiredL, mmol: balance.uptakeMmol },
    { at, from: 'unexplained', to: place, litres: balance.unexplainedL, mmol: balance.unexplainedMmol },
  ];
}

const heldNow = (basin: BasinState, water: SolutionEstimate): WaterAmount =>
  (water.known ? { litres: water.solution.volumeL, mmol: scaleComposition(water.solution.mmolPerL, water.solution.volumeL) } : filledWater(basin));

/** The ions of a tank that was never analysed are only what is on record. */
const tankNow = ({ volumeL, mmolPerL }: TankState, start = NO_WATER, moved = NO_WATER): WaterAmount =>
  ({ litres: volumeL, mmol: mmolPerL === undefined ? addWater(start, moved).mmol : scaleComposition(mmolPerL, volumeL) });

function split<T>(items: readonly T[], isFirst: (item: T) => boolean): [T[], T[]] {
  const parts: [T[], T[]] = [[], []];
  for (const item of items) parts[isFirst(item) ? 0 : 1].push(item);
  return parts;
}

function sumByPlace(flows: readonly WaterFlow[], earlier: WaterBook['earlier']): Map<string, WaterAmount> {
  const sums = new Map<string, WaterAmount>(Object.entries(earlier));
  for (const { from, to, ...moved } of flows) {
    sums.set(from, addWater(sums.get(from) ?? NO_WATER, moved, -1));
    sums.set(to, addWater(sums.get(to) ?? NO_WATER, moved));
  }
  return sums;
}

function missShare(booked: WaterAmount, held: WaterAmount): number {
  const miss = addWater(booked, held, -1);
  const share = (is: number, of: number, least: number) => Math.abs(is) / Math.max(least, Math.abs(of));
  return Math.max(share(miss.litres, held.litres, 1), ...entriesOf(miss.mmol).map(([name, mmol]) => share(mmol, Math.max(Math.abs(held.mmol[name] ?? 0), Math.abs(booked.mmol[name] ?? 0)), 1)));
}
