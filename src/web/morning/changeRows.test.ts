import { expect, it } from 'vitest';
import type { PlanSheet } from '../../desk/contract.ts';
import { changeRows } from './changeRows.ts';

const sheet = (starts: Readonly<Record<string, string>>, leftOut: PlanSheet['leftOut'] = []) => ({
  visits: Object.entries(starts).map(([visit, startAt]) => ({ visit, basin: `basin of ${visit}`, reason: 'its water is old', stops: [{ startAt }] })), leftOut,
}) as unknown as PlanSheet;

it('sets told and new times side by side, in the order of the day, each with its reason', () => {
  const told = sheet({ A: '2026-11-25T07:00:00Z', B: '2026-11-25T08:00:00Z', C: '2026-11-25T06:30:00Z' });
  const next = sheet({ A: '2026-11-25T07:20:00Z', D: '2026-11-25T07:10:00Z' }, [{ visit: 'B', basin: 'basin of B', must: false, what: '', reason: 'no time' }]);
  const moved = [{ visit: 'A', fromAt: '2026-11-25T07:00:00Z', toAt: '2026-11-25T07:20:00Z' }];
  expect(changeRows({ added: ['D'], dropped: ['B', 'C'], moved, sentence: '' }, told, next)).toEqual([
    { visit: 'C', basin: 'basin of C', toldAt: '2026-11-25T06:30:00Z', why: 'dropped: not in the newer plan' },
    { visit: 'D', basin: 'basin of D', newAt: '2026-11-25T07:10:00Z', why: 'new: its water is old' },
    { visit: 'A', basin: 'basin of A', toldAt: '2026-11-25T07:00:00Z', newAt: '2026-11-25T07:20:00Z', why: '20 minutes later' },
    { visit: 'B', basin: 'basin of B', toldAt: '2026-11-25T08:00:00Z', why: 'dropped: no time' },
  ]);
});
