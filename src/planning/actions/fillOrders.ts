import { wholeUnits, type OpenLine } from '../orders/outlookOrders.ts';
import type { LotSupply } from '../orders/lotSupply.ts';

/** Units that a lot could give to each line in each future: entry line * futures + future. */
export type UnitTable = Float64Array;

/** Units of a lot on the day on which each line leaves, in each future, as whole units are sold. */
export function tabulateUnits(unitsOn: LotSupply['unitsOn'], lines: readonly OpenLine[], futures: number): UnitTable {
  const table = new Float64Array(lines.length * futures);
  const firstOf = new Map<string, number>();
  lines.forEach(({ leaves, card }, l) => {
    const same = firstOf.get(leaves);
    if (same !== undefined) { table.copyWithin(l * futures, same * futures, (same + 1) * futures); return; }
    firstOf.set(leaves, l);
    for (let m = 0; m < futures; m++) table[l * futures + m] = wholeUnits(unitsOn(leaves, m), card);
  });
  return table;
}

export interface FilledOrders {
  /** Units short of each line in each future: entry line * futures + future. */
  readonly short: Float64Array;
  /** Units taken from the lot that is asked about, and the line with which the last of them leave (-1: none). */
  readonly taken: Float64Array;
  readonly lastLine: Int32Array;
}

/**
 * Serves lines of one crop in their order from lots in theirs, in every future; as `allocateMember` does, which a test holds
 * it to. `own`: place of the lot that is asked about among `tables`.
 */
export function fillOrders(lines: readonly OpenLine[], tables: readonly UnitTable[], own: number, futures: number): FilledOrders {
  const filled: FilledOrders = { short: new Float64Array(lines.length * futures), taken: new Float64Array(futures), lastLine: new Int32Array(futures).fill(-1) };
  const taken = new Float64Array(tables.length);
  for (let m = 0; m < futures; m++) {
    taken.fill(0);
    for (let l = 0; l < lines.length; l++) {
      let open = lines[l]!.openUnits;
      for (let lot = 0; lot < tables.length && open > 1e-9; lot++) {
        const give = Math.min(open, tables[lot]![l * futures + m]! - taken[lot]!);
        if (give <= 0) continue;
        taken[lot]! += give;
        open -= give;
        if (lot === own) filled.lastLine[m] = l;
      }
      filled.short[l * futures + m] = Math.max(0, open);
    }
    filled.taken[m] = taken[own]!;
  }
  return filled;
}
