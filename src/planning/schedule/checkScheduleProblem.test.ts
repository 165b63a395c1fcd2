import { describe, expect, it } from 'vitest';
import { checkScheduleProblem } from './checkScheduleProblem.ts';
import type { ScheduleProblem } from './scheduleProblem.ts';

const good: ScheduleProblem = {
  locations: ['a', 'b'], travelEmptyS: [[0, 5], [5, 0]], travelLoadedS: [[0, 9], [9, 0]],
  stations: [{ id: 's', kind: 'fill', location: 0, places: 1, queuePlaces: 0, openFromS: 0, openToS: 1000 }],
  vehicles: [{ id: 'w', startLocation: 0, availableFromS: 0, availableToS: 1000, pickS: 1, dropS: 1 }],
  visits: [{ id: 'v', basin: 'b', startLocation: 1, endLocation: 1, releaseS: 0, priority: 1, must: true, why: '', stops: [{ alternatives: [{ station: 's', serviceS: 10 }] }] }],
};
const visit = good.visits[0]!;
const station = good.stations[0]!;
const vehicle = good.vehicles[0]!;
const battery = { capacityS: 100, atStartS: 100, reserveS: 0, chargeLocation: 0, gainSPerS: 1 };

const WRONG: readonly [string, Partial<ScheduleProblem>, string, string][] = [
  ['a table of another size', { travelEmptyS: [[0]] }, 'inconsistent', 'travelEmptyS'],
  ['a travel time that is no number', { travelLoadedS: [[0, NaN], [9, 0]] }, 'value-not-a-number', 'travelLoadedS[0][1]'],
  ['a negative travel time', { travelLoadedS: [[0, -1], [9, 0]] }, 'value-out-of-range', 'travelLoadedS[0][1]'],
  ['no places', { stations: [{ ...station, places: 0 }] }, 'value-out-of-range', 'stations[0].places'],
  ['half a waiting place', { stations: [{ ...station, queuePlaces: 0.5 }] }, 'value-out-of-range', 'stations[0].queuePlaces'],
  ['an unknown crew', { stations: [{ ...station, crew: 'x' }] }, 'reference-unknown', 'stations[0].crew'],
  ['an unknown location', { stations: [{ ...station, location: 7 }] }, 'reference-unknown', 'stations[0].location'],
  ['two stations of one name', { stations: [station, station] }, 'duplicate', 'stations'],
  ['no vehicle', { vehicles: [] }, 'infeasible', 'vehicles'],
  ['a charger that takes', { vehicles: [{ ...vehicle, battery: { ...battery, gainSPerS: 0 } }] }, 'value-out-of-range', 'vehicles[0].battery.gainSPerS'],
  ['a berth that is too full', { berths: [{ location: 1, places: 1, takenAtStart: 2 }] }, 'inconsistent', 'berths[0].takenAtStart'],
  ['a berth without the basin that leaves it', { berths: [{ location: 1, places: 1, takenAtStart: 0 }] }, 'inconsistent', 'berths[0].takenAtStart'],
  ['no priority', { visits: [{ ...visit, priority: 0 }] }, 'value-out-of-range', 'visits[0].priority'],
  ['no stops', { visits: [{ ...visit, stops: [] }] }, 'value-missing', 'visits[0].stops'],
  ['no station for a stop', { visits: [{ ...visit, stops: [{ alternatives: [] }] }] }, 'infeasible', 'visits[0].stops[0].alternatives'],
  ['an unknown station', { visits: [{ ...visit, stops: [{ alternatives: [{ station: 'x', serviceS: 1 }] }] }] }, 'reference-unknown', 'visits[0].stops[0].alternatives'],
  ['two visits of one basin', { visits: [visit, { ...visit, id: 'u' }] }, 'duplicate', 'visits (basins)'],
  ['work after an unknown visit', { visits: [{ ...visit, stops: [{ ...visit.stops[0]!, after: [{ visit: 'x', stop: 0 }] }] }] }, 'reference-unknown', 'visits[0].stops[0].after'],
  ['a visit that waits for itself', { visits: [{ ...visit, stops: [{ ...visit.stops[0]!, after: [{ visit: 'v', stop: 0 }] }] }] }, 'inconsistent', 'visits'],
  ['a frozen stop of an unknown visit', { frozen: { nowS: 0, trips: [], stops: [{ visit: 'x', stop: 0, station: 's', arriveS: 0, startS: 0, endS: 1 }] } }, 'reference-unknown', 'frozen.stops'],
];

describe('a malformed problem', () => {
  it('is not seen in a good one', () => {
    expect(checkScheduleProblem(good)).toEqual([]);
  });

  for (const [name, change, code, path] of WRONG) {
    it(`is refused: ${name}`, () => {
      expect(checkScheduleProblem({ ...good, ...change })).toContainEqual(expect.objectContaining({ code, path }));
    });
  }
});
