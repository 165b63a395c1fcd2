import { expect, it } from 'vitest';
import { raisedTitles } from './raisedTitles.ts';

const station = (title: string, x: number, y = 0) => ({ id: title, title, kind: 'filling', atM: [x, y], stopsToday: 1 }) as unknown as Parameters<typeof raisedTitles>[0][number];

it('raises every second title of a row that is too narrow for its words, and none that has room', () => {
  expect([...raisedTitles([station('Transplanting', 0), station('Harvest', 5), station('Washing', 9)])]).toEqual(['Harvest']);
  expect([...raisedTitles([station('Transplanting', 0), station('Harvest', 7), station('Washing', 7, 5)])]).toEqual([]);
});
