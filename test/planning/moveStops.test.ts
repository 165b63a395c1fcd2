import { beforeAll, describe, expect, it } from 'vitest';
import { decide } from '../../src/greenhouse/decide.ts';
import type { StopPin } from '../../src/greenhouse/events.ts';
import type { PlannedStop, PlannedVisit } from '../../src/planning/morningPlan.ts';
import { planDay, type PlannedDay, type PlanOptions } from '../../src/planning/planMorning.ts';
import { tryPin } from '../../src/planning/edit/tryPin.ts';
import type { LinearSolver } from '../../src/planning/solver/linearModel.ts';
import { loadLinearSolver } from '../../src/planning/solver/loadLinearSolver.ts';
import type { Outcome } from '../../src/science/refusal.ts';
import { DEMO_AT, thinFolder } from './demoFolder.ts';
import { verifyPlan } from './verifyPlan.ts';

const QUICK: PlanOptions = { members: 40, iterations: 300 };
const { state, readings } = thinFolder();
const TITLES: Record<string, string> = Object.fromEntries([...state.file!.stations, ...state.file!.vehicles].map(({ id, title }) => [id, title]));
const titleOf = (id: string) => TITLES[id] ?? id;
const nowMs = Date.parse(DEMO_AT);

let solver: LinearSolver;
let day: PlannedDay;
const planWith = (pins: readonly StopPin[]): Outcome<PlannedDay> => planDay({ state, readings, at: DEMO_AT, pins }, solver, QUICK);
const valueOf = (outcome: Outcome<PlannedDay>): PlannedDay => { if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals)); return outcome.value; };

beforeAll(async () => {
  solver = await loadLinearSolver();
  day = valueOf(planWith([]));
});

const byMinutes = (at: string, minutes: number): string => new Date(Date.parse(at) + minutes * 60_000).toISOString();
const pinOf = ({ visit }: PlannedVisit, { stop, station, startAt }: PlannedStop, minutes = 0): StopPin => ({ visit, stop, station, startAt: byMinutes(startAt, minutes), by: 'mirel' });
const tried = (pin: StopPin) => tryPin(day.laid, pin, nowMs, titleOf)!;
const middle = (): PlannedVisit => day.plan.visits[Math.floor(day.plan.visits.length / 2)]!;

describe('moving a stop of the demonstration greenhouse’s plan', () => {
  it('finds nothing wrong with a stop that stays, and says so much faster than 100 ms', () => {
    const times: number[] = [];
    for (const visit of day.plan.visits) {
      for (const stop of visit.stops) {
        const begun = performance.now();
        expect(tried(pinOf(visit, stop)).breaks).toEqual([]);
        times.push(performance.now() - begun);
      }
    }
    times.sort((a, b) => a - b);
    console.log(`tried ${times.length} stops that stay: median ${times[times.length >> 1]!.toFixed(1)} ms, most ${times.at(-1)!.toFixed(1)} ms`);
    expect(times[times.length >> 1]).toBeLessThan(100);
  });

  it('says what breaks with basins, titles and times', () => {
    const all = day.plan.visits.flatMap((visit) => visit.stops.flatMap((stop) => [-25, -4, 7, 40].flatMap((minutes) => tried(pinOf(visit, stop, minutes)).breaks)));
    const words = all.map(({ sentence }) => sentence);
    for (const kind of [/^(Filling|Imaging|Washing|Harvest|Transplanting) serves (one basin|2 basins) at once: at \d\d:\d\d basin B\d{3} is to begin and B\d{3}( and B\d{3})? keeps? the places? until \d\d:\d\d\.$/, /^Vehicle \d is booked twice: it carries basin B\d{3} until \d\d:\d\d and is to lift basin B\d{3} at \d\d:\d\d\.$/, /is full at \d\d:\d\d: basin B\d{3} comes and B\d{3}.* there until/]) {
      expect(words.find((sentence) => kind.test(sentence)), String(kind)).toBeDefined();
    }
    for (const { sentence, visits } of all) {
      expect(sentence).not.toMatch(/undefined|NaN| {2}/);
      expect(day.plan.visits.some(({ visit }) => visit === visits[0])).toBe(true);
    }
    console.log(`${words.length} breaks in words, ${new Set(words).size} different: ${[...new Set(words)].filter((_, i) => i % 97 === 0).slice(0, 8).join(' ')}`);
  });

  it('knows what no plan can mend: a stop in the past, at night, at a station of another kind', () => {
    const visit = middle();
    const stop = visit.stops[0]!;
    expect(tried({ ...pinOf(visit, stop), startAt: byMinutes(DEMO_AT, -30) }).impossible.join()).toContain('already');
    expect(tried({ ...pinOf(visit, stop), startAt: byMinutes(day.plan.shift.endAt, 30) }).impossible.join()).toMatch(/outside its hours/);
    expect(tried({ ...pinOf(visit, stop), station: state.file!.stations.find(({ kind }) => kind !== stop.kind)!.id }).impossible.length).toBeGreaterThan(0);
    expect(tryPin(day.laid, { ...pinOf(visit, stop), visit: 'nobody' }, nowMs, titleOf)).toBeUndefined();
  });

  it('plans the rest around a stop that is kept, and every rule holds; with nothing kept it is the plan as it was', () => {
    const visit = middle();
    const pin = pinOf(visit, visit.stops[0]!, 15);
    expect(tried(pin).impossible).toEqual([]);
    const around = valueOf(planWith([pin]));
    expect(verifyPlan(around.plan, state)).toEqual([]);
    expect(around.plan.visits.find((is) => is.visit === visit.visit)!.stops[0]).toMatchObject({ station: pin.station, startAt: pin.startAt });
    expect(around.plan.pins).toEqual([pin]);
    expect(around.plan.planId).not.toBe(day.plan.planId);
    const apartMs = (is: PlannedVisit) => Math.abs(Date.parse(is.stops[0]!.startAt) - Date.parse(day.plan.visits.find(({ visit: id }) => id === is.visit)?.stops[0]!.startAt ?? ''));
    const near = around.plan.visits.filter((is) => apartMs(is) <= 600_000).length;
    console.log(`${near} of ${around.plan.visits.length} visits begin within ten minutes of before; finish ${day.plan.timeline.finishAt} before, ${around.plan.timeline.finishAt} after`);
    expect(JSON.stringify(valueOf(planWith([pin])).plan)).toBe(JSON.stringify(around.plan));
    const outcome = decide(state, { do: 'approve-plan', plan: { planId: around.plan.planId, at: around.plan.at, approvedBy: 'mirel', upToSequence: around.plan.upToSequence, pins: around.plan.pins!, visits: around.plan.visits.map(({ approved }) => approved) } }, DEMO_AT);
    expect(outcome).toMatchObject({ ok: true, value: [{ kind: 'plan-approved', body: { plan: { pins: [pin] } } }] });
  });

  it('refuses, with the reason, a stop that nobody could bring there in time, and one that is not to be made', () => {
    const visit = day.plan.visits.find(({ stops }) => stops.length > 1)!;
    const soon = { ...pinOf(visit, visit.stops[1]!), startAt: byMinutes(DEMO_AT, 1) };
    const outcome = planWith([soon]);
    expect(outcome).toMatchObject({ ok: false, refusals: [{ code: 'infeasible', path: `pins.${visit.visit}` }] });
    expect(!outcome.ok && outcome.refusals[0]!.message).toContain(`basin ${visit.basin} is served there and then`);
    expect(planWith([{ ...soon, visit: 'nobody' }])).toMatchObject({ ok: false, refusals: [{ path: 'pins.nobody' }] });
  });
});
