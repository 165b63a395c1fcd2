import { expect, it } from 'vitest';
import { readLayout } from './readLayout.ts';

const raft = { id: 'A', centreMm: [-321, 0], sizeMm: 630, positions: [{ id: 1, xMm: -75, yMm: 75 }] };
const layout = { unit: 'mm', rimHeightMm: 60, innerMm: 1300, rafts: [raft] };
const codes = (json: unknown) => { const read = readLayout(json, 'layout.json'); return read.ok ? [] : read.refusals.map((refusal) => `${refusal.code} ${refusal.path}`); };

it('reads squares and rectangles', () => {
  const read = readLayout({ ...layout, innerMm: [1300, 1400] }, 'layout.json');
  expect(read.ok && [read.value.innerMm, read.value.rafts[0]!.sizeMm]).toEqual([[1300, 1400], [630, 630]]);
});

it.each([
  [undefined, 'value-missing layout.json'],
  [{ ...layout, rimHeightMm: '60' }, 'value-not-a-number layout.json: rimHeightMm'],
  [{ ...layout, unit: 'm' }, 'value-not-allowed layout.json: unit'],
  [{ ...layout, rafts: [] }, 'value-out-of-range layout.json: rafts'],
  [{ ...layout, rafts: [raft, raft] }, 'duplicate layout.json: rafts'],
  [{ ...layout, rafts: [{ ...raft, centreMm: [900, 0] }] }, 'inconsistent layout.json: rafts[0]'],
  [{ ...layout, rafts: [{ ...raft, positions: [{ id: 1, xMm: 400, yMm: 0 }] }] }, 'value-out-of-range layout.json: rafts[0].positions[0].xMm'],
])('refuses %j', (json, expected) => expect(codes(json)).toContain(expected));
