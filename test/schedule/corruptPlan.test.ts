/** Every kind of rule is broken on purpose: both the independent verifier and the planner's own validator must notice. */
import { describe, expect, it } from 'vitest';
import { planSchedule } from '../../src/planning/schedule/planSchedule.ts';
import type { Schedule } from '../../src/planning/schedule/schedule.ts';
import type { ScheduledStop, ScheduledTrip, ScheduleProblem } from '../../src/planning/schedule/scheduleProblem.ts';
import { validateSchedule } from '../../src/planning/schedule/validateSchedule.ts';
import { freezeAt, randomDay } from './randomDay.ts';
import { verifySchedule } from './verifySchedule.ts';

const travel = [[0, 30, 60, 60, 90], [30, 0, 30, 60, 60], [60, 30, 0, 30, 60], [60, 60, 30, 0, 30], [90, 60, 60, 30, 0]];
const problem: ScheduleProblem = {
  locations: ['fill', 'wash', 'N1', 'N2', 'N3'], travelEmptyS: travel, travelLoadedS: travel,
  stations: [
    { id: 'fill-1', kind: 'fill', location: 0, places: 1, queuePlaces: 0, openFromS: 0, openToS: 9000, breaks: [{ fromS: 4000, toS: 4600 }], crew: 'hands' },
    { id: 'wash-1', kind: 'wash', location: 1, places: 1, queuePlaces: 1, openFromS: 0, openToS: 9000, crew: 'hands' },
  ],
  crews: [{ id: 'hands', people: 1, fromS: 0, toS: 8000 }],
  vehicles: [
    { id: 'cart-1', startLocation: 0, availableFromS: 0, availableToS: 9000, pickS: 20, dropS: 10, battery: { capacityS: 1500, atStartS: 700, reserveS: 60, chargeLocation: 0, gainSPerS: 2 } },
    { id: 'cart-2', startLocation: 1, availableFromS: 0, availableToS: 9000, pickS: 20, dropS: 10 },
  ],
  berths: [{ location: 4, places: 1, takenAtStart: 1 }, { location: 3, places: 1, takenAtStart: 0 }],
  visits: [
    { id: 'A', basin: 'B1', startLocation: 2, endLocation: 2, releaseS: 100, deadlineS: 8000, priority: 1, must: true, why: 'level low', stops: [
      { alternatives: [{ station: 'wash-1', serviceS: 300 }] }, { alternatives: [{ station: 'fill-1', serviceS: 600 }], after: [{ visit: 'C', stop: 0 }] }] },
    { id: 'B', basin: 'B2', startLocation: 2, endLocation: 2, releaseS: 0, dueS: 1200, priority: 2, must: false, why: 'image due', stops: [
      { alternatives: [{ station: 'fill-1', serviceS: 400 }], notBeforeS: 200, endByS: 6000 }] },
    { id: 'C', basin: 'B3', startLocation: 4, endLocation: 3, releaseS: 0, priority: 1, must: false, why: 'wash due', stops: [
      { alternatives: [{ station: 'wash-1', serviceS: 300 }] }] },
  ],
};
const schedule = planSchedule(problem, { seed: 1, iterations: 500 });

type Plan = { -readonly [K in keyof Schedule]: Schedule[K] };
type Trip = { -readonly [K in keyof ScheduledTrip]: ScheduledTrip[K] };
type Stop = { -readonly [K in keyof ScheduledStop]: ScheduledStop[K] };
const trip = (plan: Plan, visit: string, leg: number): Trip => plan.trips.find((t) => t.visit === visit && t.leg === leg) as Trip;
const stop = (plan: Plan, visit: string, n: number): Stop => plan.stops.find((s) => s.visit === visit && s.stop === n) as Stop;
/** Later by the same time: a trip, the stop it serves and the trip after it. */
const shiftStop = (s: Stop, byS: number): void => { s.startS += byS; s.endS += byS; };

const CORRUPTIONS: Record<string, (plan: Plan) => void> = {
  'a trip is missing': (p) => { p.trips = p.trips.filter((t) => !(t.visit === 'B' && t.leg === 1)); },
  'a trip is made twice': (p) => { p.trips = [...p.trips, { ...trip(p, 'B', 1) }]; },
  'a stop is missing': (p) => { p.stops = p.stops.filter((s) => s.visit !== 'B'); },
  'a visit is neither made nor left out': (p) => { p.visits = p.visits.filter((v) => v.visit !== 'B'); },
  'a visit is left out but has trips': (p) => { p.leftOut = [{ visit: 'B', basin: 'B2', must: false, stopsMade: 0, reason: '', cause: 'no time' }]; },
  'an unknown visit': (p) => { p.trips = [...p.trips, { ...trip(p, 'B', 1), visit: 'Z' }]; },
  'fetched from elsewhere': (p) => { trip(p, 'B', 0).from = 3; },
  'lifted before its release': (p) => { const t = trip(p, 'A', 0); t.pickS = 50; t.emptyDepartS = 0; },
  'lifted before the work is done': (p) => { stop(p, 'B', 0).endS += 500; stop(p, 'B', 0).startS += 500; },
  'lifted too fast': (p) => { trip(p, 'B', 1).departS -= 5; stop(p, 'B', 0).leaveS = trip(p, 'B', 1).departS; },
  'carried too fast': (p) => { trip(p, 'B', 0).arriveS -= 5; stop(p, 'B', 0).arriveS -= 5; },
  'does not lead to the berth': (p) => { trip(p, 'B', 1).to = 3; },
  'the station cannot do it': (p) => { stop(p, 'B', 0).station = 'wash-1'; },
  'wrong service time': (p) => { stop(p, 'B', 0).startS += 1; },
  'begins before the basin is there': (p) => { shiftStop(stop(p, 'B', 0), -400); },
  'another vehicle that is busy': (p) => { for (const t of p.trips) (t as Trip).vehicle = 'cart-2'; },
  'no such vehicle': (p) => { trip(p, 'B', 0).vehicle = 'cart-9'; },
  'drives too fast': (p) => { trip(p, 'A', 0).emptyDepartS = trip(p, 'A', 0).pickS - 1; },
  'the stop ends without a trip': (p) => { stop(p, 'B', 0).leaveS = stop(p, 'B', 0).endS + 1; },
};

describe('a corrupted plan', () => {
  it('is built from one that is right', () => {
    expect(schedule.leftOut).toEqual([]);
    expect(verifySchedule(problem, schedule)).toEqual([]);
    expect(validateSchedule(problem, schedule)).toEqual([]);
  });

  for (const [name, corrupt] of Object.entries(CORRUPTIONS)) {
    it(`is refused: ${name}`, () => {
      const plan = structuredClone(schedule) as Plan;
      corrupt(plan);
      expect(verifySchedule(problem, plan).length).toBeGreaterThan(0);
      expect(validateSchedule(problem, plan).length).toBeGreaterThan(0);
    });
  }
});

/** The same plan against a problem that is stricter than the one it was made for. */
const STRICTER: Record<string, (p: ScheduleProblem) => ScheduleProblem> = {
  'fewer service places': (p) => ({ ...p, stations: p.stations.map((s) => ({ ...s, places: 0 })) }),
  'fewer waiting places': (p) => ({ ...p, stations: p.stations.map((s) => ({ ...s, places: 1, queuePlaces: -1 })) }),
  'opens later': (p) => ({ ...p, stations: p.stations.map((s) => ({ ...s, openFromS: 1500 })) }),
  'closes earlier': (p) => ({ ...p, stations: p.stations.map((s) => ({ ...s, openToS: 700 })) }),
  'a break': (p) => ({ ...p, stations: p.stations.map((s) => ({ ...s, breaks: [{ fromS: 0, toS: 700 }] })) }),
  'nobody in the crew': (p) => ({ ...p, crews: [{ id: 'hands', people: 0, fromS: 0, toS: 9000 }] }),
  'the crew starts later': (p) => ({ ...p, crews: [{ id: 'hands', people: 9, fromS: 1500, toS: 9000 }] }),
  'the crew has a break': (p) => ({ ...p, crews: [{ id: 'hands', people: 9, fromS: 0, toS: 9000, breaks: [{ fromS: 0, toS: 800 }] }] }),
  'vehicles leave later': (p) => ({ ...p, vehicles: p.vehicles.map((v) => ({ ...v, availableFromS: 900 })) }),
  'vehicles stop earlier': (p) => ({ ...p, vehicles: p.vehicles.map((v) => ({ ...v, availableToS: 900 })) }),
  'vehicles start elsewhere': (p) => ({ ...p, vehicles: p.vehicles.map((v) => ({ ...v, startLocation: 4 })) }),
  'a small battery': (p) => ({ ...p, vehicles: p.vehicles.map((v) => ({ ...v, battery: { capacityS: 300, atStartS: 200, reserveS: 60, chargeLocation: 0, gainSPerS: 2 } })) }),
  'a full berth': (p) => ({ ...p, berths: [{ location: 3, places: 1, takenAtStart: 1 }] }),
  'an earlier deadline': (p) => ({ ...p, visits: p.visits.map((v) => ({ ...v, deadlineS: 600 })) }),
  'a later not-before': (p) => ({ ...p, visits: p.visits.map((v) => ({ ...v, stops: v.stops.map((s) => ({ ...s, notBeforeS: 3000 })) })) }),
  'an earlier end-by': (p) => ({ ...p, visits: p.visits.map((v) => ({ ...v, stops: v.stops.map((s) => ({ ...s, endByS: 400 })) })) }),
  'work that has to come before': (p) => ({ ...p, visits: p.visits.map((v) => (v.id === 'C' ? { ...v, stops: [{ ...v.stops[0]!, after: [{ visit: 'A', stop: 1 }] }] } : v)) }),
  'another frozen trip': (p) => ({ ...p, frozen: { nowS: 300, trips: [{ ...schedule.trips[0]!, arriveS: schedule.trips[0]!.arriveS + 60 }], stops: [] } }),
  'planned in the past': (p) => ({ ...p, frozen: { nowS: 5000, trips: [], stops: [] } }),
  'goes on though given up': (p) => ({ ...p, frozen: { nowS: 0, trips: [], stops: [], givenUp: ['B'] } }),
};

describe('a plan against a stricter problem', () => {
  for (const [name, change] of Object.entries(STRICTER)) {
    it(`is refused: ${name}`, () => {
      const stricter = change(problem);
      expect(verifySchedule(stricter, schedule).length).toBeGreaterThan(0);
      expect(validateSchedule(stricter, schedule).length).toBeGreaterThan(0);
    });
  }

  it('is accepted with what is under way frozen as it is', () => {
    const nowS = Math.floor(schedule.finishS / 2);
    const frozen = { ...problem, frozen: freezeAt(problem, schedule, nowS) };
    expect(verifySchedule(frozen, schedule)).toEqual([]);
    expect(validateSchedule(frozen, schedule)).toEqual([]);
  });
});

describe('figures of a plan', () => {
  it('are checked by the verifier', () => {
    const day = randomDay(3);
    const plan = planSchedule(day, { seed: 1, iterations: 50 });
    const wrong: Partial<Schedule>[] = [
      { finishS: plan.finishS + 1 }, { emptyTravelS: plan.emptyTravelS + 1 }, { loadedTravelS: 0 },
      { bound: { ...plan.bound, finishS: plan.finishS + 1 } }, { visits: plan.visits.map((v) => ({ ...v, latenessS: v.latenessS + 1 })) },
      { visits: plan.visits.map((v) => ({ ...v, backS: v.backS - 1 })) }, { visits: plan.visits.map((v) => ({ ...v, leavesS: v.leavesS - 1 })) },
    ];
    for (const change of wrong) expect(verifySchedule(day, { ...plan, ...change }).length).toBeGreaterThan(0);
  });
});
