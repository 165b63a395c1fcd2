import { describe, expect, it } from 'vitest';
import { startRandom } from '../../science/seededRandom.ts';
import { WEEK_DAYS, type ExpectedVisit } from './expectedVisit.ts';
import { levelWeek } from './levelWeek.ts';
import type { Resource } from './weekCapacity.ts';

const minutes = (kind: string) => ({ stops }: Pick<ExpectedVisit, 'stops'>) => stops.filter((stop) => stop.kind === kind).reduce((total, { plants }) => total + plants, 0);
const resources = (imaging: number, filling: number): Resource[] => [
  { id: 'imaging', title: 'Imaging', capacityMin: Array<number>(WEEK_DAYS).fill(imaging), minutesOf: minutes('imaging') },
  { id: 'filling', title: 'Filling', capacityMin: Array<number>(WEEK_DAYS).fill(filling), minutesOf: minutes('filling') },
];
/** Minutes of each stop are written as its plants here. */
const visit = (basin: string, day: number, [earliest, latest]: readonly [number, number], kinds: Partial<Record<'imaging' | 'filling', number>>): ExpectedVisit =>
  ({ basin, why: '', day, earliest, latest, stops: Object.entries(kinds).map(([kind, plants]) => ({ kind: kind as 'imaging', plants, litres: 0 })) });
const alone = (_: ExpectedVisit, i: number) => String(i);

describe('levelWeek', () => {
  it('moves images before fillings, and nothing while a day has room', () => {
    const visits = [visit('A', 5, [4, 6], { filling: 10, imaging: 10 }), visit('B', 5, [4, 6], { imaging: 10 }), visit('C', 7, [1, 9], { imaging: 20 })];
    expect(levelWeek(visits, resources(20, 20), alone).days).toEqual([5, 5, 7]);
    expect(levelWeek(visits, resources(15, 20), alone).days).toEqual([5, 4, 7]);
  });
  it('does not move into a day that another resource would be over on', () => {
    const visits = [visit('A', 5, [4, 5], { filling: 30 }), visit('B', 4, [4, 4], { filling: 15 })];
    expect(levelWeek(visits, resources(99, 20), alone).days).toEqual([5, 4]);
  });
  it('moves what belongs together as one, within the window of all of it', () => {
    const visits = [visit('A', 5, [3, 6], { filling: 10 }), visit('B', 5, [5, 7], { filling: 10 }), visit('C', 5, [5, 5], { filling: 10 })];
    expect(levelWeek(visits, resources(99, 20), ({ basin }) => (basin === 'C' ? 'C' : 'AB')).days).toEqual([6, 6, 5]);
  });
  it('in 200 random weeks keeps every window and all work, and makes no day worse that was not over', () => {
    const random = startRandom(5);
    const whole = (most: number) => Math.floor(random.uniform() * most);
    let moves = 0;
    for (let week = 0; week < 200; week++) {
      const visits = Array.from({ length: 60 }, (_, i) => { const day = whole(WEEK_DAYS); return visit(`B${i}`, day, day === 0 ? [0, 0] : [Math.max(1, day - whole(4)), day + whole(4)], whole(2) === 0 ? { imaging: 1 + whole(9) } : { imaging: 1 + whole(5), filling: 1 + whole(9) }); });
      const house = resources(25, 15);
      const { days, before, after } = levelWeek(visits, house, alone);
      visits.forEach(({ day, earliest, latest }, i) => { if (days[i] !== day) { moves += 1; expect(day).toBeGreaterThan(0); expect(days[i]).toBeGreaterThanOrEqual(earliest); expect(days[i]).toBeLessThanOrEqual(Math.min(latest, WEEK_DAYS - 1)); } });
      house.forEach(({ capacityMin }, r) => {
        const total = (load: Float64Array) => load.reduce((all, each) => all + each, 0);
        expect(total(after[r]!)).toBeCloseTo(total(before[r]!), 9);
        for (let day = 0; day < WEEK_DAYS; day++) expect(after[r]![day]!).toBeLessThanOrEqual(Math.max(before[r]![day]!, capacityMin[day]!) + 1e-9);
      });
    }
    expect(moves).toBeGreaterThan(200);
  });
});
