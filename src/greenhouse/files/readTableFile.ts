import type { z } from 'zod';
import { accepted, refused, type Outcome, type Refusal } from '../../science/refusal.ts';
import { nearestWord } from './nearestWord.ts';
import { placesIn, writePlace, type Place } from './place.ts';
import { refuseIssues } from './refuseIssues.ts';
import { jsonSchemaOf, type SchemaNode } from './schemaAt.ts';
import { plainValue, showValue } from './showValue.ts';
import { cellOffset, splitTable, type RawRow } from './splitTable.ts';

/** A row of a table file with the place of each cell. */
export interface ReadRow<T> { readonly value: T; readonly placeOf: (column: PropertyKey) => Place }

/** Most refusals listed for one table: what is wrong in every row is said often enough by then. */
const MOST = 200;
/** Most rows of one table: a year of readings every ten minutes from 30 instruments stays below. */
const MOST_ROWS = 2_000_000;

/** What is known of a table while its rows are read. */
interface Table {
  readonly file: string;
  readonly names: readonly string[];
  readonly node: SchemaNode;
  readonly placeAt: (offset: number) => Place;
}

/**
 * Reads one comma-separated table: first line the column names, lines that begin with # are comments, an empty cell is an
 * absent value, numbers have a decimal point. Everything wrong is listed at once (at most 200), with line and column.
 */
export function readTableFile<T extends z.ZodObject>(file: string, text: string, schema: T): Outcome<readonly ReadRow<z.output<T>>[]> {
  const clean = text.replace(/^\uFEFF/, '');
  const placeAt = placesIn(clean);
  const { rows: [head, ...rows], brokenAt } = splitTable(clean);
  const broken = brokenAt === undefined ? [] : [refusalAt(writePlace(file, placeAt(brokenAt)), 'syntax', 'A quote is opened here and not closed, or text follows the closing quote; write a quote inside a cell twice.')];
  if (head === undefined) return refused([...broken, refusalAt(`${file}:1:1`, 'value-missing', `${file} is empty; its first line names the columns: ${Object.keys(schema.shape).join(', ')}.`)]);
  const table: Table = { file, node: jsonSchemaOf(schema), placeAt, names: head.cells.map((cell) => cell.trim()) };
  const wrong = [...broken, ...checkHead(table, head)];
  if (wrong.length > 0) return refused(wrong);
  if (rows.length > MOST_ROWS) return refused([refusalAt(`${file}:1:1`, 'value-out-of-range', `${file} has ${rows.length} rows; at most ${MOST_ROWS} are read.`)]);
  return readRows(table, rows, schema);
}

function readRows<T extends z.ZodObject>(table: Table, rows: readonly RawRow[], schema: T): Outcome<readonly ReadRow<z.output<T>>[]> {
  const read: ReadRow<z.output<T>>[] = [];
  const wrong: Refusal[] = [];
  for (const row of rows) {
    const one = readRow(table, row, schema);
    if (one.ok) read.push(one.value);
    else wrong.push(...one.refusals);
    if (wrong.length >= MOST) return refused([...wrong.slice(0, MOST), refusalAt(table.file, 'syntax', `${table.file} may be wrong in more places; mend the ones listed first.`)]);
  }
  return wrong.length > 0 ? refused(wrong) : accepted(read);
}

function readRow<T extends z.ZodObject>(table: Table, row: RawRow, schema: T): Outcome<ReadRow<z.output<T>>> {
  const { file, names, node, placeAt } = table;
  const placeOf = (column: PropertyKey) => placeAt(row.start + cellOffset(row.raw, Math.max(0, names.indexOf(String(column)))));
  if (row.cells.length > names.length) {
    return refused([{
      ...refusalAt(writePlace(file, placeAt(row.start + cellOffset(row.raw, names.length))), 'syntax', `This row has ${row.cells.length} cells but the table has ${names.length} columns; write decimals with a point, and quote a cell that holds a comma.`),
      value: row.cells.length, limit: names.length,
    }]);
  }
  const value = rowValue(names, row.cells, node);
  const result = schema.safeParse(value);
  if (result.success) return accepted({ value: result.data, placeOf });
  return refused(refuseIssues(result.error.issues, { file, schema: node, placeOf: (path) => placeOf(path[0] ?? ''), valueAt: (path) => value[String(path[0])] }));
}

function checkHead({ file, names, node, placeAt }: Table, head: RawRow): Refusal[] {
  const known = Object.keys(node.properties ?? {});
  const placeOf = (index: number) => writePlace(file, placeAt(head.start + cellOffset(head.raw, index)));
  if (names.length === 1 && /[;\t]/.test(names[0]!)) return [refusalAt(placeOf(0), 'syntax', `${file} separates its columns by semicolons or tabs; save it with commas between the columns and points in the decimals.`)];
  const wrong: Refusal[] = [];
  names.forEach((name, i) => {
    if (!known.includes(name)) wrong.push({ ...refusalAt(placeOf(i), 'key-unknown', `${file} has no column ${showValue(name)}${suggest(name, known)} Known columns: ${known.join(', ')}.`), value: plainValue(name), limit: known.join(', ') });
    else if (names.indexOf(name) !== i) wrong.push({ ...refusalAt(placeOf(i), 'duplicate', `The column '${name}' stands twice; remove one.`), value: name });
  });
  for (const name of node.required ?? []) {
    const meaning = node.properties?.[name]?.description;
    if (!names.includes(name)) wrong.push({ ...refusalAt(placeOf(0), 'value-missing', `${file} lacks the column '${name}'${meaning === undefined ? '' : ` (${meaning})`}.`), limit: name });
  }
  return wrong;
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,3})?$/;

/** Cells by column name: numbers where the schema wants numbers, absent where empty, else the text (so that the schema refuses it). */
function rowValue(names: readonly string[], cells: readonly string[], node: SchemaNode): Record<string, unknown> {
  const value: Record<string, unknown> = {};
  names.forEach((name, i) => {
    const cell = (cells[i] ?? '').trim();
    if (cell === '') return;
    const type = node.properties?.[name]?.type;
    value[name] = (type === 'number' || type === 'integer') && NUMBER.test(cell) ? Number(cell) : cell;
  });
  return value;
}

const suggest = (name: string, known: readonly string[]): string => {
  const near = nearestWord(name, known);
  return near === undefined ? '.' : `; did you mean '${near}'?`;
};

const refusalAt = (path: string, code: Refusal['code'], message: string): Refusal => ({ code, severity: 'error', path, message });
