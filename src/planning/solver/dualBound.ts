import type { LinearModel } from './linearModel.ts';

/**
 * A lower bound on the optimum of a linear model, by weak duality, valid for ANY row duals whatever solver they come from:
 * sum over rows of y x (the limit that y's sign calls for) + sum over columns of reduced cost x (the bound its sign calls for).
 * Every column must have finite bounds; a dual whose sign calls for an infinite row limit is taken as zero.
 * Semicontinuous columns count from zero. Source: linear programming duality (von Neumann 1947; any textbook).
 */
export function dualBound(model: LinearModel, rowDual: Float64Array): number {
  return dualBoundParts(model, rowDual).reduce((sum, part) => sum + part, 0);
}

/**
 * The same bound split into one part a group of columns (`groupOfColumn`) and rows (`groupOfRow`), for models that
 * fall apart into blocks joined by few rows. Part 0 holds whatever belongs to no block.
 */
export function dualBoundParts(
  model: LinearModel, rowDual: Float64Array,
  groups: { readonly ofRow: (row: number) => number; readonly ofColumn: (column: number) => number; readonly count: number } = { ofRow: () => 0, ofColumn: () => 0, count: 1 },
): number[] {
  const parts = Array.from({ length: groups.count }, () => 0);
  const reduced = model.columns.map((column) => column.cost);
  model.rows.forEach((row, i) => {
    const y = usableDual(row, rowDual[i]!);
    if (y === 0) return;
    parts[groups.ofRow(i)]! += y * (y > 0 ? row.lower : row.upper);
    for (const [j, coefficient] of row.entries) reduced[j]! -= y * coefficient;
  });
  model.columns.forEach((column, j) => {
    const lower = column.domain === 'semicontinuous' ? Math.min(0, column.lower) : column.lower;
    parts[groups.ofColumn(j)]! += reduced[j]! * (reduced[j]! > 0 ? lower : column.upper);
  });
  return parts;
}

function usableDual(row: { readonly lower: number; readonly upper: number }, y: number): number {
  return Number.isFinite(y > 0 ? row.lower : row.upper) ? y : 0;
}
