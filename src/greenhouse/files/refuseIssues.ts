import type { z } from 'zod';
import type { Refusal } from '../../science/refusal.ts';
import { nearestWord } from './nearestWord.ts';
import { writePlace, type Place } from './place.ts';
import { schemaAt, type SchemaNode } from './schemaAt.ts';

/** Where a value stands and what was written there. */
export interface Located {
  readonly file: string;
  readonly placeOf: (path: readonly PropertyKey[]) => Place | undefined;
  readonly valueAt: (path: readonly PropertyKey[]) => unknown;
  readonly schema: SchemaNode;
}

type Issue = z.core.$ZodIssue;

/** Every issue that a schema found, as refusals with place, value, limit, unit and remedy. */
export function refuseIssues(issues: readonly Issue[], at: Located): Refusal[] {
  return issues.flatMap((issue) => refuseIssue(issue, at));
}

function refuseIssue(issue: Issue, at: Located): Refusal[] {
  if (issue.code === 'unrecognized_keys') return issue.keys.map((key) => refuseKey(key, issue.path, at));
  if (issue.code === 'invalid_union') return [refuseOne(issue, at, 'value-not-allowed', wordsOf(at, issue.path))];
  const node = schemaAt(at.schema, issue.path);
  const value = at.valueAt(issue.path);
  if (issue.code === 'invalid_type' && value === undefined) return [refuseOne(issue, at, 'value-missing', `is missing; ${allowed(node)}`)];
  if (issue.code === 'invalid_type' && (issue.expected === 'number' || issue.expected === 'int')) return [refuseOne(issue, at, 'value-not-a-number', `is not a number; ${allowed(node)}`)];
  if (issue.code === 'too_small' || issue.code === 'too_big') return [refuseOne(issue, at, 'value-out-of-range', `is out of range; ${allowed(node, issue)}`)];
  if (issue.code === 'invalid_value') return [refuseOne(issue, at, 'value-not-allowed', `is not allowed; write one of: ${issue.values.map(String).join(', ')}`)];
  return [refuseOne(issue, at, 'value-not-allowed', `is not allowed: ${issue.message}; ${allowed(node)}`)];
}

function refuseOne(issue: Issue, at: Located, code: Refusal['code'], what: string): Refusal {
  const node = schemaAt(at.schema, issue.path);
  const value = at.valueAt(issue.path);
  const shown = value === undefined ? '' : ` ${show(value)}`;
  return {
    code, severity: 'error', path: writePlace(at.file, at.placeOf(issue.path)),
    ...(value === undefined ? {} : { value: short(value) }),
    ...(limitOf(node) === undefined ? {} : { limit: limitOf(node) }),
    ...(node?.unit === undefined ? {} : { unit: node.unit }),
    message: `${nameOf(issue.path)}${shown} ${what}.`,
  };
}

function refuseKey(key: string, path: readonly PropertyKey[], at: Located): Refusal {
  const known = Object.keys(schemaAt(at.schema, path)?.properties ?? {});
  const near = nearestWord(key, known);
  return {
    code: 'key-unknown', severity: 'error', path: writePlace(at.file, at.placeOf([...path, key])), value: key.slice(0, 80), limit: known.join(', '),
    message: `${nameOf(path)} has no '${key.slice(0, 80)}'${near === undefined ? '' : `; did you mean '${near}'?`} Known here: ${known.join(', ') || 'nothing'}.`,
  };
}

const nameOf = (path: readonly PropertyKey[]) => (path.length === 0 ? 'The file' : path.map(String).join('.'));
const show = (value: unknown) => { const text = typeof value === 'string' ? `'${value}'` : (JSON.stringify(value) ?? String(value)); return text.length > 60 ? `${text.slice(0, 57)}...` : text; };
const short = (value: unknown) => (typeof value === 'number' || typeof value === 'boolean' || value === null ? value : show(value));

function limitOf(node: SchemaNode | undefined): unknown {
  if (node?.minimum !== undefined || node?.maximum !== undefined) return `${node.minimum ?? ''} to ${node.maximum ?? ''}`;
  return node?.enum?.join(', ');
}

function allowed(node: SchemaNode | undefined, issue?: Issue): string {
  const unit = node?.unit === undefined || node.unit === '1' ? '' : ` ${node.unit}`;
  const what = node?.description === undefined ? '' : ` (${node.description})`;
  if (node?.minimum !== undefined && node.maximum !== undefined) return `write ${node.minimum} to ${node.maximum}${unit}${what}`;
  if (node?.enum !== undefined) return `write one of: ${node.enum.join(', ')}${what}`;
  if (issue?.code === 'too_small') return `at least ${issue.minimum}${unit}${what}`;
  if (issue?.code === 'too_big') return `at most ${issue.maximum}${unit}${what}`;
  return `write ${article(node?.type)}${what}`;
}

const article = (type: string | undefined) => (type === 'array' ? 'a list' : type === 'object' ? 'a group of keys' : type === 'number' || type === 'integer' ? 'a number' : type === 'boolean' ? 'true or false' : type === 'string' ? 'text' : 'what the schema shows');
const wordsOf = (at: Located, path: readonly PropertyKey[]) => `is not allowed; ${allowed(schemaAt(at.schema, path))}`;
