import Papa from 'papaparse';

/** One row as it stands in the text. */
export interface RawRow {
  readonly cells: readonly string[];
  /** Offset of the row in the text. */
  readonly start: number;
  readonly raw: string;
}

export interface SplitTable {
  readonly rows: readonly RawRow[];
  /** Offset of a quote that breaks the table; rows after it are not read. */
  readonly brokenAt?: number;
}

/** Comments and empty lines before a row. */
const LEAD = /^(?:[ \t]*(?:#[^\n]*)?\r?\n)*/;

/** Splits comma-separated text (RFC 4180: quotes around cells with commas, quotes doubled inside) into rows; lines that begin with # and empty lines are left out. */
export function splitTable(text: string): SplitTable {
  const rows: RawRow[] = [];
  let from = 0;
  let brokenAt: number | undefined;
  Papa.parse<string[]>(text, {
    comments: '#', skipEmptyLines: false, delimiter: ',', newline: '\n',
    step: ({ data, meta, errors }, parser) => {
      const fault = errors.find((error) => error.type === 'Quotes');
      const until = meta.cursor;
      const lead = LEAD.exec(text.slice(from, until))?.[0].length ?? 0;
      const raw = text.slice(from + lead, until);
      if (fault !== undefined) { brokenAt = from + lead + Math.max(0, raw.indexOf('"')); parser.abort(); return; }
      if (data.some((cell) => cell.trim() !== '')) rows.push({ cells: data, start: from + lead, raw });
      from = until;
    },
  });
  return brokenAt === undefined ? { rows } : { rows, brokenAt };
}

/** Offset of the cell with this index inside a raw row, quotes respected; the end of the row where it has fewer cells. */
export function cellOffset(raw: string, index: number): number {
  let quoted = false;
  let seen = 0;
  for (let i = 0; i < raw.length && seen < index; i += 1) {
    if (raw[i] === '"') quoted = !quoted;
    else if (raw[i] === ',' && !quoted) { seen += 1; if (seen === index) return i + 1; }
  }
  return index === 0 ? 0 : raw.replace(/\r?\n$/, '').length;
}
