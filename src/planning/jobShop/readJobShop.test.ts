import { describe, expect, it } from 'vitest';
import { readJobShop } from './readJobShop.ts';

const good = {
  vehicles: 1, locations: ['LU', 'M1'], travelTime: [[0, 2], [3, 0]], startAt: 'LU', buffers: null,
  jobs: [{ id: 'J1', operations: [{ alternatives: [{ at: 'M1', duration: 4.5 }] }] }],
};

function refusalsOf(change: object): [string, string][] {
  const outcome = readJobShop({ ...good, ...change });
  if (outcome.ok) return [];
  for (const refusal of outcome.refusals) expect(refusal.message.length).toBeGreaterThan(20);
  return outcome.refusals.map(({ code, path }) => [code, path]);
}
const jobs = (alternatives: unknown) => ({ jobs: [{ id: 'J1', operations: [{ alternatives }] }] });

describe('readJobShop', () => {
  it('takes a plain file', () => {
    expect(readJobShop(good)).toMatchObject({ ok: true, warnings: [], value: { vehicles: 1, startAt: 'LU' } });
    expect(readJobShop({ vehicles: 0, locations: ['M1'], jobs: good.jobs }).ok).toBe(true);
    expect(readJobShop({ ...good, jobs: [] }).ok).toBe(true);
  });

  it.each<[string, object, [string, string][]]>([
    ['an unknown place', jobs([{ at: 'M9', duration: 1 }]), [['reference-unknown', 'jobs.0.operations.0.alternatives.0.at']]],
    ['a negative duration', jobs([{ at: 'M1', duration: -1 }]), [['value-out-of-range', 'jobs.0.operations.0.alternatives.0.duration']]],
    ['an endless duration', jobs([{ at: 'M1', duration: Infinity }]), [['value-not-a-number', 'jobs.0.operations.0.alternatives.0.duration']]],
    ['a duration in words', jobs([{ at: 'M1', duration: '4' }]), [['value-not-a-number', 'jobs.0.operations.0.alternatives.0.duration']]],
    ['no alternative', jobs([]), [['value-out-of-range', 'jobs.0.operations.0.alternatives']]],
    ['the same alternative twice', jobs([{ at: 'M1', duration: 1 }, { at: 'M1', duration: 2 }]), [['duplicate', 'jobs.0.operations.0.alternatives.1.at']]],
    ['a job without operations', { jobs: [{ id: 'J1', operations: [] }] }, [['value-out-of-range', 'jobs.0.operations']]],
    ['a job twice', { jobs: [...good.jobs, ...good.jobs] }, [['duplicate', 'jobs.1']]],
    ['a place twice', { locations: ['LU', 'LU'] }, [['duplicate', 'locations.1'], ['reference-unknown', 'jobs.0.operations.0.alternatives.0.at']]],
    ['a matrix that is not square', { travelTime: [[0, 2], [3]] }, [['value-out-of-range', 'travelTime.1']]],
    ['a matrix with a row too few', { travelTime: [[0, 2]] }, [['value-out-of-range', 'travelTime']]],
    ['a negative travel time', { travelTime: [[0, -2], [3, 0]] }, [['value-out-of-range', 'travelTime.0.1']]],
    ['no matrix with vehicles', { travelTime: undefined }, [['value-missing', 'travelTime']]],
    ['no start with vehicles', { startAt: null }, [['value-missing', 'startAt']]],
    ['an unknown start', { startAt: 'X' }, [['reference-unknown', 'startAt']]],
    ['half a vehicle', { vehicles: 1.5 }, [['value-not-allowed', 'vehicles']]],
    ['no vehicles named', { vehicles: undefined }, [['value-missing', 'vehicles']]],
    ['waiting places in a list', { buffers: [1, 1] }, [['value-not-allowed', 'buffers']]],
    ['half a waiting place', { buffers: { M1: 0.5 } }, [['value-not-allowed', 'buffers.M1']]],
    ['waiting places nowhere', { buffers: { M9: 1 } }, [['reference-unknown', 'buffers.M9']]],
    ['waiting places at the start', { buffers: { LU: 1 } }, [['value-not-allowed', 'buffers.LU']]],
    ['waiting places without vehicles', { vehicles: 0, buffers: { M1: 1 } }, [['value-not-allowed', 'buffers']]],
  ])('refuses %s', (_, change, expected) => { expect(refusalsOf(change)).toEqual(expected); });

  it('warns of what it does not read', () => {
    const outcome = readJobShop({ ...good, colour: 'blue', travelTime: [[1, 2], [3, 0]] });
    expect(outcome.ok && outcome.warnings.map(({ code, path }) => [code, path])).toEqual([['key-unknown', 'colour'], ['value-out-of-range', 'travelTime.0.0']]);
  });
});
