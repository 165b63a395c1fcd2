import type { StopPin } from '../greenhouse/events.ts';
import type { Reading } from '../greenhouse/journalEvent.ts';
import type { GreenhouseFile } from '../greenhouse/schema/greenhouseFile.ts';
import type { Floor, GreenhouseState } from '../greenhouse/state.ts';
import { accepted, refused, type Outcome, type Refusal } from '../science/refusal.ts';
import { lampsAsDecided } from './actions/lampsAsDecided.ts';
import { assemblePlan } from './assemblePlan.ts';
import { simulateBays } from './climate/bayClimates.ts';
import { addDays, clockMs, shiftDay } from './day/shiftDay.ts';
import { decideDay } from './decideDay.ts';
import { forecastLots } from './lots/forecastLots.ts';
import { viewLots } from './lots/lotViews.ts';
import type { MorningPlan } from './morningPlan.ts';
import { DEFAULT_OPTIONS, type PlanSettings } from './planSettings.ts';
import { layDown, type LaidDay } from './edit/laidDay.ts';
import { worthOfDay } from './visits/worthOfDay.ts';
import type { LinearSolver } from './solver/linearModel.ts';
import { viewBasins } from './needs/viewBasins.ts';

export interface PlanInputs {
  readonly state: GreenhouseState;
  /** Readings of basins, tanks and bays; the last three to four weeks are enough. Those after `at` are not used. */
  readonly readings: readonly Reading[];
  /** UTC instant that the plan is made for. */
  readonly at: string;
  /** Stops that people want where they put them. */
  readonly pins?: readonly StopPin[];
}

/** A plan with what its times were worked out from. */
export interface PlannedDay { readonly plan: MorningPlan; readonly laid: LaidDay }

export interface PlanOptions {
  readonly seed?: number;
  /** Members of each lot's ensemble and futures of the orders. */
  readonly members?: number;
  /** Changes that the scheduler tries. */
  readonly iterations?: number;
  /** Share done, 0 to 1, and what is being worked on. */
  readonly onProgress?: (share: number, what: string) => void;
}

/** Days ahead for which climate is needed: forecasts reach so far. */
const AHEAD_DAYS = 62;
const LEAST_PAST_DAYS = 35;

/**
 * The plan of the shift at an instant (of the next one where today's is over): what every basin needs, forecasts of every
 * lot, feeds, visits with times and vehicles, orders, risks and the day's account. Pure: the same inputs give the same plan
 * bit for bit. Refuses a state without greenhouse or weather; whatever else is missing is named in the plan and left out.
 */
export function planMorning(inputs: PlanInputs, solver: LinearSolver, options: PlanOptions = {}): Outcome<MorningPlan> {
  const planned = planDay(inputs, solver, options);
  if (!planned.ok) return planned;
  const { plan, laid } = planned.value;
  const worth = [...worthOfDay(laid, options)].filter((sentence) => sentence !== undefined);
  return accepted(worth.length === 0 ? plan : { ...plan, timeline: { ...plan.timeline, worth } }, planned.warnings);
}

/** The plan as `planMorning` makes it, without what one more of anything would be worth; pins that no plan can keep are refused. */
export function planDay(inputs: PlanInputs, solver: LinearSolver, options: PlanOptions = {}): Outcome<PlannedDay> {
  const { state, at, pins = [] } = inputs;
  const settings = { ...DEFAULT_OPTIONS, ...withoutAbsent(options) };
  const tell = options.onProgress ?? (() => {});
  const ready = readyToPlan(state, at);
  if (!ready.ok) return ready;
  const { file, floor } = ready.value;
  const day = shiftDay(file, at);
  const readingsOf = readingsByPlace(inputs.readings, day.atMs);

  tell(0.02, 'climate of the bays');
  const span = { fromMs: Math.min(earliestMs(state, day.date), day.atMs - LEAST_PAST_DAYS * 86_400_000), atMs: day.atMs, toMs: clockMs(addDays(day.date, AHEAD_DAYS + 1), '12:00', day.timeZone) };
  const simulated = simulateBays(state, file, readingsOf, span);
  if (!simulated.ok) return simulated;
  const climates = lampsAsDecided(simulated.value, state);

  tell(0.1, 'forecasts of the lots');
  const lots = forecastLots(viewLots(state, climates), state, climates, {
    date: day.date, seed: settings.seed, members: settings.members, onLot: (done, of) => tell(0.1 + (0.4 * done) / of, `forecast ${done + 1} of ${of} lots`),
  });

  tell(0.52, 'water of the basins');
  const basins = viewBasins(state, lots, climates, readingsOf, day.atMs);
  const decided = decideDay({ state, file, floor, day, lots, basins, climates, readings: inputs.readings, solver, settings, pins, tell });
  if (!decided.ok) return decided;

  tell(0.95, 'the plan in words');
  const plan = assemblePlan({ state, file, day, lots, basins, climates, decided: decided.value, solver, settings, pins });
  tell(1, 'done');
  return accepted({ plan, laid: layDown(decided.value, day) }, simulated.warnings);
}

const withoutAbsent = ({ seed, members, iterations }: PlanOptions): Partial<PlanSettings> =>
  Object.fromEntries(Object.entries({ seed, members, iterations }).filter(([, value]) => value !== undefined));

export function readyToPlan(state: GreenhouseState, at: string): Outcome<{ file: GreenhouseFile; floor: Floor }> {
  const refusals: Refusal[] = [];
  if (!Number.isFinite(Date.parse(at))) refusals.push({ code: 'value-not-allowed', path: 'at', value: at, limit: 'ISO 8601 instant', message: `${at} is not an instant such as 2026-03-02T05:30:00Z.`, severity: 'error' });
  if (state.file === undefined || state.floor === undefined) refusals.push({ code: 'value-missing', path: 'greenhouse', message: 'No greenhouse is described yet: import a greenhouse folder first.', severity: 'error' });
  return refusals.length > 0 ? refused(refusals) : accepted({ file: state.file!, floor: state.floor! });
}

/** Readings up to an instant, by place, oldest first. */
export function readingsByPlace(readings: readonly Reading[], atMs: number): (place: string) => readonly Reading[] {
  const byPlace = new Map<string, Reading[]>();
  for (const reading of readings) {
    if (Date.parse(reading.at) > atMs) continue;
    const list = byPlace.get(reading.place);
    if (list === undefined) byPlace.set(reading.place, [reading]); else list.push(reading);
  }
  return (place) => byPlace.get(place) ?? [];
}

/** Start of the earliest day that a lot now standing may have been planted, or a basin filled. */
export function earliestMs(state: GreenhouseState, date: string): number {
  let earliest = Date.parse(`${date}T00:00:00Z`);
  for (const { planting, filled } of Object.values(state.basins)) {
    if (planting !== undefined) earliest = Math.min(earliest, Date.parse(`${planting.sown}T00:00:00Z`));
    if (filled !== undefined) earliest = Math.min(earliest, Date.parse(filled.at));
  }
  return Math.max(earliest - 86_400_000, Date.parse(`${date}T00:00:00Z`) - 400 * 86_400_000);
}
