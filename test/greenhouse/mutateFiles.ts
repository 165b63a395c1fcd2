import { startRandom, type RandomStream } from '../../src/science/seededRandom.ts';

type Files = Readonly<Record<string, string>>;

const TOKENS = [
  'NaN', '.nan', '.inf', '-.inf', '1e999', '-1', '0', '1e308', '99999999999999999999', '0x10', '1,5', '"', "'", '~', 'null', 'true', '[]', '{}', '[', '}', ': :', '- -', '#', '&a', '*a', '!!js/function x', '!!binary aGk=',
  '<<: *a', '? [a, b]', '__proto__', 'constructor', 'toString', '\0', '\uD800', '\u202E', '\u{1F331}', 'é', '\t', '\r', '\n', '\n\n---\n', ',', ';', '2026-02-30', '0000-00-00', '9999-12-31T23:59:60Z', '%YAML 9.9', '|', '>', '@', '`',
];

/** One seeded mutation of a folder: which files, and what was done to them in words. */
export function mutateFiles(files: Files, seed: number): { readonly files: Record<string, string>; readonly what: string } {
  const random = startRandom(seed);
  const paths = Object.keys(files).sort();
  const path = paths[random.below(paths.length)]!;
  const text = files[path]!;
  const [name, change] = CHANGES[random.below(CHANGES.length)]!;
  const changed = change(text, random);
  const { [path]: _, ...rest } = files;
  return { files: changed === undefined ? rest : { ...files, [path]: changed }, what: `${name} in ${path} (seed ${seed})` };
}

type Change = (text: string, random: RandomStream) => string | undefined;

const at = (text: string, random: RandomStream): number => random.below(text.length + 1);
const lineOf = (text: string, random: RandomStream): { lines: string[]; i: number } => { const lines = text.split('\n'); return { lines, i: random.below(Math.min(lines.length, 200)) }; };
const token = (random: RandomStream): string => TOKENS[random.below(TOKENS.length)]!;

/** Replaces one match of a pattern, among the first 400, so that heads of long tables are hit as often as their rows. */
function replaceOne(text: string, pattern: RegExp, random: RandomStream, by: (found: string) => string): string {
  const found = [...text.slice(0, 20_000).matchAll(pattern)].slice(0, 400);
  const one = found[random.below(Math.max(1, found.length))];
  return one === undefined ? text : text.slice(0, one.index) + by(one[0]) + text.slice(one.index + one[0].length);
}

const CHANGES: readonly (readonly [string, Change])[] = [
  ['a byte changed', (text, random) => { const i = at(text, random); return text.slice(0, i) + String.fromCharCode(random.below(256)) + text.slice(i + 1); }],
  ['a token put in', (text, random) => { const i = at(text, random); return text.slice(0, i) + token(random) + text.slice(i); }],
  ['a token put in near the head', (text, random) => { const i = random.below(Math.min(text.length, 600)); return text.slice(0, i) + token(random) + text.slice(i); }],
  ['a number replaced', (text, random) => replaceOne(text, /\b\d+(\.\d+)?\b/g, random, () => token(random))],
  ['a number made huge', (text, random) => replaceOne(text, /\b\d+(\.\d+)?\b/g, random, (found) => `${found}${'0'.repeat(1 + random.below(30))}`)],
  ['a number made negative', (text, random) => replaceOne(text, /\b\d+(\.\d+)?\b/g, random, (found) => `-${found}`)],
  ['a word replaced', (text, random) => replaceOne(text, /[A-Za-z]{3,}/g, random, () => token(random))],
  ['a word misspelled', (text, random) => replaceOne(text, /[A-Za-z]{4,}/g, random, (found) => found.slice(1) + found.charAt(0))],
  ['a line removed', (text, random) => { const { lines, i } = lineOf(text, random); return [...lines.slice(0, i), ...lines.slice(i + 1)].join('\n'); }],
  ['a line doubled', (text, random) => { const { lines, i } = lineOf(text, random); return [...lines.slice(0, i), lines[i]!, ...lines.slice(i)].join('\n'); }],
  ['two lines swapped', (text, random) => { const { lines, i } = lineOf(text, random); const j = random.below(lines.length); [lines[i], lines[j]] = [lines[j]!, lines[i]!]; return lines.join('\n'); }],
  ['cut off', (text, random) => text.slice(0, at(text, random))],
  ['emptied', () => ''],
  ['removed', () => undefined],
  ['a value made a list', (text, random) => replaceOne(text, /: [^\n{[]+/g, random, (found) => `: [${found.slice(2)}]`)],
  ['a value made a map', (text, random) => replaceOne(text, /: [^\n{[]+/g, random, () => ': { a: { b: { c: 1 } } }')],
  ['a key doubled', (text, random) => replaceOne(text, /^[a-zA-Z]+:[^\n]*\n/gm, random, (found) => found + found)],
  ['a key removed', (text, random) => replaceOne(text, /[a-zA-Z0-9]+: [^\n,}]+,?/g, random, () => '')],
  ['anchors that multiply', (text) => `a: &a [x, x, x, x, x, x, x, x, x]\n${'bcdefghi'.split('').map((key, i) => `${key}: &${key} [${Array.from({ length: 9 }, () => `*${'abcdefgh'[i]}`).join(', ')}]`).join('\n')}\n${text}`],
  ['an anchor that holds itself', (text) => `loop: &loop\n  again: *loop\n${text}`],
  ['deep nesting', (text) => `${text}\nx: ${'['.repeat(5000)}`],
  ['a byte order mark and other line ends', (text) => `\uFEFF${text.replaceAll('\n', '\r\n')}`],
  ['old line ends', (text) => text.replaceAll('\n', '\r')],
  ['semicolons for commas', (text) => text.replaceAll(',', ';')],
  ['a quote left open', (text, random) => replaceOne(text, /,/g, random, () => ',"')],
  ['a block repeated', (text, random) => { const i = at(text, random); const j = Math.min(text.length, i + 200); return text.slice(0, j) + text.slice(i, j) + text.slice(j); }],
];
