import type { RandomStream } from '../../src/science/seededRandom.ts';

/** Texts that people, programs and bad discs put where a number or a name should be. */
const ODDITIES = [
  'NaN', 'Infinity', '-Infinity', '1e999', '-1', '0', '99999999999999999999', '0x1F', '1,5', '', '~', 'null', 'true', '[]', '{}', '""', '"', "'", '\u0000', '\uFEFF', '\u202E',
  '💧', '../../etc', '<script>', '=1+1', '*a', '&a [*a]', '!!js/function x', '- - - -', '{{', ': :', '\t', '\r', '#', '%', '`', '2026-13-45', '2026-02-30', '25:61', 'B999999', 'butterhaed', 'é'.repeat(400), '9'.repeat(400),
] as const;

/** One seeded damage to a text, named for the report. */
export function mutateText(text: string, random: RandomStream): { readonly text: string; readonly how: string } {
  const [how, change] = DAMAGES[random.below(DAMAGES.length)]!;
  return { text: change(text, random), how };
}

type Damage = (text: string, random: RandomStream) => string;
const DAMAGES: readonly (readonly [string, Damage])[] = [
  ['cut off', (text, random) => text.slice(0, random.below(text.length + 1))],
  ['a byte changed', (text, random) => splice(text, random.below(text.length), 1, String.fromCharCode(random.below(256)))],
  ['a token replaced', (text, random) => replaceToken(text, random, oddity(random))],
  ['a token replaced', (text, random) => replaceToken(text, random, oddity(random))],
  ['a number replaced', (text, random) => replaceMatch(text, random, /-?\d+(\.\d+)?/g, oddity(random))],
  ['a number scaled', (text, random) => replaceMatch(text, random, /-?\d+(\.\d+)?/g, (found) => String(Number(found) * (random.uniform() < 0.5 ? 1e6 : -1)))],
  ['a line removed', (text, random) => withLines(text, (lines) => lines.splice(random.below(lines.length), 1))],
  ['a line doubled', (text, random) => withLines(text, (lines) => { const at = random.below(lines.length); lines.splice(at, 0, lines[at]!); })],
  ['two lines swapped', (text, random) => withLines(text, (lines) => { const [a, b] = [random.below(lines.length), random.below(lines.length)]; [lines[a], lines[b]] = [lines[b]!, lines[a]!]; })],
  ['a line indented', (text, random) => withLines(text, (lines) => { const at = random.below(lines.length); lines[at] = `   ${lines[at]}`; })],
  ['something inserted', (text, random) => splice(text, random.below(text.length), 0, oddity(random))],
  ['a block moved', (text, random) => { const from = random.below(text.length); const length = random.below(200); return splice(splice(text, from, length, ''), random.below(Math.max(1, text.length - length)), 0, text.slice(from, from + length)); }],
  ['a key misspelt', (text, random) => replaceMatch(text, random, /[A-Za-z]{4,}(?=[:,])/g, (found) => found.slice(0, -1))],
  ['aliases of aliases', (text) => `${text}\nbomb: &a [x, x]\nbomb2: &b [*a, *a, *a, *a, *a, *a, *a, *a, *a]\nbomb3: &c [*b, *b, *b, *b, *b, *b, *b, *b, *b]\nbomb4: [*c, *c, *c, *c, *c, *c, *c, *c, *c]\n`],
  ['nested deeply', (text) => `${text}\n${'['.repeat(3000)}`],
  ['emptied', () => ''],
];

const oddity = (random: RandomStream) => ODDITIES[random.below(ODDITIES.length)]!;
const splice = (text: string, at: number, remove: number, insert: string) => text.slice(0, at) + insert + text.slice(at + remove);
const replaceToken: (text: string, random: RandomStream, by: string) => string = (text, random, by) => replaceMatch(text, random, /[^\s,:{}[\]]+/g, by);

function replaceMatch(text: string, random: RandomStream, pattern: RegExp, by: string | ((found: string) => string)): string {
  const found = [...text.matchAll(pattern)];
  const one = found[random.below(Math.max(1, found.length))];
  return one === undefined ? text : splice(text, one.index, one[0].length, typeof by === 'string' ? by : by(one[0]));
}

function withLines(text: string, change: (lines: string[]) => void): string {
  const lines = text.split('\n');
  change(lines);
  return lines.join('\n');
}
