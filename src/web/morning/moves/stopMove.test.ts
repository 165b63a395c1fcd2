import { expect, it } from 'vitest';
import type { PlanSheet } from '../../../desk/contract.ts';
import { dragged, hasMoved, moveByKey, stationsLike, type StopMove } from './stopMove.ts';

const move: StopMove = { visit: 'V', basin: 'B001', stop: 0, station: 'a', startS: 3617, lengthS: 300, planned: { station: 'a', startS: 3617, track: 0 } };
const sheet = { timeline: { stations: [{ id: 'a', kind: 'filling' }, { id: 'w', kind: 'washing' }, { id: 'b', kind: 'filling' }] } } as unknown as PlanSheet;

it('moves by keys: a minute, five with Shift, to another station of the kind; along the time whichever way it runs', () => {
  const stations = stationsLike(sheet, 'a');
  expect(stations).toEqual(['a', 'b']);
  const by = (key: string, shift = false, runs: 'across' | 'down' = 'across') => moveByKey(move, key, shift, runs, stations);
  expect([by('ArrowRight')?.startS, by('ArrowLeft')?.startS, by('ArrowRight', true)?.startS]).toEqual([3660, 3540, 3900]);
  expect([by('ArrowDown')?.station, by('ArrowUp')?.station, by('x')]).toEqual(['b', 'a', undefined]);
  expect([by('ArrowDown', false, 'down')?.startS, by('ArrowRight', false, 'down')?.station]).toEqual([3660, 'b']);
  expect(by('ArrowDown')?.startS).toBe(3617);
});

it('is dragged to whole minutes, never before the day, and knows whether it moved', () => {
  expect(dragged(move, 100, 'b')).toMatchObject({ startS: 3720, station: 'b' });
  expect(dragged(move, -9000, 'a').startS).toBe(0);
  expect([hasMoved(move), hasMoved(dragged(move, 100, 'a')), hasMoved({ ...move, station: 'b' })]).toEqual([false, true, true]);
});
