import { describe, expect, it } from 'vitest';
import { actualFields, readMark } from './readMark.ts';

const form = (fields: Record<string, string>) => { const is = new FormData(); for (const [name, value] of Object.entries(fields)) is.set(name, value); return is; };

describe('reading the form of a stop', () => {
  it('leaves out what was left empty', () => expect(readMark('done', 'siv', form({ volumeL: '', plants: ' ' }))).toEqual({ result: 'done', by: 'siv' }));
  it('takes what was different as numbers', () => expect(readMark('done', 'siv', form({ freshKg: '12.40', plants: '70' }))).toEqual({ result: 'done', by: 'siv', actual: { freshKg: 12.4, plants: 70 } }));
  it('takes the reason of a failure, trimmed', () => expect(readMark('failed', 'siv', form({ reason: ' pallet in the way ' }))).toEqual({ result: 'failed', by: 'siv', reason: 'pallet in the way' }));
  it('asks only what a station of that kind can know', () => {
    expect(actualFields('filling').map((is) => is.name)).toEqual(['volumeL']);
    expect(actualFields('harvest').map((is) => is.name)).toEqual(['freshKg', 'plants']);
    expect(actualFields('transplanting').map((is) => is.name)).toEqual(['plants']);
    expect([...actualFields('imaging'), ...actualFields('washing')]).toEqual([]);
  });
});
