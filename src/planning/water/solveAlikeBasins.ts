import type { LinearBasis, LinearColumn, LinearModel, LinearRow, LinearSolution, LinearSolver } from '../solver/linearModel.ts';
import type { BlendModel } from './blendModel.ts';

/** From so many kinds on, a start from single basins saves more than it costs. */
const MANY = 24;
const BASIC = 1;

/**
 * The optimum of a blend in which basins of exactly the same numbers are mixed alike: each kind of basin is one block of the
 * programme, its litres and limits those of all its basins together. Nothing is lost: where basins are alike, the mean of
 * their mixes holds every limit as well and costs the same (the programme is convex), and the prices of the limits are
 * the same for all of a kind. Values and duals come back for every column and row of `model`, whose joining rows must
 * treat the basins equally.
 */
export function solveAlikeBasins(model: BlendModel, solver: LinearSolver): LinearSolution {
  const blocks = readBlocks(model);
  const kinds = findKinds(model, blocks);
  const isEachItsOwn = kinds.length === blocks.length;
  const joined = isEachItsOwn ? model : joinKinds(model, blocks, kinds);
  const start = kinds.length < MANY ? undefined : startFromSingles(model, blocks, kinds, joined, solver);
  const near = start === undefined ? undefined : solver.solve(joined, {}, start);
  const solved = near?.status === 'optimal' ? near : solver.solve(joined);
  return solved.status === 'optimal' && !isEachItsOwn ? spread(model, blocks, kinds, solved) : solved;
}

/** Columns and rows of one basin, from the first up to, not including, the end. */
interface Block {
  readonly firstColumn: number;
  readonly endColumn: number;
  readonly firstRow: number;
  readonly endRow: number;
}

/** Basins whose blocks are equal. */
type Kind = readonly number[];

function readBlocks({ firstColumn, columns, meaningOfRow }: BlendModel): Block[] {
  let endRow = 0;
  return firstColumn.map((first, b) => {
    const firstRow = endRow;
    while (meaningOfRow[endRow]?.basin === b) endRow++;
    return { firstColumn: first, endColumn: firstColumn[b + 1] ?? columns.length, firstRow, endRow };
  });
}

function findKinds(model: BlendModel, blocks: readonly Block[]): Kind[] {
  const kinds: { readonly numbers: readonly number[]; readonly basins: number[] }[] = [];
  const withSum = new Map<number, typeof kinds>();
  blocks.forEach((block, b) => {
    const numbers = readNumbers(model, block);
    const sum = weighedSum(numbers);
    const candidates = withSum.get(sum) ?? [];
    const same = candidates.find((kind) => areEqual(kind.numbers, numbers));
    if (same !== undefined) { same.basins.push(b); return; }
    const kind = { numbers, basins: [b] };
    kinds.push(kind);
    withSum.set(sum, [...candidates, kind]);
  });
  return kinds.map(({ basins }) => basins);
}

/** Everything that the solver sees of a block; rows are told apart by their number of entries. */
function readNumbers({ columns, rows }: BlendModel, { firstColumn, endColumn, firstRow, endRow }: Block): number[] {
  const numbers = [endColumn - firstColumn, endRow - firstRow];
  for (let j = firstColumn; j < endColumn; j++) numbers.push(columns[j]!.cost, columns[j]!.lower, columns[j]!.upper);
  for (let i = firstRow; i < endRow; i++) {
    const { lower, upper, entries } = rows[i]!;
    numbers.push(lower, upper, entries.length);
    for (const [j, coefficient] of entries) numbers.push(j - firstColumn, coefficient);
  }
  return numbers;
}

/** Equal for equal numbers; infinities do not count. */
function weighedSum(numbers: readonly number[]): number {
  let sum = 0;
  for (let k = 0; k < numbers.length; k++) if (Number.isFinite(numbers[k])) sum += numbers[k]! * (1 + (k % 97));
  return sum;
}

const areEqual = (a: readonly number[], b: readonly number[]): boolean => a.length === b.length && a.every((value, k) => value === b[k]);

/** The first basin of each kind stands for all of them: columns hold their sum. */
function joinKinds(model: BlendModel, blocks: readonly Block[], kinds: readonly Kind[]): LinearModel {
  const columns: LinearColumn[] = [];
  const rows: LinearRow[] = [];
  const columnOf = new Map<number, number>();
  for (const kind of kinds) {
    const block = blocks[kind[0]!]!;
    const shift = columns.length - block.firstColumn;
    for (const { cost, lower, upper } of model.columns.slice(block.firstColumn, block.endColumn)) {
      columnOf.set(columns.length - shift, columns.length);
      columns.push({ cost, lower: lower * kind.length, upper: upper * kind.length });
    }
    for (const { lower, upper, entries } of model.rows.slice(block.firstRow, block.endRow)) {
      rows.push({ lower: lower * kind.length, upper: upper * kind.length, entries: entries.map(([j, coefficient]) => [j + shift, coefficient] as const) });
    }
  }
  for (const row of model.rows.slice(blocks.at(-1)!.endRow)) {
    rows.push({ ...row, entries: row.entries.flatMap(([j, coefficient]) => (columnOf.has(j) ? [[columnOf.get(j)!, coefficient] as const] : [])) });
  }
  return { columns, rows };
}

/**
 * The basis of one basin that has every source to itself, for all whose rows have the same shape. Absent where that basin
 * cannot be mixed, or shapes are too many. Only where the search begins, not where it ends, depends on it.
 */
function startFromSingles(model: BlendModel, blocks: readonly Block[], kinds: readonly Kind[], joined: LinearModel, solver: LinearSolver): LinearBasis | undefined {
  const basisOf = new Map<string, LinearBasis>();
  const columnStatus = new Int32Array(joined.columns.length);
  const rowStatus = new Int32Array(joined.rows.length).fill(BASIC);
  let column = 0;
  let row = 0;
  for (const [b] of kinds) {
    const block = blocks[b!]!;
    const rows = model.rows.slice(block.firstRow, block.endRow);
    const shape = [block.endColumn - block.firstColumn, ...rows.map(({ entries }) => entries.length)].join();
    const basis = basisOf.get(shape) ?? solveSingle(model, block, solver);
    if (basis === undefined || basisOf.size > kinds.length / 8) return undefined;
    basisOf.set(shape, basis);
    columnStatus.set(basis.columnStatus, column);
    rowStatus.set(basis.rowStatus, row);
    column += block.endColumn - block.firstColumn;
    row += rows.length;
  }
  return { columnStatus, rowStatus };
}

function solveSingle({ columns, rows }: BlendModel, { firstColumn, endColumn, firstRow, endRow }: Block, solver: LinearSolver): LinearBasis | undefined {
  return solver.solve({
    columns: columns.slice(firstColumn, endColumn),
    rows: rows.slice(firstRow, endRow).map((row) => ({ ...row, entries: row.entries.map(([j, coefficient]) => [j - firstColumn, coefficient] as const) })),
  }).basis;
}

/** To each basin its share of its kind's litres, and the kind's prices. */
function spread(model: BlendModel, blocks: readonly Block[], kinds: readonly Kind[], joined: LinearSolution): LinearSolution {
  const columnValue = new Float64Array(model.columns.length);
  const rowValue = new Float64Array(model.rows.length);
  const rowDual = new Float64Array(model.rows.length);
  let column = 0;
  let row = 0;
  for (const kind of kinds) {
    const { firstColumn, endColumn, firstRow, endRow } = blocks[kind[0]!]!;
    const nextColumn = column + endColumn - firstColumn;
    const nextRow = row + endRow - firstRow;
    const share = (value: number): number => value / kind.length;
    for (const b of kind) {
      columnValue.set(joined.columnValue.subarray(column, nextColumn).map(share), blocks[b]!.firstColumn);
      rowValue.set(joined.rowValue.subarray(row, nextRow).map(share), blocks[b]!.firstRow);
      rowDual.set(joined.rowDual.subarray(row, nextRow), blocks[b]!.firstRow);
    }
    column = nextColumn;
    row = nextRow;
  }
  rowValue.set(joined.rowValue.subarray(row), blocks.at(-1)!.endRow);
  rowDual.set(joined.rowDual.subarray(row), blocks.at(-1)!.endRow);
  return { ...joined, columnValue, rowValue, rowDual };
}
