import { describe, expect, it } from 'vitest';
import { planSchedule } from './planSchedule.ts';
import { listChanges, replanSchedule } from './replanSchedule.ts';
import type { ScheduleProblem } from './scheduleProblem.ts';
import { validateSchedule } from './validateSchedule.ts';

const way = Array.from({ length: 14 }, (_, i) => Array.from({ length: 14 }, (_v, j) => 15 * Math.abs(i - j)));
const problem: ScheduleProblem = {
  locations: way.map((_, i) => `L${i}`), travelEmptyS: way, travelLoadedS: way,
  stations: [
    { id: 'fill-1', kind: 'fill', location: 0, places: 1, queuePlaces: 1, openFromS: 0, openToS: 20_000 },
    { id: 'fill-2', kind: 'fill', location: 1, places: 1, queuePlaces: 1, openFromS: 0, openToS: 20_000 }],
  vehicles: [
    { id: 'cart-1', startLocation: 0, availableFromS: 0, availableToS: 20_000, pickS: 10, dropS: 10 },
    { id: 'cart-2', startLocation: 1, availableFromS: 0, availableToS: 20_000, pickS: 10, dropS: 10 }],
  visits: Array.from({ length: 12 }, (_, i) => ({
    id: `V${i}`, basin: `B${i}`, startLocation: 2 + i, endLocation: 2 + i, releaseS: 0, priority: 1, must: i < 3, why: 'a test',
    stops: [{ alternatives: [{ station: 'fill-1', serviceS: 500 }, { station: 'fill-2', serviceS: 500 }] }] })),
};
const plan = planSchedule(problem, { seed: 1, iterations: 1000 });

function at(nowS: number): ScheduleProblem {
  const trips = plan.trips.filter((t) => t.emptyDepartS < nowS);
  const stops = plan.stops.filter((s) => s.startS < nowS).map(({ leaveS, ...s }) =>
    (trips.some((t) => t.visit === s.visit && t.leg === 1) ? { ...s, leaveS } : s));
  return { ...problem, frozen: { nowS, trips, stops } };
}

describe('planning the rest of a day again', () => {
  it('changes nothing when nothing happened', () => {
    const next = replanSchedule(at(1500), plan, { seed: 1, iterations: 300 });
    expect(listChanges(plan, next, 1500)).toEqual([]);
    expect(next.finishS).toBeLessThanOrEqual(plan.finishS);
  });

  it('moves the work of a station that fails, keeps what is under way, and lists the difference', () => {
    const broken = at(1500);
    const failed = { ...broken, stations: broken.stations.map((s) => (s.id === 'fill-2' ? { ...s, breaks: [{ fromS: 1500, toS: 20_000 }] } : s)) };
    const next = replanSchedule(failed, plan, { seed: 1, iterations: 300 });
    expect(validateSchedule(failed, next)).toEqual([]);
    const changes = listChanges(plan, next, 1500);
    expect(changes.some((c) => c.kind === 'other station' && c.station === 'fill-1')).toBe(true);
    expect(next.stops.filter((s) => s.station === 'fill-2').every((s) => s.startS < 1500)).toBe(true);
  });

  it('gives up a basin that waits at a station that will not open again: it goes home', () => {
    const waiting = plan.stops.find((s) => s.startS - s.arriveS > 60);
    if (waiting === undefined) throw new Error('no basin waits in this plan');
    const nowS = waiting.startS - 10;
    const broken = at(nowS);
    const failed = { ...broken, stations: broken.stations.map((s) => (s.id === waiting.station ? { ...s, breaks: [{ fromS: nowS, toS: 20_000 }] } : s)) };
    const next = replanSchedule(failed, plan, { seed: 1, iterations: 100 });
    expect(validateSchedule(failed, next)).toEqual([]);
    expect(next.leftOut).toContainEqual(expect.objectContaining({ visit: waiting.visit, stopsMade: 0 }));
    expect(next.trips.filter((t) => t.visit === waiting.visit).map((t) => t.leg)).toEqual([0, 1]);
  });

  it('counts a change for what it costs: with dear changes fewer stops move', () => {
    const broken = at(800);
    const late = { ...broken, vehicles: broken.vehicles.map((v, k) => (k === 1 ? { ...v, availableFromS: 4000 } : v)) };
    const cheap = replanSchedule(late, plan, { seed: 1, iterations: 1500, changeCostS: 0 });
    const dear = replanSchedule(late, plan, { seed: 1, iterations: 1500, changeCostS: 2000 });
    expect(listChanges(plan, dear, 800).length).toBeLessThanOrEqual(listChanges(plan, cheap, 800).length);
  });
});
