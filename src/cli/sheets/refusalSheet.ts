import type { Refusal } from '../../science/refusal.ts';
import { REFUSAL_CODES } from '../../science/refusalCodes.ts';
import { wrapWords } from './wrapWords.ts';

/** Everything that is wrong, for people: by file and line, with what to do about it. Empty for an empty list. */
export function refusalSheet(refusals: readonly Refusal[]): string {
  if (refusals.length === 0) return '';
  const errors = refusals.filter((each) => each.severity === 'error').length;
  const warnings = refusals.length - errors;
  const counts = [...(errors > 0 ? [`${errors} to mend`] : []), ...(warnings > 0 ? [`${warnings} worth a look`] : [])].join(', ');
  return `${counts}:\n\n${inOrder(refusals).map(refusalLines).join('\n')}`;
}

function refusalLines(refusal: Refusal): string {
  const mark = refusal.severity === 'error' ? '' : 'worth a look: ';
  const remedy = refusal.severity === 'error' ? [REFUSAL_CODES[refusal.code].remedy] : [];
  return `${refusal.path}  (${refusal.code})\n${[`${mark}${refusal.message}`, ...remedy].map((text) => wrapWords(text, 96, '    ')).join('\n')}\n`;
}

/** By file, then by place; what has no place keeps its order. */
function inOrder(refusals: readonly Refusal[]): Refusal[] {
  const keyed = refusals.map((refusal, i) => ({ refusal, i, ...placeOf(refusal.path) }));
  keyed.sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : a.line - b.line || a.column - b.column || a.i - b.i));
  return keyed.map((each) => each.refusal);
}

function placeOf(path: string): { file: string; line: number; column: number } {
  const [, file, line, column] = /^(.*?):(\d+):(\d+)$/.exec(path) ?? [];
  return file === undefined ? { file: path, line: 0, column: 0 } : { file, line: Number(line), column: Number(column) };
}
