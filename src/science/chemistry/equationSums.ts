import { CARRIER_START, SPECIES_COUNT, STOICHIOMETRY } from './equilibriumSystem.ts';

/**
 * Which species enter which sum, as flat lists, so that the inner loop of the equilibrium is nothing but multiply and add.
 * Rows: sulfate, phosphate, carbon, protons taken up (acids), protons given off (bases). Columns: the four unknowns.
 */
export const [ROW_ACID, ROW_BASE] = [3, 4] as const;
export const ROWS = 5, COLUMNS = 4;
export const SLOTS = ROWS * COLUMNS;
export const CARRIERS = CARRIER_START.length - 1;

/** Lists in flat arrays: entries start[i] to start[i + 1] belong to i; each names a place and a factor. */
export interface FlatLists { readonly start: Int32Array; readonly place: Int32Array; readonly factor: Float64Array }

function flatLists(count: number, places: number, factorOf: (i: number, place: number) => number): FlatLists {
  const start = [0], place: number[] = [], factor: number[] = [];
  for (let i = 0; i < count; i += 1) {
    for (let p = 0; p < places; p += 1) if (factorOf(i, p) !== 0) { place.push(p); factor.push(factorOf(i, p)); }
    start.push(place.length);
  }
  return { start: Int32Array.from(start), place: Int32Array.from(place), factor: Float64Array.from(factor) };
}

const numberOf = (s: number, unknown: number): number => STOICHIOMETRY[COLUMNS * s + unknown]!;

function rowNumber(s: number, row: number): number {
  if (row === ROW_ACID) return Math.max(0, numberOf(s, 3));
  return row === ROW_BASE ? Math.max(0, -numberOf(s, 3)) : numberOf(s, row);
}

const carrierOf = (s: number): number => CARRIER_START.findLastIndex((start) => s >= start);

/** Species in each row's sum. */
export const SUM_LISTS = flatLists(ROWS, SPECIES_COUNT, (row, s) => rowNumber(s, row));

/** Species in the derivative of each row by each unknown, carriers held apart. */
export const SLOPE_LISTS = flatLists(SLOTS, SPECIES_COUNT, (slot, s) => rowNumber(s, Math.floor(slot / COLUMNS)) * numberOf(s, slot % COLUMNS));

/** Species in the moment of each carrier with each unknown: moles of the unknown that the carrier holds. Index 4 carrier + unknown. */
export const MOMENT_LISTS = flatLists(CARRIERS * COLUMNS, SPECIES_COUNT, (moment, s) =>
  (carrierOf(s) === Math.floor(moment / COLUMNS) ? numberOf(s, moment % COLUMNS) : 0));

const hasMoment = (c: number, unknown: number): boolean => MOMENT_LISTS.start[COLUMNS * c + unknown]! < MOMENT_LISTS.start[COLUMNS * c + unknown + 1]!;

/** All of a carrier's proton numbers have one sign, so its moment with H+ is its row of acids, or minus its row of bases. */
function rowMoment(c: number, row: number): number {
  if (row < ROW_ACID) return hasMoment(c, row) ? 1 : 0;
  const entry = MOMENT_LISTS.start[COLUMNS * c + 3]!;
  if (!hasMoment(c, 3)) return 0;
  const sign = Math.sign(MOMENT_LISTS.factor[entry]!);
  return (row === ROW_ACID) === (sign > 0) ? sign : 0;
}

/**
 * What the fixed total of each carrier takes off each slope: moment of the row times moment of the column over the total.
 * Place: carrier. The two moments are 4 carrier + row (H+ for acids and bases) and 4 carrier + column.
 */
export const CORRECTION_LISTS = flatLists(SLOTS, CARRIERS, (slot, c) =>
  (hasMoment(c, slot % COLUMNS) ? rowMoment(c, Math.floor(slot / COLUMNS)) : 0));
