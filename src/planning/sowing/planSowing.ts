import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { OrderLine } from '../../greenhouse/schema/tableRows.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { lightIntegralMol } from '../../science/climate/lightInside.ts';
import { accepted, type Outcome } from '../../science/refusal.ts';
import { simulateBays, type BayClimates } from '../climate/bayClimates.ts';
import { addDays, clockMs, instantMs, shiftDay, type ShiftDay } from '../day/shiftDay.ts';
import { forecastLots, type LotExpectation } from '../lots/forecastLots.ts';
import { viewLots } from '../lots/lotViews.ts';
import { openLines, type OpenLine } from '../orders/outlookOrders.ts';
import { earliestMs, readingsByPlace, readyToPlan } from '../planMorning.ts';
import type { LinearSolver } from '../solver/linearModel.ts';
import { expectOrders } from './expectedOrders.ts';
import { lampsByDay } from './lampsByDay.ts';
import { houseRecord, type HouseRecord } from './houseRecord.ts';
import { readCapacity, readCrops, readLimits, readSources, readSowings } from './readSowing.ts';
import { curveInSeason, unitsOfCurve } from './seasonGrowth.ts';
import { solveSowing, SOLVE_SOWING } from './solveSowing.ts';
import { sowingCalendar, type SowingCalendar } from './sowingCalendar.ts';
import type { SowingHouse } from './sowingHouse.ts';
import { sowingPlaces } from './sowingPlaces.ts';
import type { SowingPlan } from './sowingPlan.ts';
import { EXTRA } from './sowingNeeds.ts';
import { placesOfStages } from './placesOfStages.ts';
import { sowingProblemOf } from './sowingProblemOf.ts';
import type { SowingQuestion } from './sowingQuestion.ts';
import { trayLots } from './trayLots.ts';
import { standingLots } from './standingLots.ts';
import { sowingSentence } from './sowingWords.ts';
import { worthOfMore } from './worthOfMore.ts';
import { countOf, listOf } from '../words/plainWords.ts';

export interface SowingInputs {
  readonly state: GreenhouseState;
  readonly readings: readonly Reading[];
  /** UTC instant that the plan is made for. */
  readonly at: string;
  /** Orders to be met beside those known and expected: what somebody asks about. */
  readonly extra?: readonly OrderLine[];
}

export interface SowingOptions {
  /** Weeks of sowing to plan, 1 to 60. */
  readonly weeks?: number;
  readonly seed?: number;
  readonly members?: number;
  readonly onProgress?: (share: number, what: string) => void;
}

const DEFAULTS = { weeks: 12, seed: 1, members: 60 } as const;
const MOST_WEEKS = 60;
const PAST_DAYS = 35;

/**
 * What to sow in the weeks ahead so that orders leave complete and on the day, with the chance that the manager asks for, at
 * least cost. Pure: the same inputs give the same plan bit for bit. Refuses a state without greenhouse or weather.
 */
export function planSowing(inputs: SowingInputs, solver: LinearSolver, options: SowingOptions = {}): Outcome<SowingPlan> {
  const tell = options.onProgress ?? (() => {});
  const prepared = prepareSowing(inputs, options);
  if (!prepared.ok) return prepared;
  const { question, day } = prepared.value;
  const { house, calendar, cards } = question;
  tell(0.5, 'the programme');
  const problem = sowingProblemOf(question);
  tell(0.6, 'the least cost');
  const solved = solveSowing(problem, solver, SOLVE_SOWING);
  const read = readSources(problem, solved);
  const plan: Omit<SowingPlan, 'sentence'> = {
    greenhouse: house.file.id, name: house.file.name, date: day.date, weeks: calendar.weeks, currency: house.file.prices.currency, serviceLevel: house.file.sowing.serviceLevel,
    sowings: readSowings(question, problem, read), capacity: readCapacity(problem, read, calendar.dateOf), limits: readLimits(problem, read, calendar.dateOf),
    crops: readCrops(cards, problem, solved, calendar.dateOf), worth: worthOfMore(question, problem, solver, prepared.value.withMoreLight),
    proof: {
      cost: solved.cost, bound: solved.bound, gapPct: 100 * solved.gap, solver: `${solver.name} ${solver.version}`,
      columns: solved.built.model.columns.length, rows: solved.built.model.rows.length, wholeNumbers: solved.built.model.columns.filter(({ domain }) => domain === 'integer').length,
    },
    notes: prepared.value.notes,
  };
  tell(1, 'done');
  return accepted({ ...plan, sentence: sowingSentence(plan) }, prepared.warnings);
}

interface Prepared {
  readonly question: SowingQuestion;
  readonly day: ShiftDay;
  readonly notes: readonly string[];
  /** The same question with one more hour of lamps a day in glass; absent where no glass bay has lamps. */
  readonly withMoreLight: (() => SowingQuestion) | undefined;
}

/** Everything that is decided on: climate, forecasts, growth by season, orders. */
export function prepareSowing({ state, readings, at, extra = [] }: SowingInputs, options: SowingOptions = {}): Outcome<Prepared> {
  const { weeks, seed, members } = { ...DEFAULTS, ...options };
  const ready = readyToPlan(state, at);
  if (!ready.ok) return ready;
  const { file } = ready.value;
  const day = shiftDay(file, at);
  const cards = Object.values(state.crops).filter(({ stages }) => stages.at(-1)!.bay === 'glass');
  const daysAfter = Math.max(42, ...cards.map(longestDays)) + 7;
  const calendar = sowingCalendar(day.date, Math.min(MOST_WEEKS, Math.max(1, Math.round(weeks))), file.sowing.weekdays, daysAfter);
  const readingsOf = readingsByPlace(readings, day.atMs);
  const span = { fromMs: Math.min(earliestMs(state, day.date), day.atMs - PAST_DAYS * 86_400_000), atMs: day.atMs, toMs: clockMs(addDays(day.date, calendar.weeks * 7 + daysAfter + 2), '12:00', day.timeZone) };
  const climates = simulateBays(state, file, readingsOf, span);
  if (!climates.ok) return climates;
  const lots = forecastLots(viewLots(state, climates.value), state, climates.value, { date: day.date, seed, members });
  const notes: string[] = [];
  const asked = questionOf({ state, file, day, cards, calendar, climates: climates.value, lots, notes, extra });
  const lit = file.bays.some(({ kind, lamps }) => kind === 'glass' && lamps !== undefined);
  const withMoreLight = (): SowingQuestion => {
    const brighter = withLampHour(file);
    const again = simulateBays(state, brighter, readingsOf, span);
    return again.ok ? questionOf({ state, file: brighter, day, cards, calendar, climates: again.value, lots, notes: [], extra }) : asked;
  };
  return accepted({ question: asked, day, notes, withMoreLight: lit ? withMoreLight : undefined }, climates.warnings);
}

const longestDays = (card: CropCard): number => card.sowing.trayDays + card.stages.reduce((sum, stage) => sum + (stage.days ?? Math.ceil((stage.degreeDays ?? 0) / 10)), 0) + 24;

interface QuestionParts {
  readonly state: GreenhouseState; readonly file: GreenhouseFile; readonly day: ShiftDay; readonly cards: readonly CropCard[]; readonly calendar: SowingCalendar;
  readonly climates: BayClimates; readonly lots: readonly LotExpectation[]; readonly notes: string[];
  readonly extra: readonly OrderLine[];
}

function questionOf({ state, file, day, cards, calendar, climates, lots, notes, extra }: QuestionParts): SowingQuestion {
  const places = sowingPlaces(file, (bay) => meanLight(climates, bay, day.date));
  const house: SowingHouse = { file, places, lampKWhOn: lampsByDay(climates, places) };
  const records = new Map(cards.map((card) => [card.id, houseRecord(card, lots, state, climates, day.date)]));
  notes.push(...notesOn(cards, records, file));
  const refused = new Set<string>();
  const growth: SowingQuestion['growth'] = (card, glass, sowDate) => {
    const grown = curveInSeason({ card, sowDate, places: placesOfStages(card, house, glass), climates });
    if (grown.ok) return unitsOfCurve(card, grown.value, records.get(card.id)!);
    if (!refused.has(card.id)) notes.push(`${card.title} cannot be planned: ${grown.refusals.map(({ message }) => message).join(' ')}`);
    refused.add(card.id);
    return undefined;
  };
  const question: SowingQuestion = {
    house, calendar, cards, lines: [...openLines(state, day.date), ...extra.flatMap((line) => extraLine(line, cards))],
    expected: expectOrders(Object.values(state.orders), day.date, file.sowing.ordersKnownDays),
    standing: standingLots(lots, house, calendar, (crop) => records.get(crop)),
    growth,
  };
  const trays = trayLots(state, question);
  if (trays.length > 0) notes.push(`${countOf(trays.length, 'lot')} in trays ${trays.length === 1 ? 'is' : 'are'} counted as standing: ${listOf(trays.map(({ id }) => id))}.`);
  return { ...question, standing: [...question.standing, ...trays] };
}

function notesOn(cards: readonly CropCard[], records: ReadonlyMap<string, HouseRecord>, { sowing }: GreenhouseFile): string[] {
  return [
    'Stages before the last take what the crop cards plan; the last takes what the growth model needs in the light and air of the days ahead, from the weather file, the set-points and the lamps.',
    ...cards.map(({ id, title }) => {
      const { logBias, samples, ...spreads } = records.get(id)!;
      const logSd = Math.hypot(spreads.logSd, spreads.sharedLogSd);
      return samples === 0 ? `${title}: none was weighed here yet; mass at harvest may differ by ${Math.round(100 * logSd)} % from lot to lot.`
        : `${title}: by ${samples} weighings, ready lots weigh ${Math.round(100 * Math.exp(logBias))} % of what the model says; lots differ by ${Math.round(100 * logSd)} %.`;
    }),
    `Orders are known ${sowing.ordersKnownDays} days ahead; beyond that orders like those of the last weeks are expected. Lamps over empty berths are taken to be off.`,
  ];
}

function extraLine(line: OrderLine, cards: readonly CropCard[]): OpenLine[] {
  const card = cards.find(({ id }) => id === line.crop);
  return card === undefined ? [] : [{ key: `${EXTRA}${line.order}/${line.line}`, line, card, openUnits: line.units, leaves: line.due }];
}

function meanLight(climates: BayClimates, bay: string, date: string): number {
  const { ppfdUmolM2S } = climates.byBay[bay]!.inside;
  const from = Math.max(0, Math.round((instantMs(`${date}T00:00:00Z`) - climates.startMs) / 3_600_000));
  const ahead = ppfdUmolM2S.subarray(from);
  return lightIntegralMol(ahead.reduce((sum, ppfd) => sum + ppfd, 0) / Math.max(1, ahead.length), 24);
}

/** One more hour of lamps a day in every glass bay, at full power, in light as in time. */
function withLampHour(file: GreenhouseFile): GreenhouseFile {
  return {
    ...file, bays: file.bays.map((bay) => (bay.kind !== 'glass' || bay.lamps === undefined ? bay : {
      ...bay, lamps: { ...bay.lamps, hoursPerDayMax: Math.min(24, bay.lamps.hoursPerDayMax + 1), targetDliMolM2: bay.lamps.targetDliMolM2 + lightIntegralMol(bay.lamps.ppfdUmolM2S, 1) },
    })),
  };
}
