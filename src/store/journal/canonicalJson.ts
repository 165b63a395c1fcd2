/** A value that has no canonical JSON: where in it, and why. */
export class NotPlainJson extends Error {
  override readonly name = 'NotPlainJson';
  readonly path: string;
  constructor(path: string, reason: string) {
    super(reason);
    this.path = path;
  }
}

// A code point that no stored text may hold: NUL, or half of a surrogate pair. Under the u flag \p{Surrogate} matches lone halves only.
const UNSTORABLE = /\0|\p{Surrogate}/u;

/**
 * The one text form of a JSON value, as RFC 8785 (JSON Canonicalization Scheme) defines it: keys sorted by UTF-16 code units,
 * numbers as ECMAScript writes them, no white space. Properties that are undefined are left out, as JSON.stringify does.
 * Throws NotPlainJson for what JSON cannot say: NaN, infinity, big integers, undefined in an array, functions, class instances,
 * and for texts that a database cannot keep (NUL, lone surrogates).
 */
export function canonicalJson(value: unknown, path = ''): string {
  if (value === null || typeof value === 'boolean') return String(value);
  if (typeof value === 'string') return canonicalText(value, path);
  if (typeof value === 'number') return canonicalNumber(value, path);
  if (Array.isArray(value)) return `[${value.map((entry, index) => canonicalJson(entry, `${path}[${index}]`)).join(',')}]`;
  if (isPlainRecord(value)) return canonicalRecord(value, path);
  throw new NotPlainJson(path, `${typeof value === 'object' ? value.constructor?.name ?? 'an object' : typeof value} has no JSON form`);
}

function canonicalText(text: string, path: string): string {
  if (UNSTORABLE.test(text)) throw new NotPlainJson(path, 'a text with a NUL or half a surrogate pair cannot be kept');
  return JSON.stringify(text);
}

function canonicalNumber(number: number, path: string): string {
  if (!Number.isFinite(number)) throw new NotPlainJson(path, `${number} has no JSON form`);
  return JSON.stringify(number);
}

function canonicalRecord(record: Record<string, unknown>, path: string): string {
  const keys = Object.keys(record).filter((key) => record[key] !== undefined).sort();
  return `{${keys.map((key) => `${canonicalText(key, path)}:${canonicalJson(record[key], path === '' ? key : `${path}.${key}`)}`).join(',')}}`;
}

function isPlainRecord(value: unknown): value is Record<string, unknown> {
  if (typeof value !== 'object' || value === null) return false;
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === null || prototype === Object.prototype || Object.getPrototypeOf(prototype) === null;
}
