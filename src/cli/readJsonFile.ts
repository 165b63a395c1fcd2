import { readFileSync } from 'node:fs';
import { accepted, refused, type Outcome } from '../science/refusal.ts';

/** The value of a JSON file. Refused where there is no such file or it is not JSON. */
export function readJsonFile(path: string): Outcome<unknown> {
  const text = readTextFile(path);
  if (!text.ok) return text;
  try {
    return accepted(JSON.parse(text.value) as unknown);
  } catch (error) {
    return refused([{ code: 'syntax', severity: 'error', path, message: `${path} is not JSON: ${error instanceof Error ? error.message : String(error)}.` }]);
  }
}

/** The text of a file. */
export function readTextFile(path: string): Outcome<string> {
  try {
    return accepted(new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(path)));
  } catch (error) {
    if (error instanceof TypeError) return refused([{ code: 'file-unreadable', severity: 'error', path, message: `${path} is not UTF-8 text.` }]);
    if (error instanceof Error && 'code' in error && (error.code === 'ENOENT' || error.code === 'EISDIR')) return refused([{ code: 'file-missing', severity: 'error', path, message: `There is no file ${path}.` }]);
    throw error;
  }
}
