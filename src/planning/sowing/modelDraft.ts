import type { LinearColumn, LinearModel, LinearRow } from '../solver/linearModel.ts';

type Entry = readonly [number, number];

/** A linear programme that is being written: columns and rows in turn, and sums that are gathered under a key before they become rows. */
export class ModelDraft {
  readonly #columns: LinearColumn[] = [];
  readonly #rows: LinearRow[] = [];
  readonly #sums = new Map<string, Entry[]>();
  readonly #taken = new Map<string, number>();

  addColumn(column: LinearColumn): number {
    return this.#columns.push(column) - 1;
  }

  addRow(lower: number, upper: number, entries: readonly Entry[]): number {
    return this.#rows.push({ lower, upper, entries: merged(entries) }) - 1;
  }

  /** Adds a column's share to a sum. */
  gather(key: string, column: number, amount: number): void {
    if (amount === 0) return;
    const sum = this.#sums.get(key);
    if (sum === undefined) this.#sums.set(key, [[column, amount]]); else sum.push([column, amount]);
  }

  gathered(key: string): readonly Entry[] {
    return this.#sums.get(key) ?? [];
  }

  /** Adds what is taken whatever is decided. */
  take(key: string, amount: number): void {
    this.#taken.set(key, this.taken(key) + amount);
  }

  taken(key: string): number {
    return this.#taken.get(key) ?? 0;
  }

  /**
   * The row that keeps a sum below a limit, where any column is in it. What is taken already cannot be planned away: where it
   * alone exceeds the limit, nothing may be added.
   */
  addLimit(key: string, limit: number): number | undefined {
    const entries = merged(this.gathered(key));
    return entries.length === 0 ? undefined : this.addRow(-Infinity, Math.max(0, limit - this.taken(key)), entries);
  }

  model(): LinearModel {
    return { columns: this.#columns, rows: this.#rows };
  }
}

/** A column at most once in a row. */
function merged(entries: readonly Entry[]): Entry[] {
  const sums = new Map<number, number>();
  for (const [column, amount] of entries) sums.set(column, (sums.get(column) ?? 0) + amount);
  return [...sums].filter(([, amount]) => Math.abs(amount) > 1e-12);
}
