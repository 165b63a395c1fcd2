import { describe, expect, it } from 'vitest';
import type { Floor } from '../../greenhouse/state.ts';
import { basinExtent, berthPlaces } from './berthPlaces.ts';

const floor = (berths: Floor['berths']): Floor => ({ nodes: { a: { xM: 10, yM: 2 }, b: { xM: 10, yM: 4 } }, edges: [], berths });

describe('places of berths', () => {
  it('puts a berth on a node of its own, north up', () => {
    expect(berthPlaces(floor([{ id: '1', node: 'a', bay: 'x' }, { id: '2', node: 'b', bay: 'x' }]), 2.4)).toEqual(new Map([['1', [10, -2]], ['2', [10, -4]]]));
  });
  it('puts berths that share an aisle node left and right of the aisle: half a basin and half an aisle away', () => {
    expect(berthPlaces(floor([{ id: '1', node: 'a', bay: 'x' }, { id: '2', node: 'a', bay: 'x' }]), 2.4)).toEqual(new Map([['1', [10 - 2.1, -2]], ['2', [10 + 2.1, -2]]]));
  });
});

describe('which way round a basin is drawn', () => {
  const rows = (dx: number, dy: number): [number, number][] => [[0, 0], [dx, 0], [0, dy], [dx, dy]];
  it('lengthwise where that fits', () => expect(basinExtent(rows(3, 1.5), 2.4, 1.2)).toEqual([2.4, 1.2]));
  it('crosswise where only that fits', () => expect(basinExtent(rows(1.5, 3), 2.4, 1.2)).toEqual([1.2, 2.4]));
  it('lengthwise where neither fits or nothing stands beside it', () => {
    expect(basinExtent(rows(1, 1), 2.4, 1.2)).toEqual([2.4, 1.2]);
    expect(basinExtent([[0, 0]], 2.4, 1.2)).toEqual([2.4, 1.2]);
  });
});
