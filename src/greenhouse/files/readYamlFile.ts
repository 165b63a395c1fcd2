import { isNode, LineCounter, parseDocument, type Document } from 'yaml';
import type { z } from 'zod';
import { accepted, refused, type Outcome, type Refusal } from '../../science/refusal.ts';
import { writePlace, type Place } from './place.ts';
import { refuseIssues } from './refuseIssues.ts';
import { jsonSchemaOf } from './schemaAt.ts';

/** A value read from a YAML file, with the place of each of its parts. */
export interface ReadYaml<T> { readonly value: T; readonly file: string; readonly placeOf: (path: readonly PropertyKey[]) => Place | undefined }

/** Longest YAML file that is read, characters: a greenhouse of 5,000 basins stays far below. */
const LONGEST = 2_000_000;

/** Reads one YAML file against its schema. Everything wrong is listed at once, with line and column. */
export function readYamlFile<T extends z.ZodType>(file: string, text: string, schema: T): Outcome<ReadYaml<z.output<T>>> {
  if (text.length > LONGEST) return refused([unreadable(file, `is longer than ${LONGEST} characters`)]);
  const lines = new LineCounter();
  const parsed = parse(file, text, lines);
  if (!parsed.ok) return parsed;
  const { document, plain } = parsed.value;
  const placeOf = (path: readonly PropertyKey[]) => placeIn(document, lines, path);
  const result = schema.safeParse(plain);
  if (result.success) return accepted({ value: result.data, file, placeOf });
  return refused(refuseIssues(result.error.issues, { file, placeOf, schema: jsonSchemaOf(schema), valueAt: (path) => valueAt(plain, path) }));
}

function parse(file: string, text: string, lines: LineCounter): Outcome<{ document: Document; plain: unknown }> {
  try {
    const document = parseDocument(text.replace(/^\uFEFF/, ''), { lineCounter: lines, uniqueKeys: true, prettyErrors: false });
    if (document.errors.length > 0) {
      return refused(document.errors.slice(0, 50).map((error): Refusal => {
        const at = lines.linePos(error.pos[0]);
        return { code: error.code === 'DUPLICATE_KEY' ? 'duplicate' : 'syntax', severity: 'error', path: writePlace(file, { line: at.line, column: at.col }), message: `${file} is not YAML here: ${error.message}.` };
      }));
    }
    return accepted({ document, plain: document.toJS({ maxAliasCount: 50 }) as unknown });
  } catch (error) {
    return refused([unreadable(file, `cannot be read as YAML: ${error instanceof Error ? error.message : String(error)}`)]);
  }
}

const unreadable = (file: string, what: string): Refusal => ({ code: 'file-unreadable', severity: 'error', path: `${file}:1:1`, message: `${file} ${what}.` });

/** The place of the node at a path, or of the nearest one around it. */
function placeIn(document: Document, lines: LineCounter, path: readonly PropertyKey[]): Place | undefined {
  for (let length = path.length; length >= 0; length -= 1) {
    const node = length === 0 ? document.contents : document.getIn(path.slice(0, length), true);
    const start = isNode(node) ? node.range?.[0] : undefined;
    if (start !== undefined) { const at = lines.linePos(start); return { line: Math.max(1, at.line), column: Math.max(1, at.col) }; }
  }
  return { line: 1, column: 1 };
}

function valueAt(plain: unknown, path: readonly PropertyKey[]): unknown {
  let value = plain;
  for (const key of path) {
    if (typeof value !== 'object' || value === null) return undefined;
    value = (value as Record<PropertyKey, unknown>)[key];
  }
  return value;
}
