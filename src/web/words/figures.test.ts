import { describe, expect, it } from 'vitest';
import { asSentence, bare, chance, count, fixed, grams, litres, plain, unitWord } from './figures.ts';

const N = '\u202f';

describe('figures as a person reads them', () => {
  it('keeps three significant figures and never writes powers of ten', () => {
    expect([0.000123456, 0.0456, 1.005, 12.34, 123.4, 123456].map((value) => plain(value))).toEqual(['0.000123', '0.0456', '1.00', '12.3', '123', `123${N}456`]);
    expect(plain(0)).toBe('0');
    expect(plain(Number.NaN)).toBe('not known');
  });
  it('drops zeros that say nothing from counts', () => expect([175, 49.5, 12345].map(bare)).toEqual(['175', '49.5', `12${N}345`]));
  it('lines columns up', () => expect([fixed(1.005, 2), fixed(12000, 1), fixed(1200, 1)]).toEqual(['1.00', `12${N}000.0`, '1200.0']));
  it('writes litres and grams with the figures that a person can measure', () => {
    expect([litres(1.4234), litres(71.52), grams(3.21), grams(142.4)]).toEqual([`1.42${N}L`, `71.5${N}L`, `3.2${N}g`, `142${N}g`]);
  });
  it('claims no certainty that a chance does not have', () => {
    expect([0, 0.004, 0.0051, 0.5, 0.994, 0.996, 1].map(chance)).toEqual([`under 1${N}%`, `under 1${N}%`, `1${N}%`, `50${N}%`, `99${N}%`, `over 99${N}%`, `over 99${N}%`]);
  });
  it('ends words as a sentence, once', () => expect(['not imaged for 8 d', 'Ready. ', ''].map(asSentence)).toEqual(['Not imaged for 8 d.', 'Ready.', '']));
  it('counts one and many', () => expect([count(1, 'stop'), count(2, 'stop'), count(0, 'berth is', 'berths are')]).toEqual(['1\u00a0stop', '2\u00a0stops', '0\u00a0berths are']));
});

describe('units of orders', () => {
  it.each([['head', 1, 'head'], ['head', 12, 'heads'], ['bunch', 1, 'bunch'], ['bunch', 6, 'bunches'], ['kg', 2.5, 'kg']])('%s, %d', (unit, number, word) => {
    expect(unitWord(unit, number)).toBe(word);
  });
});
