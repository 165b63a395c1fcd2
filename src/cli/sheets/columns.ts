/** Cells of a printed table: texts stand left, numbers (given with `right`) stand right. */
export interface Column { readonly title: string; readonly right?: boolean }

/** A table in plain text: a line of titles, a rule, the rows. Columns are as wide as their widest cell; two blanks between them. */
export function printColumns(columns: readonly Column[], rows: readonly (readonly string[])[], indent = ''): string {
  const widths = columns.map((column, i) => Math.max(column.title.length, ...rows.map((row) => (row[i] ?? '').length)));
  const line = (cells: readonly string[]) => `${indent}${columns.map((column, i) => pad(cells[i] ?? '', widths[i]!, column.right === true)).join('  ')}`.trimEnd();
  const rule = `${indent}${widths.map((width) => '-'.repeat(width)).join('  ')}`;
  return [line(columns.map((column) => column.title)), rule, ...rows.map(line)].join('\n');
}

const pad = (text: string, width: number, right: boolean): string => (right ? text.padStart(width) : text.padEnd(width));
