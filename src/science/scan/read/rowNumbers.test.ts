import { expect, test } from 'vitest';
import { startRandom } from '../../seededRandom.ts';
import { RowNumbers } from './rowNumbers.ts';

const read = (text: string, room = 16) => {
  const row = new RowNumbers(room);
  const bytes = new TextEncoder().encode(text);
  return row.read(bytes, 0, bytes.length) ? [...row.values.subarray(0, row.count)] : undefined;
};

test('20,000 numbers are read to the last bit as the language reads them', () => {
  const random = startRandom(9);
  for (let trial = 0; trial < 20_000; trial += 1) {
    const value = (random.uniform() - 0.5) * 10 ** (random.below(40) - 20);
    const text = [String(value), value.toFixed(6), value.toExponential(8), String(Math.fround(value))][trial % 4]!;
    expect(read(text)).toEqual([Number(text)]);
  }
});

test('gaps, signs and forms', () => {
  expect(read('  1\t-2.5  +3 .5 4. 1e3 -1.5E-2\r')).toEqual([1, -2.5, 3, 0.5, 4, 1000, -0.015]);
  expect(read('')).toEqual([]);
  expect(read('nan -inf Infinity 1.#IND')).toEqual([Number.NaN, Number.NaN, Number.NaN, Number.NaN]);
});

test('what is no number is refused, and so are more than there is room for', () => {
  for (const text of ['1 two', '1,5', '0x10', '1.2.3', '--1', '.', 'e5', '1e']) expect(read(text), text).toBeUndefined();
  expect(read('1 2 3', 2)).toBeUndefined();
});
