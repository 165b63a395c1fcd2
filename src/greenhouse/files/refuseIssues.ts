import type { z } from 'zod';
import type { Refusal } from '../../science/refusal.ts';
import { nearestWord } from './nearestWord.ts';
import { writePlace, type Place } from './place.ts';
import { schemaAt, type SchemaNode } from './schemaAt.ts';
import { plainValue, showValue } from './showValue.ts';

/** Where a value stands and what was written there. */
export interface Located {
  readonly file: string;
  readonly placeOf: (path: readonly PropertyKey[]) => Place | undefined;
  /** Where the key itself stands; as placeOf where absent. */
  readonly placeOfKey?: (path: readonly PropertyKey[]) => Place | undefined;
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
  if (issue.code === 'invalid_key') return [refuseOne(issue, at, 'value-not-allowed', `is no name: ${firstMessage(issue.issues)}`)];
  const node = schemaAt(at.schema, issue.path);
  const value = at.valueAt(issue.path);
  if (issue.code === 'invalid_type' && value === undefined) return [refuseOne(issue, at, 'value-missing', `is missing; ${allowed(node)}`)];
  if (issue.code === 'invalid_type' && (issue.expected === 'number' || issue.expected === 'int')) return [refuseOne(issue, at, 'value-not-a-number', `is not a ${issue.expected === 'int' ? 'whole ' : ''}number; ${allowed(node)}`)];
  if (issue.code === 'too_small' || issue.code === 'too_big') return [refuseOne(issue, at, 'value-out-of-range', `is out of range; ${allowed(node, issue)}`)];
  if (issue.code === 'invalid_value') return [refuseOne(issue, at, value === undefined ? 'value-missing' : 'value-not-allowed', `${value === undefined ? 'is missing' : 'is not allowed'}; write one of: ${issue.values.map(String).join(', ')}`)];
  if (issue.code === 'custom') return [refuseOne(issue, at, 'value-not-allowed', `is not allowed: ${issue.message}`)];
  if (issue.code === 'invalid_format') return [refuseOne(issue, at, 'value-not-allowed', `is not allowed; write ${formWords(issue)}${whatOf(node)}`)];
  return [refuseOne(issue, at, 'value-not-allowed', `is not allowed; ${allowed(node)}`)];
}

function refuseOne(issue: Issue, at: Located, code: Refusal['code'], what: string): Refusal {
  const node = schemaAt(at.schema, issue.path);
  const value = at.valueAt(issue.path);
  const limit = limitOf(node);
  return {
    code, severity: 'error', path: writePlace(at.file, at.placeOf(issue.path)),
    ...(value === undefined ? {} : { value: plainValue(value) }),
    ...(limit === undefined ? {} : { limit }),
    ...(node?.unit === undefined ? {} : { unit: node.unit }),
    message: `${nameOf(issue.path)}${value === undefined ? '' : ` ${showValue(value)}`} ${what}.`,
  };
}

function refuseKey(key: string, path: readonly PropertyKey[], at: Located): Refusal {
  const known = Object.keys(schemaAt(at.schema, path)?.properties ?? {});
  const near = nearestWord(key, known);
  return {
    code: 'key-unknown', severity: 'error', path: writePlace(at.file, (at.placeOfKey ?? at.placeOf)([...path, key])), value: key.slice(0, 80), limit: known.join(', '),
    message: `${nameOf(path)} has no key '${key.slice(0, 80)}'${near === undefined ? '' : `; did you mean '${near}'?`} Known here: ${known.join(', ') || 'nothing'}.`,
  };
}

const nameOf = (path: readonly PropertyKey[]) => (path.length === 0 ? 'The file' : path.map(String).join('.').slice(0, 120));
const firstMessage = (issues: readonly { readonly message: string }[]) => issues[0]?.message ?? 'not of the form that is wanted';

/** What a text must look like: the schema's own words where it has some. */
function formWords(issue: Extract<Issue, { code: 'invalid_format' }>): string {
  if (issue.format === 'date') return 'a date that exists, as YYYY-MM-DD';
  if (issue.format === 'datetime') return 'an instant with Z or an offset, as 2026-11-25T06:30:00Z';
  return issue.message.replace(/\.$/, '');
}

function limitOf(node: SchemaNode | undefined): unknown {
  if (node?.minimum !== undefined || node?.maximum !== undefined) return `${node.minimum ?? ''} to ${node.maximum ?? ''}`;
  const bound = node?.prefixItems?.[0];
  if (bound?.minimum !== undefined && bound.maximum !== undefined) return `${bound.minimum} to ${bound.maximum}`;
  return node?.enum?.join(', ');
}

function allowed(node: SchemaNode | undefined, issue?: Issue): string {
  const unit = node?.unit === undefined || node.unit === '1' ? '' : ` ${node.unit}`;
  const what = whatOf(node);
  if (node?.minimum !== undefined && node.maximum !== undefined) return `write ${node.minimum} to ${node.maximum}${unit}${what}`;
  if (node?.enum !== undefined) return `write one of: ${node.enum.join(', ')}${what}`;
  if (issue?.code === 'too_small') return `at least ${issue.minimum}${amountWord(issue)}${unit}${what}`;
  if (issue?.code === 'too_big') return `at most ${issue.maximum}${amountWord(issue)}${unit}${what}`;
  return `write ${article(node?.type)}${what}`;
}

const whatOf = (node: SchemaNode | undefined): string => (node?.description === undefined ? '' : ` (${node.description})`);
const amountWord = (issue: { readonly origin?: string }): string => (issue.origin === 'string' ? ' characters' : issue.origin === 'array' ? ' entries' : '');
const WORDS: Readonly<Record<string, string>> = { array: 'a list', object: 'a group of keys', number: 'a number', integer: 'a whole number', boolean: 'true or false', string: 'text' };
const article = (type: string | undefined): string => WORDS[type ?? ''] ?? 'what the schema shows';
