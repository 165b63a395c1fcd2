/** Least-cost assignment of every row to its own column, by shortest augmenting paths. */

/**
 * Jonker, Volgenant 1987 (Computing 38:325-340) without their initialisation; the order of the columns on a tie is fixed.
 * costOf(row, column) are whole numbers; Infinity forbids a pair. Returns the least total, or undefined if no complete
 * assignment exists. Rows must not outnumber columns.
 */
export function assignLeast(rows: number, columns: number, costOf: (row: number, column: number) => number): number | undefined {
  const cost = costTable(rows, columns, costOf);
  const rowPrice = new Float64Array(rows);
  const columnPrice = new Float64Array(columns);
  const rowOf = new Int32Array(columns).fill(-1);
  const columnOf = new Int32Array(rows).fill(-1);
  const open = takeCheapColumns(rows, columns, cost, { rowPrice, rowOf, columnOf });
  const way = new Int32Array(columns);
  const distance = new Float64Array(columns);
  const settled = new Uint8Array(columns);
  for (const start of open) {
    distance.fill(Infinity);
    settled.fill(0);
    let row = start;
    let last = -1;
    let reached = 0;
    for (;;) {
      let nearest = Infinity;
      let next = -1;
      const base = row * columns;
      const paid = reached - (rowPrice[row] as number);
      for (let column = 0; column < columns; column++) {
        if (settled[column] === 1) continue;
        const through = paid + (cost[base + column] as number) - (columnPrice[column] as number);
        if (through < (distance[column] as number)) {
          distance[column] = through;
          way[column] = last;
        }
        if ((distance[column] as number) < nearest) {
          nearest = distance[column] as number;
          next = column;
        }
      }
      if (next < 0) return undefined;
      settled[next] = 1;
      reached = nearest;
      last = next;
      if (rowOf[next] === -1) break;
      row = rowOf[next] as number;
    }
    reprice(columns, { rowPrice, columnPrice, rowOf, settled, distance }, start, reached);
    augment(last, start, { way, rowOf, columnOf });
  }
  let total = 0;
  for (let row = 0; row < rows; row++) total += cost[row * columns + (columnOf[row] as number)] as number;
  return total;
}

/** What the least total is at least (each row's cheapest column) and at most (each row in turn takes the cheapest column left). */
export function assignQuickly(rows: number, columns: number, costOf: (row: number, column: number) => number): { readonly atLeast: number; readonly atMost: number } {
  const taken = new Uint8Array(columns);
  let atLeast = 0;
  let atMost = 0;
  for (let row = 0; row < rows; row++) {
    let least = Infinity;
    let free = Infinity;
    let at = -1;
    for (let column = 0; column < columns; column++) {
      const cost = costOf(row, column);
      if (cost < least) least = cost;
      if (cost < free && taken[column] === 0) { free = cost; at = column; }
    }
    atLeast += least;
    atMost += free;
    if (at >= 0) taken[at] = 1;
  }
  return { atLeast, atMost };
}

function costTable(rows: number, columns: number, costOf: (row: number, column: number) => number): Float64Array {
  const cost = new Float64Array(rows * columns);
  for (let row = 0, at = 0; row < rows; row++) for (let column = 0; column < columns; column++) cost[at++] = costOf(row, column);
  return cost;
}

interface Start { rowPrice: Float64Array; rowOf: Int32Array; columnOf: Int32Array }

/** Prices each row at its cheapest cost and gives it that column when it is free; returns the rows left over. */
function takeCheapColumns(rows: number, columns: number, costs: Float64Array, at: Start): number[] {
  const open: number[] = [];
  for (let row = 0; row < rows; row++) {
    let least = Infinity;
    let free = -1;
    for (let column = 0; column < columns; column++) {
      const cost = costs[row * columns + column] as number;
      if (cost < least) {
        least = cost;
        free = at.rowOf[column] === -1 ? column : -1;
      } else if (cost === least && free < 0 && at.rowOf[column] === -1) free = column;
    }
    at.rowPrice[row] = least === Infinity ? 0 : least;
    if (free < 0 || least === Infinity) open.push(row);
    else {
      at.rowOf[free] = row;
      at.columnOf[row] = free;
    }
  }
  return open;
}

interface Prices { rowPrice: Float64Array; columnPrice: Float64Array; rowOf: Int32Array; settled: Uint8Array; distance: Float64Array }

function reprice(columns: number, at: Prices, start: number, reached: number): void {
  at.rowPrice[start] = (at.rowPrice[start] as number) + reached;
  for (let column = 0; column < columns; column++) {
    if (at.settled[column] === 0) continue;
    const change = reached - (at.distance[column] as number);
    at.columnPrice[column] = (at.columnPrice[column] as number) - change;
    const row = at.rowOf[column] as number;
    if (row >= 0) at.rowPrice[row] = (at.rowPrice[row] as number) + change;
  }
}

/** Shifts the assignment along the path that ends in the free column. */
function augment(last: number, start: number, at: { way: Int32Array; rowOf: Int32Array; columnOf: Int32Array }): void {
  let column = last;
  while (column >= 0) {
    const before = at.way[column] as number;
    const row = before < 0 ? start : (at.rowOf[before] as number);
    at.rowOf[column] = row;
    at.columnOf[row] = column;
    column = before;
  }
}
