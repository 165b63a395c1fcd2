import { describe, expect, it } from 'vitest';
import type { GreenhouseEvent } from '../../src/greenhouse/events.ts';
import type { SampleRow } from '../../src/greenhouse/schema/tableRows.ts';
import { weighedPlants } from '../../src/planning/imaging/weighedPlants.ts';
import { inventPlants, inventScan } from './inventScan.ts';

const plants = inventPlants();
let count = 0;
const event = (kind: string, body: unknown, more: object = {}): GreenhouseEvent => ({ kind, body, id: `e${++count}`, sequence: count, happenedAt: '2026-03-02T10:00:00.000Z', recordedAt: '2026-03-02T10:00:00.000Z', ...more }) as unknown as GreenhouseEvent;
const scanned = (change: Parameters<typeof inventScan>[1] = {}, of = plants) => event('scan-measured', inventScan(of, change));
const weighed = (row: Partial<SampleRow> = {}) => event('sample-taken', { row: { date: '2026-03-01', lot: 'L1', plant: 1, freshG: 120, ...row } });
const traitsOf = (i: number) => ({ areaMm2: plants[i]!.areaMm2, volumeMm3: plants[i]!.volumeMm3, heightP95Mm: 60 });
const close = (traits: Readonly<Record<string, number>>) => Object.fromEntries(Object.entries(traits).map(([name, value]) => [name, expect.closeTo(value, -1)]));

describe('samples joined to scans', () => {
  it('a sample that names its place is that plant', () => {
    const { samples, sums } = weighedPlants([scanned(), weighed({ basin: 'B001', raft: 2, position: 3 })]);
    expect(samples).toEqual([{ cultivar: 'butterhead', ageDays: 30, occasion: '2026-03-01', massG: 120, traits: close(traitsOf(14)) }]);
    expect(sums).toEqual([]);
  });

  it('one that does not is a plant of middling size', () => {
    const [sample] = weighedPlants([scanned(), weighed()]).samples, areas = plants.map(({ areaMm2 }) => areaMm2).sort((a, b) => a - b);
    expect(sample!.traits.areaMm2).toBeCloseTo(areas[12]!, -1);
  });

  it('of two scans the nearer in time tells the size', () => {
    const larger = inventPlants(1, 2), events = [scanned({ takenAt: '2026-02-28T08:00:00.000Z' }), scanned({ takenAt: '2026-03-02T00:00:00.000Z' }, larger), weighed({ raft: 1, position: 1 })];
    expect(weighedPlants(events).samples[0]!.traits.volumeMm3).toBeCloseTo(larger[0]!.volumeMm3, -1);
  });

  it.each<[string, GreenhouseEvent[]]>([
    ['another lot', [scanned(), weighed({ lot: 'L2' })]],
    ['another basin', [scanned(), weighed({ basin: 'B002' })]],
    ['a scan two days away', [scanned({ takenAt: '2026-02-27T12:00:00.000Z' }), weighed()]],
    ['a place at which nothing grows', [scanned({}, plants.slice(1)), weighed({ raft: 1, position: 1 })]],
    ['no weight', [scanned(), weighed({ freshG: 0 })]],
    ['no scan', [weighed()]],
  ])('%s teaches nothing', (_, events) => expect(weighedPlants(events)).toEqual({ samples: [], sums: [] }));

  it('keeps the last forty days', () => {
    const day = (i: number) => new Date(Date.UTC(2026, 0, 1 + i)).toISOString();
    const events = Array.from({ length: 50 }, (_, i) => [scanned({ takenAt: day(i) }), weighed({ date: day(i).slice(0, 10) })]).flat();
    const { samples } = weighedPlants(events);
    expect([samples.length, samples[0]!.occasion]).toEqual([40, day(10).slice(0, 10)]);
  });
});

describe('harvests joined to scans', () => {
  const plan = (planId = 'p1') => event('plan-approved', { plan: { planId, visits: [{ visit: 'v1', basin: 'B001', stops: [{ stop: 's1', effect: { kind: 'harvest', lot: 'L1' } }, { stop: 's2', effect: { kind: 'image' } }] }] } });
  const done = (actual: object = { freshKg: 3.1 }, more: object = {}) => event('stop-done', { planId: 'p1', visit: 'v1', stop: 's1', actual, ...more });

  it('the weight of a harvest is the sum of the plants of the last scan before it', () => {
    const { sums } = weighedPlants([scanned(), scanned({ takenAt: '2026-03-02T11:00:00.000Z' }, plants.slice(5)), plan(), done()]);
    expect(sums).toHaveLength(1);
    expect(sums[0]!.massG).toBeCloseTo(3100, 6);
    expect(sums[0]!.plants).toHaveLength(24);
    expect(sums[0]!.plants[3]).toEqual({ cultivar: 'butterhead', ageDays: 30, occasion: '2026-03-02', traits: close(traitsOf(3)) });
  });

  it('nothing is learnt from a mark that was corrected, of another plan or stop, without weight, or long after the scan', () => {
    const mark = done();
    const cases: GreenhouseEvent[][] = [
      [scanned(), plan(), mark, event('stop-corrected', { planId: 'p1', visit: 'v1', stop: 's1', now: 'open', reason: 'another basin' }, { corrects: mark.id })],
      [scanned(), plan('p2'), done()], [scanned(), plan(), done({ freshKg: 3 }, { stop: 's2' })], [scanned(), plan(), done({})], [scanned(), plan(), done({ freshKg: 0 })],
      [scanned({ takenAt: '2026-02-27T08:00:00.000Z' }), plan(), done()], [plan(), done()],
    ];
    for (const events of cases) expect(weighedPlants(events).sums).toEqual([]);
  });
});
