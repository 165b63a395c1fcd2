import type { CellGrid } from './heightField.ts';

/** Acts on every cell of the grid whose middle lies in a disc; on the nearest ones of a disc that is smaller than a cell. */
export function visitDisc({ cellMm, leftMm, nearMm, columns, rows }: CellGrid, { xMm, yMm }: { readonly xMm: number; readonly yMm: number }, radiusMm: number, act: (cell: number) => void): void {
  const column = (xMm - leftMm) / cellMm, row = (yMm - nearMm) / cellMm, reach = Math.max(0.8, radiusMm / cellMm), square = reach * reach;
  for (let r = Math.max(0, Math.floor(row - reach)); r <= Math.min(rows - 1, row + reach); r += 1) {
    for (let c = Math.max(0, Math.floor(column - reach)); c <= Math.min(columns - 1, column + reach); c += 1) {
      if ((r + 0.5 - row) ** 2 + (c + 0.5 - column) ** 2 <= square) act(r * columns + c);
    }
  }
}
