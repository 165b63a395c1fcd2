import { isAlias, isMap, isNode, LineCounter, parseDocument, type Document, type Node } from 'yaml';
import type { z } from 'zod';
import { accepted, refused, type Outcome, type Refusal } from '../../science/refusal.ts';
import { writePlace, type Place } from './place.ts';
import { refuseIssues } from './refuseIssues.ts';
import { jsonSchemaOf } from './schemaAt.ts';

/** A value read from a YAML file, with the place of each of its parts. */
export interface ReadYaml<T> { readonly value: T; readonly file: string; readonly placeOf: (path: readonly PropertyKey[]) => Place | undefined }

/** Longest YAML file that is read, characters: a greenhouse of 5,000 basins stays far below. */
const LONGEST = 2_000_000;
/** Most times one anchor may be repeated: written-out files need none; a file that multiplies itself is stopped here. */
const MOST_ALIASES = 50;
const MOST_SYNTAX_ERRORS = 50;

/** Reads one YAML file against its schema. Everything wrong is listed at once, with line and column. */
export function readYamlFile<T extends z.ZodType>(file: string, text: string, schema: T): Outcome<ReadYaml<z.output<T>>> {
  if (text.length > LONGEST) return refused([unreadable(file, `is longer than ${LONGEST} characters`)]);
  const lines = new LineCounter();
  const parsed = parse(file, text, lines);
  if (!parsed.ok) return parsed;
  const { document, plain } = parsed.value;
  const placeOf = (path: readonly PropertyKey[]) => placeAt(lines, nodeAround(document, path));
  const placeOfKey = (path: readonly PropertyKey[]) => placeAt(lines, keyNode(document, path) ?? nodeAround(document, path));
  const result = schema.safeParse(plain);
  if (result.success) return accepted({ value: result.data, file, placeOf });
  return refused(refuseIssues(result.error.issues, { file, placeOf, placeOfKey, schema: jsonSchemaOf(schema), valueAt: (path) => valueAt(plain, path) }));
}

function parse(file: string, text: string, lines: LineCounter): Outcome<{ document: Document; plain: unknown }> {
  try {
    const document: Document = parseDocument(text.replace(/^\uFEFF/, ''), { lineCounter: lines, uniqueKeys: true, prettyErrors: false, logLevel: 'error' });
    const wrong = [...document.errors, ...document.warnings];
    if (wrong.length > 0) {
      return refused(wrong.slice(0, MOST_SYNTAX_ERRORS).map((error): Refusal => ({
        code: error.code === 'DUPLICATE_KEY' ? 'duplicate' : 'syntax', severity: 'error', path: writePlace(file, placeFrom(lines, error.pos[0])),
        message: `${file} is not YAML here: ${error.message.replaceAll(/\s+/g, ' ').replace(/\.$/, '').slice(0, 200)}.`,
      })));
    }
    return accepted({ document, plain: document.toJS({ maxAliasCount: MOST_ALIASES }) as unknown });
  } catch (error) {
    // The parser throws on anchors that multiply themselves and on nesting deeper than its stack.
    return refused([unreadable(file, `cannot be read as YAML: ${(error instanceof Error ? error.message : String(error)).slice(0, 200)}`)]);
  }
}

const unreadable = (file: string, what: string): Refusal => ({ code: 'file-unreadable', severity: 'error', path: `${file}:1:1`, message: `${file} ${what}.` });

/** The node at a path, or the nearest one around it. */
function nodeAround(document: Document, path: readonly PropertyKey[]): Node | undefined {
  let at: unknown = document.contents;
  let nearest = isNode(at) ? at : undefined;
  for (const key of path) {
    if (isAlias(at)) at = at.resolve(document);
    at = isNode(at) && 'get' in at && typeof at.get === 'function' ? (at.get as (key: unknown, keep: boolean) => unknown)(key, true) : undefined;
    if (!isNode(at)) return nearest;
    nearest = at;
  }
  return nearest;
}

/** The key that stands at the end of a path. */
function keyNode(document: Document, path: readonly PropertyKey[]): Node | undefined {
  const around = nodeAround(document, path.slice(0, -1));
  const map = isAlias(around) ? around.resolve(document) : around;
  if (!isMap(map)) return undefined;
  const key = map.items.map((pair) => pair.key).find((each) => isNode(each) && 'value' in each && String(each.value) === String(path.at(-1)));
  return isNode(key) ? key : undefined;
}

const placeAt = (lines: LineCounter, node: Node | undefined): Place => placeFrom(lines, node?.range?.[0] ?? 0);

function placeFrom(lines: LineCounter, offset: number): Place {
  const at = lines.linePos(offset);
  return { line: Math.max(1, at.line), column: Math.max(1, at.col) };
}

function valueAt(plain: unknown, path: readonly PropertyKey[]): unknown {
  let value = plain;
  for (const key of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[key];
  }
  return value;
}
