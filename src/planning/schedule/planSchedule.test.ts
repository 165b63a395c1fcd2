import { describe, expect, it } from 'vitest';
import { planSchedule } from './planSchedule.ts';
import type { ScheduleProblem, ScheduleStation, ScheduleVisit } from './scheduleProblem.ts';
import { validateSchedule } from './validateSchedule.ts';

/** A line of places 100 s apart: two stations, then berths. */
function line(stations: readonly ScheduleStation[], visits: readonly ScheduleVisit[], more: Partial<ScheduleProblem> = {}): ScheduleProblem {
  const n = 6;
  const way = Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_v, j) => 100 * Math.abs(i - j)));
  return {
    locations: ['fill', 'wash', 'N1', 'N2', 'N3', 'N4'], travelEmptyS: way, travelLoadedS: way, stations, visits,
    vehicles: [{ id: 'cart', startLocation: 0, availableFromS: 0, availableToS: 20_000, pickS: 10, dropS: 5 }], ...more,
  };
}
const station = (id: string, location: number, more: Partial<ScheduleStation> = {}): ScheduleStation =>
  ({ id, kind: id, location, places: 1, queuePlaces: 1, openFromS: 0, openToS: 20_000, ...more });
const visit = (id: string, berth: number, route: readonly (readonly [string, number])[], more: Partial<ScheduleVisit> = {}): ScheduleVisit => ({
  id, basin: `B-${id}`, startLocation: berth, endLocation: berth, releaseS: 0, priority: 1, must: false, why: 'a test',
  stops: route.map(([name, serviceS]) => ({ alternatives: [{ station: name, serviceS }] })), ...more });

describe('a plan by hand', () => {
  it('times one visit to the second, and its bound proves it', () => {
    const problem = line([station('fill', 0)], [visit('A', 3, [['fill', 600]])]);
    const plan = planSchedule(problem, { seed: 1, iterations: 50 });
    // Empty 300, lift 10, carry 300, set down 5, work 600, lift 10, carry 300, set down 5.
    expect(plan.finishS).toBe(1530);
    expect(plan.bound).toMatchObject({ finishS: 1530, binds: 'path of visit A' });
    expect(plan.gapPct).toBe(0);
    expect(plan.trips[0]).toMatchObject({ emptyDepartS: 0, pickS: 300, departS: 310, arriveS: 615, toStation: 'fill' });
    expect(plan.stops[0]).toMatchObject({ arriveS: 615, startS: 615, endS: 1215, leaveS: 1225 });
    expect(plan.visits[0]).toEqual({ visit: 'A', basin: 'B-A', leavesS: 310, backS: 1530, endLocation: 3, latenessS: 0 });
  });

  it('never works through a break', () => {
    const problem = line([station('fill', 0, { breaks: [{ fromS: 1000, toS: 2000 }] })], [visit('A', 3, [['fill', 600]])]);
    expect(planSchedule(problem, { seed: 1, iterations: 50 }).stops[0]).toMatchObject({ startS: 2000, endS: 2600 });
  });

  it('takes the station of a kind that is done first', () => {
    const two = { ...visit('A', 2, []), stops: [{ alternatives: [{ station: 'fill', serviceS: 600 }, { station: 'wash', serviceS: 450 }] }] };
    expect(planSchedule(line([station('fill', 0), station('wash', 1)], [two]), { seed: 1, iterations: 50 }).stops[0]?.station).toBe('wash');
  });

  it('leaves out what does not fit, the visits that must be made last, and says why', () => {
    const stations = [station('fill', 0, { openToS: 1500 })];
    const visits = [visit('A', 2, [['fill', 600]]), visit('B', 3, [['fill', 600]], { must: true }), visit('C', 4, [['fill', 2000]])];
    const plan = planSchedule(line(stations, visits), { seed: 1, iterations: 500 });
    expect(plan.visits.map((v) => v.visit)).toEqual(['B']);
    expect(plan.leftOut.map((v) => [v.visit, v.cause])).toEqual([['A', 'no time'], ['C', 'no time']]);
    expect(plan.leftOut[0]?.reason).toContain('opening hours');
  });

  it('leaves out a target when its source cannot be made, and plants after the source otherwise', () => {
    const target = { ...visit('T', 3, [['wash', 300]]), stops: [{ alternatives: [{ station: 'wash', serviceS: 300 }], after: [{ visit: 'S', stop: 0 }] }] };
    const stations = [station('fill', 0), station('wash', 1)];
    const good = planSchedule(line(stations, [target, visit('S', 2, [['wash', 200]])]), { seed: 1, iterations: 100 });
    const [source, planted] = [good.stops.find((s) => s.visit === 'S'), good.stops.find((s) => s.visit === 'T')];
    expect(planted?.arriveS).toBeGreaterThanOrEqual(source?.endS ?? Infinity);
    const bad = planSchedule(line(stations, [target, visit('S', 2, [['wash', 30_000]])]), { seed: 1, iterations: 100 });
    expect(bad.leftOut.map((v) => [v.visit, v.cause])).toEqual([['T', 'waits for a visit left out'], ['S', 'no time']]);
  });

  it('is not caught in a ring: basins that go from one full station to the other and back', () => {
    const stations = [station('fill', 0, { queuePlaces: 0 }), station('wash', 1, { queuePlaces: 0 })];
    const visits = [
      visit('A', 2, [['fill', 300], ['wash', 300]]), visit('B', 3, [['wash', 300], ['fill', 300]]),
      visit('C', 4, [['fill', 300], ['wash', 300]]), visit('D', 5, [['wash', 300], ['fill', 300]])];
    for (const vehicles of [1, 2, 4]) {
      const problem = line(stations, visits);
      const carts = Array.from({ length: vehicles }, (_, k) => ({ ...problem.vehicles[0]!, id: `cart-${k}` }));
      const plan = planSchedule({ ...problem, vehicles: carts }, { seed: 1, iterations: 400 });
      expect(plan.leftOut).toEqual([]);
      expect(validateSchedule({ ...problem, vehicles: carts }, plan)).toEqual([]);
    }
  });

  it('weighs lateness before the finish', () => {
    // Alone and at once B is back at 200 + 10 + 200 + 5 + 900 + 10 + 200 + 5.
    const visits = [visit('A', 5, [['fill', 900]]), visit('B', 2, [['fill', 900]], { dueS: 1530 }), visit('C', 3, [['fill', 900]])];
    const plan = planSchedule(line([station('fill', 0)], visits), { seed: 1, iterations: 1500 });
    expect(plan.visits.find((v) => v.visit === 'B')?.latenessS).toBe(0);
  });

  it('charges a vehicle before its battery is at the reserve', () => {
    const problem = line([station('fill', 0)], [visit('A', 5, [['fill', 100]]), visit('B', 4, [['fill', 100]])]);
    const battery = { capacityS: 2600, atStartS: 2000, reserveS: 100, chargeLocation: 0, gainSPerS: 10 };
    const charged = { ...problem, vehicles: problem.vehicles.map((v) => ({ ...v, battery })) };
    const plan = planSchedule(charged, { seed: 1, iterations: 200 });
    expect(plan.leftOut).toEqual([]);
    expect(plan.charges.length).toBeGreaterThan(0);
    expect(validateSchedule(charged, plan)).toEqual([]);
  });

  it('reports its progress and answers an empty day', () => {
    const seen: number[] = [];
    const problem = line([station('fill', 0)], [visit('A', 2, [['fill', 600]]), visit('B', 3, [['fill', 600]])]);
    planSchedule(problem, { seed: 1, iterations: 300, onProgress: (p) => seen.push(p.tried) });
    expect(seen.at(-1)).toBe(300);
    expect(planSchedule(line([station('fill', 0)], []), { seed: 1, iterations: 10 })).toMatchObject({ finishS: 0, gapPct: 0, trips: [] });
  });
});
