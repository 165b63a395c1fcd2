import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { OrderLine } from '../../greenhouse/schema/tableRows.ts';
import { daysBetween } from '../../planning/day/shiftDay.ts';
import type { OpenLine } from '../../planning/orders/outlookOrders.ts';
import type { LinearSolver } from '../../planning/solver/linearModel.ts';
import { expectOrders } from '../../planning/sowing/expectedOrders.ts';
import { placesPerBasin } from '../../planning/sowing/growingLot.ts';
import { recordOf, type CurveRatio, type HouseRecord } from '../../planning/sowing/houseRecord.ts';
import { readSources, readSowings } from '../../planning/sowing/readSowing.ts';
import { unitsOfCurve, type SeasonCurve } from '../../planning/sowing/seasonGrowth.ts';
import { solveSowing } from '../../planning/sowing/solveSowing.ts';
import { sowingCalendar, type SowingCalendar } from '../../planning/sowing/sowingCalendar.ts';
import type { SowingHouse } from '../../planning/sowing/sowingHouse.ts';
import { placesOfStages } from '../../planning/sowing/placesOfStages.ts';
import { sowingProblemOf } from '../../planning/sowing/sowingProblemOf.ts';
import type { StandingLot } from '../../planning/sowing/sowingQuestion.ts';
import { unitsAhead } from '../../planning/sowing/unitsAhead.ts';
import type { SeasonSowing } from './seasonSowing.ts';

/** A standing lot as the planner knows it. */
export interface KnownLot { readonly id: string; readonly card: CropCard; readonly sowDate: string; readonly plants: number; readonly stage: number; readonly movesOn: string; readonly basins: number }

type DatedRatio = Omit<CurveRatio, 'ageDays'> & { readonly date: string };

export interface PlannerSettings { readonly weeksAhead: number; readonly daysAfter: number; readonly relativeGap: number; readonly maxNodes: number }

/** What one weighing is worth against the season's curve: error of six plants and of growth from then to harvest (own choice). */
const WEIGHING_LOG_SD = 0.08;
/** The same, for each unit of ln(mass of a ready plant / mass weighed). */
const SIZE_LOG_SD = 0.1;
const KEPT_RATIOS = 160;

/** The planner of the season test: src/planning/sowing on a rolling horizon, with weighings instead of the full lot forecasts. */
export class SeasonPlanner {
  readonly #house: SowingHouse;
  readonly #cards: readonly CropCard[];
  readonly #curveOf: (crop: string, sowDate: string) => SeasonCurve | undefined;
  readonly #solver: LinearSolver;
  readonly #settings: PlannerSettings;
  readonly #ratios = new Map<string, DatedRatio[]>();
  readonly #lastOfLot = new Map<string, DatedRatio>();

  constructor(house: SowingHouse, cards: readonly CropCard[], curveOf: (crop: string, sowDate: string) => SeasonCurve | undefined, solver: LinearSolver, settings: PlannerSettings) {
    this.#house = house;
    this.#cards = cards;
    this.#curveOf = curveOf;
    this.#solver = solver;
    this.#settings = settings;
  }

  /** A lot was weighed. */
  learn(lot: KnownLot, date: string, meanG: number): void {
    const curveG = this.#curveOf(lot.card.id, lot.sowDate)?.days.find((day) => day.date === date)?.freshG;
    if (curveG === undefined || meanG < 0.03 * lot.card.harvest.readyFreshG) return;
    const ratio = { date, logRatio: Math.log(meanG / curveG), logSize: Math.log(meanG / lot.card.harvest.readyFreshG) };
    this.#lastOfLot.set(lot.id, ratio);
    this.#ratios.set(lot.card.id, [...(this.#ratios.get(lot.card.id) ?? []), ratio].slice(-KEPT_RATIOS));
  }

  /** Sowings of the week that begins on this date. */
  planWeek(date: string, lots: readonly KnownLot[], known: readonly OrderLine[]): SeasonSowing[] {
    const { file } = this.#house;
    const calendar = sowingCalendar(date, this.#settings.weeksAhead, file.sowing.weekdays, this.#settings.daysAfter);
    const records = new Map(this.#cards.map((card) => [card.id, recordOf((this.#ratios.get(card.id) ?? []).map((ratio) => ({ ...ratio, ageDays: daysBetween(ratio.date, date) })))]));
    const lines = known.filter(({ due }) => due >= date).map((line): OpenLine => ({ key: `${line.order}/${line.line}`, line, card: this.#cards.find(({ id }) => id === line.crop)!, openUnits: line.units, leaves: line.due }));
    const question = {
      house: this.#house, calendar, cards: this.#cards, lines, expected: expectOrders(known, date, file.sowing.ordersKnownDays),
      standing: lots.map((lot) => this.#standing(lot, calendar, records.get(lot.card.id)!)),
      growth: (card: CropCard, _: unknown, sowDate: string) => {
        const curve = this.#curveOf(card.id, sowDate);
        return curve === undefined ? undefined : unitsOfCurve(card, curve, records.get(card.id)!);
      },
    };
    const problem = sowingProblemOf(question);
    const read = readSources(problem, solveSowing(problem, this.#solver, { relativeGap: this.#settings.relativeGap, maxNodes: this.#settings.maxNodes, wholeStagesDays: 7 }));
    return readSowings(question, problem, read).filter(({ sowDate }) => calendar.dayOf(sowDate) < 7)
      .map(({ crop, sowDate, seeds, plants, basins }) => ({ crop, sowDate, seeds, plants, inBasinOn: basins[0]!.from }));
  }

  #standing(lot: KnownLot, calendar: SowingCalendar, record: HouseRecord): StandingLot {
    const { card } = lot;
    const glass = this.#house.places.find(({ kind }) => kind === 'glass')!;
    const places = placesOfStages(card, this.#house, glass);
    const perFinal = placesPerBasin(card, card.stages.length - 1, places.at(-1)!);
    const isLast = lot.stage === card.stages.length - 1;
    const basins = isLast ? lot.basins : Math.max(1, Math.ceil(lot.plants / perFinal));
    let from = Math.max(0, calendar.dayOf(lot.movesOn));
    const first = Math.max(0, lot.stage);
    const stages = card.stages.flatMap((stage, i): StandingLot['stages'][number][] => {
      if (i < first) return [];
      const fromDay = i === lot.stage ? 0 : from;
      const toDay = i === card.stages.length - 1 ? Infinity : i === lot.stage ? from : from + Math.round(stage.days ?? 14);
      if (i !== lot.stage) from = toDay;
      return [{ stage: i, place: places[i]!, fromDay, toDay }];
    });
    return { id: lot.id, card, basins, plantsPerBasin: lot.plants / basins, isNew: false, ...(lot.stage >= 0 ? { standingRatio: lot.basins / basins } : {}), stages, units: this.#unitsOf(lot, calendar, record) };
  }

  /** The season's curve, moved by the house's record and by what the lot's own last weighing adds to it. */
  #unitsOf(lot: KnownLot, calendar: SowingCalendar, record: HouseRecord): StandingLot['units'] {
    const curve = this.#curveOf(lot.card.id, lot.sowDate);
    if (curve === undefined) return [];
    const own = this.#lastOfLot.get(lot.id);
    const trust = own === undefined ? 0 : record.logSd ** 2 / (record.logSd ** 2 + WEIGHING_LOG_SD ** 2 + (SIZE_LOG_SD * own.logSize) ** 2);
    const moved = record.logBias + (own === undefined ? 0 : trust * (own.logRatio - record.logBias - record.slope * own.logSize));
    const logSd = record.logSd * Math.sqrt(1 - trust);
    const days = curve.days.filter(({ date }) => date >= calendar.date && date >= curve.starts.at(-1)!).map(({ date, freshG }) => ({ date, freshG: freshG * Math.exp(moved), logSd, sharedLogSd: record.sharedLogSd * (1 - trust) }));
    return unitsAhead(lot.card, curve.plantLogSd, days);
  }
}
