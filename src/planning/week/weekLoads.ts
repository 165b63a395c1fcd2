import { addDays } from '../day/shiftDay.ts';
import { WEEK_DAYS, type ExpectedVisit } from './expectedVisit.ts';
import { expectHarvests } from './expectHarvests.ts';
import { expectTrays } from './expectTrays.ts';
import { expectVisits } from './expectVisits.ts';
import { levelWeek } from './levelWeek.ts';
import { weekResources, type Resource } from './weekCapacity.ts';
import type { WeekQuestion } from './weekQuestion.ts';
import type { WeekOverrun, WeekResource, WeekView, WeekVisit } from './weekView.ts';
import { fullestWords, overrunSentence, weekSentence } from './weekWords.ts';

const ASSUMED = [
  'Every day is taken to have the shift of greenhouse.yaml. Today counts from the hour of the plan, with the visits of the plan and the vehicles as timetabled.',
  'Middle future: cuts for orders known now, from the oldest lots that are ready; lots nobody ordered are cut before they grow past their best.',
  'Not counted: lots that are not sown yet, cuts of lots that move on within the two weeks, and refilling of basins that take plants (young plants use less in that time than a full basin has to spare).',
  'Trips are the mean way between berths and stations, loaded and empty; waiting, charging and traffic are not counted.',
  'The moves are a simple greedy levelling, day by day: they fit the windows and the capacities; that no better set of moves exists is not shown.',
];

/** Loads of the next two weeks, where they overrun, and which visits could move. Pure. */
export function weekLoads(question: WeekQuestion): WeekView {
  const { file, floor, day } = question;
  const dates = Array.from({ length: WEEK_DAYS }, (_, i) => addDays(day.date, i));
  const expected = [...todays(question), ...expectVisits(question, expectHarvests({ ...question, date: day.date })), ...expectTrays(question)].sort((a, b) => a.day - b.day || (a.basin < b.basin ? -1 : a.basin > b.basin ? 1 : 0));
  const resources = weekResources(file, floor, day);
  const levelled = levelWeek(expected, resources, moveTogether);
  const vehicles = resources.findIndex(({ id }) => id === 'vehicles');
  for (const load of [levelled.before[vehicles]!, levelled.after[vehicles]!]) load[0] = question.todayVehicleMin;
  const visits = expected.map((visit, i) => toVisit(visit, levelled.days[i]!, dates));
  const rows = resources.map(({ id, title, capacityMin }, r): WeekResource => ({ id, title, loadMin: rounded(levelled.before[r]!), levelledMin: rounded(levelled.after[r]!), capacityMin: rounded(capacityMin) }));
  const overruns = overrunsOf(rows, resources, expected, visits, dates);
  return { dates, sentence: weekSentence(visits.length, overruns, visits.filter(({ to }) => to !== undefined).length, fullestWords(rows, dates)), resources: rows, overruns, visits, notes: [...ASSUMED, ...unknownWater(question)] };
}

function todays({ today }: WeekQuestion): ExpectedVisit[] {
  return today.map(({ view, needs, stops }) => ({ basin: view.basin.id, why: needs.map(({ reason }) => reason).join('; '), day: 0, earliest: 0, latest: 0, stops: stops.map(({ kind, plants, litres }) => ({ kind, plants, litres })) }));
}

/** Plants move on in one go: their basin and those that take them. */
const moveTogether = (visit: ExpectedVisit, i: number): string => (visit.stops.some(({ kind }) => kind === 'transplanting') ? `${visit.basin} moves on ${visit.day}` : `${visit.basin} ${String(i).padStart(6, '0')}`);

const rounded = (minutes: Iterable<number>): number[] => Array.from(minutes, (value) => Math.round(value * 10) / 10);

function toVisit({ basin, why, stops, day, earliest, latest }: ExpectedVisit, to: number, dates: readonly string[]): WeekVisit {
  const dateOf = (at: number) => addDays(dates[0]!, at);
  return { basin, kinds: stops.map(({ kind }) => kind), why, date: dates[day]!, earliest: dateOf(earliest), latest: dateOf(latest), ...(to === day ? {} : { to: dates[to]! }) };
}

/** In the order of days, then of resources. */
function overrunsOf(rows: readonly WeekResource[], resources: readonly Resource[], expected: readonly ExpectedVisit[], visits: readonly WeekVisit[], dates: readonly string[]): WeekOverrun[] {
  return dates.flatMap((date, i) => rows.flatMap((row, r): WeekOverrun[] => {
    if (row.loadMin[i]! <= row.capacityMin[i]!) return [];
    const moved = visits.filter((visit, v) => visit.date === date && visit.to !== undefined && resources[r]!.minutesOf(expected[v]!) > 0);
    const overrun = { date, resource: row.id, loadMin: row.loadMin[i]!, capacityMin: row.capacityMin[i]!, staysOverMin: Math.max(0, Math.round((row.levelledMin[i]! - row.capacityMin[i]!) * 10) / 10) };
    return [{ ...overrun, sentence: overrunSentence(row.title, overrun, moved, i === 0) }];
  }));
}

function unknownWater({ basins }: WeekQuestion): string[] {
  const unknown = basins.filter(({ basin, water }) => basin.planting !== undefined && !water.known).length;
  return unknown === 0 ? [] : [`Fillings of ${unknown} planted basins are not counted: nobody knows their water.`];
}
