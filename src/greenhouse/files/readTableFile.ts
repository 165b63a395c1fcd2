import Papa from 'papaparse';
import type { z } from 'zod';
import { accepted, refused, type Outcome, type Refusal } from '../../science/refusal.ts';
import { nearestWord } from './nearestWord.ts';
import { placesIn, writePlace, type Place } from './place.ts';
import { refuseIssues } from './refuseIssues.ts';
import { jsonSchemaOf, type SchemaNode } from './schemaAt.ts';

/** A row of a table file with the place of each cell. */
export interface ReadRow<T> { readonly value: T; readonly placeOf: (column: PropertyKey) => Place }

interface RawRow { readonly cells: readonly string[]; readonly start: number; readonly raw: string }

/** Most refusals listed for one table: what is wrong in every row is said often enough by then. */
const MOST = 200;

/**
 * Reads one comma-separated table: first line the column names, `#` lines are comments, an empty cell is an absent value.
 * Numbers have a decimal point. Everything wrong is listed at once (at most 200), with line and column.
 */
export function readTableFile<T extends z.ZodObject>(file: string, text: string, schema: T): Outcome<readonly ReadRow<z.output<T>>[]> {
  const clean = text.replace(/^\uFEFF/, '');
  const placeAt = placesIn(clean);
  const [head, ...rows] = splitRows(clean);
  if (head === undefined) return refused([{ code: 'value-missing', severity: 'error', path: `${file}:1:1`, message: `${file} is empty; its first line names the columns: ${Object.keys(schema.shape).join(', ')}.` }]);
  const node = jsonSchemaOf(schema);
  const names = head.cells.map((cell) => cell.trim());
  const wrong = checkHead(file, names, head, node, placeAt);
  if (wrong.length > 0) return refused(wrong);
  const read: ReadRow<z.output<T>>[] = [];
  for (const row of rows) {
    const cellPlace = (column: PropertyKey) => placeAt(row.start + cellOffset(row.raw, Math.max(0, names.indexOf(String(column)))));
    if (row.cells.length > names.length) {
      wrong.push({ code: 'syntax', severity: 'error', path: writePlace(file, placeAt(row.start + cellOffset(row.raw, names.length))), value: row.cells.length, limit: names.length, message: `This row has ${row.cells.length} cells but the table has ${names.length} columns; quote a cell that holds a comma.` });
      continue;
    }
    const value = rowValue(names, row.cells, node);
    const result = schema.safeParse(value);
    if (result.success) read.push({ value: result.data, placeOf: cellPlace });
    else wrong.push(...refuseIssues(result.error.issues, { file, schema: node, placeOf: (path) => cellPlace(path[0] ?? ''), valueAt: (path) => value[String(path[0])] }));
    if (wrong.length >= MOST) break;
  }
  return wrong.length > 0 ? refused(wrong) : accepted(read);
}

function splitRows(text: string): RawRow[] {
  const rows: RawRow[] = [];
  let from = 0;
  Papa.parse<string[]>(text, {
    comments: '#', skipEmptyLines: false, delimiter: ',',
    step: ({ data, meta }) => {
      const until = meta.cursor;
      const lead = /^(?:[ \t]*(?:#[^\n]*)?\r?\n)*/.exec(text.slice(from, until))?.[0].length ?? 0;
      const raw = text.slice(from + lead, until);
      if (data.some((cell) => cell.trim() !== '')) rows.push({ cells: data, start: from + lead, raw });
      from = until;
    },
  });
  return rows;
}

function checkHead(file: string, names: readonly string[], head: RawRow, node: SchemaNode, placeAt: (offset: number) => Place): Refusal[] {
  const known = Object.keys(node.properties ?? {});
  const wrong: Refusal[] = [];
  names.forEach((name, i) => {
    const path = writePlace(file, placeAt(head.start + cellOffset(head.raw, i)));
    const near = nearestWord(name, known);
    if (!known.includes(name)) wrong.push({ code: 'key-unknown', severity: 'error', path, value: name.slice(0, 80), limit: known.join(', '), message: `${file} has no column '${name.slice(0, 80)}'${near === undefined ? '' : `; did you mean '${near}'?`} Known columns: ${known.join(', ')}.` });
    else if (names.indexOf(name) !== i) wrong.push({ code: 'duplicate', severity: 'error', path, value: name, message: `The column '${name}' stands twice; remove one.` });
  });
  for (const name of node.required ?? []) {
    if (!names.includes(name)) wrong.push({ code: 'value-missing', severity: 'error', path: writePlace(file, placeAt(head.start)), limit: name, message: `${file} lacks the column '${name}'${node.properties?.[name]?.description === undefined ? '' : ` (${node.properties[name].description})`}.` });
  }
  return wrong;
}

/** Cells by column name: numbers where the schema wants numbers, absent where empty, else the text (so that the schema refuses it). */
function rowValue(names: readonly string[], cells: readonly string[], node: SchemaNode): Record<string, unknown> {
  const value: Record<string, unknown> = {};
  names.forEach((name, i) => {
    const cell = (cells[i] ?? '').trim();
    if (cell === '') return;
    const type = node.properties?.[name]?.type;
    value[name] = (type === 'number' || type === 'integer') && /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,3})?$/.test(cell) ? Number(cell) : cell;
  });
  return value;
}

/** Offset of the cell with this index inside the raw row, quotes respected. */
function cellOffset(raw: string, index: number): number {
  let quoted = false;
  let seen = 0;
  for (let i = 0; i < raw.length && seen < index; i += 1) {
    if (raw[i] === '"') quoted = !quoted;
    else if (raw[i] === ',' && !quoted) { seen += 1; if (seen === index) return i + 1; }
  }
  return index === 0 ? 0 : Math.max(0, raw.replace(/\r?\n$/, '').length);
}
