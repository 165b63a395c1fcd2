import { describe, expect, it } from 'vitest';
import { bookedAt, bookFlows, EMPTY_BOOK, type WaterBook, type WaterFlow } from './waterBook.ts';

const DAY_MS = 86_400_000;
const START = Date.parse('2026-01-01T06:00:00Z');
const flow = (day: number, from: string, to: string, litres: number): WaterFlow => ({ at: new Date(START + day * DAY_MS).toISOString(), from, to, litres, mmol: { K: 2 * litres } });

describe('bookFlows', () => {
  it('keeps five weeks and sums up what is older, so that no place forgets what it holds', () => {
    let book: WaterBook = EMPTY_BOOK;
    for (let day = 0; day < 100; day++) book = bookFlows(book, [flow(day, 'tank:tap', 'basin:B1', 10), flow(day, 'basin:B1', 'crops', 4)]);
    expect(book.flows).toHaveLength(72);
    expect(bookedAt(book, 'basin:B1')).toEqual({ litres: 600, mmol: { K: 1200 } });
    expect(bookedAt(book, 'tank:tap')).toEqual({ litres: -1000, mmol: { K: -2000 } });
    expect(bookedAt(book, 'crops', START + 98 * DAY_MS).litres).toBe(396);
    expect(bookFlows(book, [])).toBe(book);
  });
});
