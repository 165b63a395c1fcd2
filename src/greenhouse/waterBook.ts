import { addCompositions, scaleComposition, type Composition } from '../science/chemistry/composition.ts';

/**
 * Water and what is dissolved in it on its way from one place to another: double entry, so that nothing comes from nowhere.
 * Places: `basin:B017`, `tank:R1` (any source of greenhouse.yaml), `crops` (water: transpired; components: taken up),
 * `discharge`, `treatment` (iron lost to its light), `found` (first seen without a record of how it came there), `unexplained` (what readings corrected).
 */
export interface WaterFlow {
  /** UTC instant. */
  readonly at: string;
  readonly from: string;
  readonly to: string;
  /** May be negative where a correction took away. */
  readonly litres: number;
  readonly mmol: Composition;
}

export interface WaterAmount { readonly litres: number; readonly mmol: Composition }

export interface WaterBook {
  /** The flows of the last weeks, in the order of the journal. */
  readonly flows: readonly WaterFlow[];
  /** What came to each place less what left it by all older flows. */
  readonly earlier: Readonly<Record<string, WaterAmount>>;
}

export const EMPTY_BOOK: WaterBook = { flows: [], earlier: {} };
export const NO_WATER: WaterAmount = { litres: 0, mmol: {} };

/** Planning looks back five weeks. */
const KEPT_DAYS = 35;
const DAY_MS = 86_400_000;

/** The book with more flows; those older than five weeks before the newest are summed up by place. */
export function bookFlows(book: WaterBook, flows: readonly WaterFlow[]): WaterBook {
  const newest = flows.at(-1);
  if (newest === undefined) return book;
  const all = [...book.flows, ...flows];
  const oldest = Date.parse(newest.at) - KEPT_DAYS * DAY_MS;
  if (Date.parse(all[0]!.at) >= oldest) return { flows: all, earlier: book.earlier };
  const isOld = ({ at }: WaterFlow) => Date.parse(at) < oldest;
  return { flows: all.filter((flow) => !isOld(flow)), earlier: all.filter(isOld).reduce(settle, book.earlier) };
}

/** What a place holds by the book, up to and with an instant. */
export function bookedAt({ flows, earlier }: WaterBook, place: string, atMs = Infinity): WaterAmount {
  return flows.filter(({ at }) => Date.parse(at) <= atMs).reduce((sum, { from, to, ...moved }) => addWater(sum, moved, (to === place ? 1 : 0) - (from === place ? 1 : 0)), earlier[place] ?? NO_WATER);
}

/** The first and so many times the second. */
export function addWater(sum: WaterAmount, { litres, mmol }: WaterAmount, times = 1): WaterAmount {
  return times === 0 ? sum : { litres: sum.litres + times * litres, mmol: addCompositions(sum.mmol, scaleComposition(mmol, times)) };
}

function settle(earlier: WaterBook['earlier'], { from, to, ...moved }: WaterFlow): WaterBook['earlier'] {
  return { ...earlier, [from]: addWater(earlier[from] ?? NO_WATER, moved, -1), [to]: addWater(earlier[to] ?? NO_WATER, moved) };
}
