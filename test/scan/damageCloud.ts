import type { RandomStream } from '../../src/science/seededRandom.ts';
import { join } from './writeClouds.ts';

const HEADER = 400;
const HUGE = ['0', '-1', '1e9', '4294967295', '4294967296', '99999999999999999999', '999999999', '1.5', 'NaN', '30000000', ''];
const WORDS = ['x', 'y', 'z', 'red', 'float', 'double', 'uchar', 'list', 'vertex', 'element', 'property', 'F', 'U', 'I', '4', '8', '2', 'ascii', 'binary', 'binary_compressed', 'binary_little_endian', 'end_header', 'DATA', 'COUNT', 'nan', 'inf'];

type Damage = (bytes: Uint8Array, random: RandomStream) => Uint8Array;

const inHeader = (bytes: Uint8Array, random: RandomStream) => random.below(Math.min(HEADER, bytes.length));

/** Replaces a word of the header that fits, by another. */
const replaceWord = (bytes: Uint8Array, random: RandomStream, pattern: RegExp, by: readonly string[]): Uint8Array => {
  const head = Buffer.from(bytes.subarray(0, HEADER)).toString('latin1');
  const found = [...head.matchAll(pattern)];
  const one = found[random.below(Math.max(1, found.length))];
  if (one === undefined) return bytes;
  const replaced = head.slice(0, one.index) + by[random.below(by.length)]! + head.slice(one.index + one[0].length);
  return join([replaced, bytes.subarray(HEADER)]);
};

/** Ways in which files go wrong on their way, and some that only malice thinks of. */
export const DAMAGES: Readonly<Record<string, Damage>> = {
  'cut short': (bytes, random) => bytes.slice(0, random.below(bytes.length)),
  'last byte lost': (bytes) => bytes.slice(0, -1),
  'bytes added': (bytes, random) => join([bytes, new Uint8Array(1 + random.below(40)).fill(random.below(256))]),
  'piece lost': (bytes, random) => {
    const at = random.below(bytes.length);
    return join([bytes.subarray(0, at), bytes.subarray(at + 1 + random.below(100))]);
  },
  'bytes flipped': (bytes, random) => {
    const changed = bytes.slice();
    for (let i = 1 + random.below(8); i > 0; i -= 1) changed[random.below(changed.length)]! ^= 1 << random.below(8);
    return changed;
  },
  'header flipped': (bytes, random) => {
    const changed = bytes.slice();
    for (let i = 1 + random.below(3); i > 0; i -= 1) changed[inHeader(changed, random)] = random.below(256);
    return changed;
  },
  'header number changed': (bytes, random) => replaceWord(bytes, random, /\d+/g, [...HUGE, String(random.below(3000))]),
  'header word changed': (bytes, random) => replaceWord(bytes, random, /[A-Za-z_]+/g, WORDS),
  'points not finite': (bytes, random) => {
    const changed = bytes.slice();
    const at = HEADER + random.below(changed.length - HEADER - 8);
    changed.fill(255, at, at + 8);
    return changed;
  },
  'block zeroed': (bytes, random) => {
    const changed = bytes.slice();
    const at = random.below(changed.length);
    return changed.fill(0, at, Math.min(changed.length, at + 1 + random.below(4096)));
  },
};
