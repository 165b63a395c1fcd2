import { describe, expect, it } from 'vitest';
import { boundOfHours, boundOfPlaces, boundOfSets } from './stationBound.ts';

const work = (headS: number, workS: number, tailS: number) => ({ headS, workS, tailS });

describe('bounds from the load of stations', () => {
  it('give Carlier’s optimum on his worked example of one machine', () => {
    // Carlier 1982, EJOR 11:42-47, example: heads, times, tails of 7 tasks; preemptive bound 49 (from memory, unverified: recomputed by hand here).
    const tasks = [work(10, 5, 7), work(13, 6, 26), work(11, 7, 24), work(20, 4, 21), work(30, 3, 8), work(0, 6, 17), work(30, 2, 0)];
    expect(boundOfSets(tasks, 1)).toBe(49);
  });

  it('share the work among places, rounded up', () => {
    expect(boundOfSets([work(5, 10, 2), work(5, 11, 2)], 2)).toBe(5 + 11 + 2);
    expect(boundOfSets([], 2)).toBe(0);
  });

  it('give each place its own first and last work', () => {
    // Two places: heads 0 + 20, work 20, tails 0 + 4, halved.
    expect(boundOfPlaces([work(0, 10, 0), work(20, 10, 4)], 2, 2, 0)).toBe(22);
    // Without the earliest head it is more: heads 20 + 20, work 20, tails 4 + 4, halved.
    expect(boundOfPlaces([work(0, 10, 0), work(20, 10, 4), work(20, 10, 4)], 2, 2, 0)).toBe(34);
  });

  it('let one carrier bring only one basin at a time', () => {
    const tasks = [work(10, 10, 5), work(10, 10, 5)];
    // Second delivery and second removal 6 s apart from the first: (10 + 16 + 20 + 5 + 11) / 2.
    expect(boundOfPlaces(tasks, 2, 1, 6)).toBe(31);
  });

  it('skip the hours in which a station is closed', () => {
    const hours = [{ places: 2, open: [{ fromS: 0, toS: 50 }, { fromS: 80, toS: 200 }] }];
    expect(boundOfHours([work(10, 60, 7), work(20, 40, 9)], hours)).toBe(10 + 40 + 30 + 10 + 7);
    expect(boundOfHours([], hours)).toBe(0);
  });
});
