/** A comma-separated table with a header line, read into records of text with their places. Fields have no quotes in these forms. */
import type { Refusal } from '../refusal.ts';
import type { RefusalCode } from '../refusalCodes.ts';

export interface CsvRow {
  /** Line in the file, from 1. */
  readonly line: number;
  readonly fields: Readonly<Record<string, string>>;
}

/** Rows of a table that has at least the wanted columns, in any order; or what is wrong with it. */
export function readCsvTable(text: string, fileName: string, wanted: readonly string[]): { rows: CsvRow[]; refusals: Refusal[] } {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  const columns = (lines[0] ?? '').split(',').map((name) => name.trim());
  const absent = wanted.filter((name) => !columns.includes(name));
  if (absent.length > 0) {
    return { rows: [], refusals: [refusalAt('value-missing', `${fileName}:1:1`, `The header line should name ${wanted.join(', ')}; ${absent.join(', ')} is missing.`, columns.join(','))] };
  }
  const rows: CsvRow[] = [];
  const refusals: Refusal[] = [];
  lines.forEach((line, i) => {
    if (i === 0 || line.trim() === '') return;
    const fields = line.split(',').map((field) => field.trim());
    if (fields.length !== columns.length) refusals.push(refusalAt('syntax', `${fileName}:${i + 1}:1`, `This line has ${fields.length} fields, the header ${columns.length}.`, line));
    else rows.push({ line: i + 1, fields: Object.fromEntries(columns.map((name, c) => [name, fields[c]!])) });
  });
  return { rows, refusals };
}

export function refusalAt(code: RefusalCode, path: string, message: string, value?: unknown): Refusal {
  return { code, path, message, severity: 'error', ...(value === undefined ? {} : { value }) };
}

const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/** A decimal number in [least, most]; undefined for an empty field; or why not. */
export function readDecimal(row: CsvRow, column: string, fileName: string, least: number, most: number): { value?: number; refusal?: Refusal } {
  const text = row.fields[column]!;
  if (text === '') return {};
  const value = DECIMAL.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= most) return { value };
  const code = Number.isFinite(value) ? 'value-out-of-range' : 'value-not-a-number';
  return { refusal: { ...refusalAt(code, `${fileName}:${row.line}:1`, `${column} should be a number between ${least} and ${most}.`, text), limit: [least, most] } };
}
