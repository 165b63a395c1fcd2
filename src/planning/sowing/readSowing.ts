import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { normalQuantile } from '../../science/crop/normalNumbers.ts';
import { sureGermination } from './growingLot.ts';
import { eachBlockShare } from './eachBlockShare.ts';
import { placesOfStages } from './placesOfStages.ts';
import type { SowingQuestion } from './sowingQuestion.ts';
import type { SowingProblem, SowingSource } from './sowingProblem.ts';
import type { CropByWeek, LimitByWeek, PlaceByWeek, Sowing, WeekFigure } from './sowingPlan.ts';
import type { SolvedSowing } from './solveSowing.ts';

/** Share of a limit that counts as binding. */
const BINDS = 0.995;

/** What was decided, source by source. */
export interface ReadSource {
  readonly source: SowingSource;
  readonly basins: number;
  /** Plants cut by cut. */
  readonly cut: readonly number[];
}

export function readSources(problem: SowingProblem, { built, solution }: SolvedSowing): ReadSource[] {
  const sources: readonly SowingSource[] = [...problem.options, ...problem.standing];
  const cuts = sources.map(({ cuts }) => cuts.map(() => 0));
  for (const { source, cut, column } of built.cutColumns) cuts[source]![cut] = Math.max(0, solution.columnValue[column]!);
  return sources.map((source, i) => ({ source, cut: cuts[i]!, basins: i < problem.options.length ? Math.max(0, Math.round(solution.columnValue[built.basinsColumn[i]!]!)) : problem.standing[i - problem.options.length]!.basins }));
}

/** The sow list: every option that is used, with the orders that it serves. */
export function readSowings(question: SowingQuestion, problem: SowingProblem, read: readonly ReadSource[]): Sowing[] {
  const serves = assignOrders(question, read);
  return problem.options.flatMap((option, i): Sowing[] => {
    const { basins, cut } = read[i]!;
    if (basins === 0) return [];
    const card = question.cards.find(({ id }) => id === option.crop)!;
    const plants = basins * option.plantsPerBasin;
    const used = option.cuts.filter((_, k) => cut[k]! > 0.5);
    const [first, last] = [used[0] ?? option.cuts[0]!, used.at(-1) ?? option.cuts[0]!];
    const seeds = Math.ceil(plants / sureGermination(card, question.house.file.sowing.serviceLevel));
    const { calendar } = question;
    return [{
      sowDate: calendar.dateOf(option.sowDay), crop: card.id, cropTitle: card.title, seeds, trays: Math.ceil(seeds / card.sowing.cellsPerTray), plants,
      basins: stagesOf(card, question, option.place, option, basins), unit: card.soldBy,
      harvestFrom: calendar.dateOf(problem.blocks[first.block]!.fromDay), harvestTo: calendar.dateOf(problem.blocks[last.block]!.toDay),
      meanUnits: Math.round(plants * first.unitsPerPlant), sureUnits: Math.round(plants * first.unitsPerPlant * Math.max(0, 1 - normalQuantile(question.house.file.sowing.serviceLevel) * card.sowing.saleableSpread)),
      orders: serves[i]!.orders, forExpectedUnits: Math.round(serves[i]!.expectedUnits),
    }];
  }).sort((a, b) => (a.sowDate < b.sowDate ? -1 : a.sowDate > b.sowDate ? 1 : a.crop < b.crop ? -1 : 1));
}

function stagesOf(card: CropCard, question: SowingQuestion, glassId: string, source: SowingSource, basins: number): Sowing['basins'] {
  const glass = question.house.places.find(({ id }) => id === glassId)!;
  const places = placesOfStages(card, question.house, glass);
  return card.stages.map((stage, i) => {
    const earlier = source.stages[i];
    return {
      stage: stage.title, place: places[i]!.title, basins: earlier === undefined ? basins : Math.ceil(basins * earlier.basinsPerFinal - 1e-9),
      from: question.calendar.dateOf(earlier === undefined ? source.finalFromDay : earlier.fromDay),
    };
  });
}

interface Serves { readonly orders: Sowing['orders'][number][]; expectedUnits: number }

/** Units of each source's cuts given to the order lines of the block, the oldest source and the earliest line first. */
function assignOrders(question: SowingQuestion, read: readonly ReadSource[]): Serves[] {
  const serves = read.map((): Serves => ({ orders: [], expectedUnits: 0 }));
  const open = new Map(question.lines.map((line) => [line.key, line.openUnits]));
  const age = (source: SowingSource) => source.finalFromDay;
  question.calendar.blocks.forEach((_, block) => {
    const givers = read.flatMap(({ source, cut }, i) => source.cuts.flatMap((each, k) => (each.block === block && cut[k]! > 0.5 ? [{ i, source, units: cut[k]! * each.unitsPerPlant }] : []))).sort((a, b) => age(a.source) - age(b.source));
    for (const giver of givers) {
      for (const { key, line, leaves } of question.lines) {
        if (line.crop !== giver.source.crop || question.calendar.blockAt(question.calendar.dayOf(leaves)) !== block) continue;
        const units = Math.min(giver.units, open.get(key)!);
        if (units < 0.05) continue;
        open.set(key, open.get(key)! - units);
        giver.units -= units;
        serves[giver.i]!.orders.push({ order: line.order, line: line.line, customer: line.customer, due: leaves, units: Math.round(units * 10) / 10 });
      }
      serves[giver.i]!.expectedUnits += giver.units;
    }
  });
  return serves;
}

/** Basins of each place by week. */
export function readCapacity(problem: SowingProblem, read: readonly ReadSource[], dateOf: (day: number) => string): PlaceByWeek[] {
  const used = { standing: new Map<string, number>(), sown: new Map<string, number>() };
  read.forEach(({ source, basins, cut }, i) => {
    const map = i < problem.options.length ? used.sown : used.standing;
    const on = (place: string, block: number, amount: number) => map.set(`${place}/${block}`, (map.get(`${place}/${block}`) ?? 0) + amount);
    for (const stage of source.stages) eachBlockShare(problem, stage.fromDay, stage.toDay, (block, share) => on(stage.place, block, share * Math.ceil(basins * stage.basinsPerFinal - 1e-9)));
    const lastDay = source.cuts.length === 0 ? source.finalFromDay : problem.blocks[source.cuts.at(-1)!.block]!.toDay + 1;
    eachBlockShare(problem, source.finalFromDay, lastDay, (block, share) => on(source.place, block, share * basins));
    source.cuts.forEach((_, k) => { for (const later of source.cuts.slice(k + 1)) on(source.place, later.block, -cut[k]! / source.plantsPerBasin); });
  });
  return problem.places.map((place) => ({
    place: place.id, title: place.title, kind: place.kind, basins: place.basins, usableBasins: place.usableBasins, basinM2: place.basinM2,
    weeks: weeksOf(problem, dateOf).map(({ blocks, ...week }) => {
      const days = blocks.reduce((sum, b) => sum + lengthOf(problem, b), 0);
      const mean = (map: Map<string, number>) => blocks.reduce((sum, b) => sum + (map.get(`${place.id}/${b}`) ?? 0) * lengthOf(problem, b), 0) / days;
      const most = Math.max(...blocks.map((b) => (used.standing.get(`${place.id}/${b}`) ?? 0) + (used.sown.get(`${place.id}/${b}`) ?? 0)));
      return { ...week, standing: round(mean(used.standing), 1), sown: round(mean(used.sown), 1), binds: most >= BINDS * place.usableBasins };
    }),
  }));
}

export function readLimits(problem: SowingProblem, read: readonly ReadSource[], dateOf: (day: number) => string): LimitByWeek[] {
  const used = new Map<string, number>();
  for (const { source, basins, cut } of read) {
    for (const [id, amount] of Object.entries(source.takes)) used.set(id, (used.get(id) ?? 0) + amount * basins);
    source.cuts.forEach((each, k) => { for (const [id, amount] of Object.entries(each.takesPerPlant)) used.set(id, (used.get(id) ?? 0) + amount * cut[k]!); });
  }
  const weeks = weeksOf(problem, dateOf);
  return [...new Set(problem.limits.map(({ title }) => title))].map((title) => {
    const own = problem.limits.filter((limit) => limit.title === title && weeks.some(({ week }) => week === limit.week));
    return { title, unit: own[0]!.unit, weeks: own.map(({ id, week, amount }) => ({ from: dateOf(week * 7), to: dateOf(week * 7 + 6), used: round(used.get(id) ?? 0, 1), limit: round(amount, 1), binds: (used.get(id) ?? 0) >= BINDS * amount })) };
  });
}

/** What is wanted of each crop by week, how much of it the plan covers with the chance asked for, what stays short. */
export function readCrops(cards: readonly CropCard[], problem: SowingProblem, { built, solution }: SolvedSowing, dateOf: (day: number) => string): CropByWeek[] {
  const weeks = weeksOf(problem, dateOf);
  return cards.map((card) => ({
    crop: card.id, title: card.title, unit: card.soldBy,
    weeks: weeks.map(({ blocks, from, to }) => {
      const own = problem.demand.map((demand, i) => ({ ...demand, short: solution.columnValue[built.shortColumn[i]!]! })).filter(({ crop, block }) => crop === card.id && blocks.includes(block));
      const sum = (of: (each: (typeof own)[number]) => number) => Math.round(own.reduce((total, each) => total + of(each), 0));
      const [orderedUnits, expectedUnits, shortUnits] = [sum((each) => each.orderedUnits), sum((each) => each.expectedUnits), sum((each) => each.short)];
      return { from, to, orderedUnits, expectedUnits, shortUnits, coveredUnits: orderedUnits + expectedUnits - shortUnits };
    }),
  }));
}

interface BlocksOfWeek extends WeekFigure { readonly week: number; readonly blocks: readonly number[] }

/** The weeks that blocks belong to, in turn. */
function weeksOf(problem: SowingProblem, dateOf: (day: number) => string): BlocksOfWeek[] {
  const weeks = [...new Set(problem.blocks.map(({ week }) => week))];
  return weeks.map((week) => ({ week, from: dateOf(week * 7), to: dateOf(week * 7 + 6), blocks: [...problem.blocks.keys()].filter((b) => problem.blocks[b]!.week === week) }));
}

const lengthOf = (problem: SowingProblem, block: number): number => problem.blocks[block]!.toDay + 1 - problem.blocks[block]!.fromDay;
const round = (value: number, decimals: number): number => Number(value.toFixed(decimals));
