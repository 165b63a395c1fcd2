import { basinAreaM2, basinFullL, basinLeastL } from '../../greenhouse/basinGeometry.ts';
import type { StationKind } from '../../greenhouse/schema/greenhouseFile.ts';
import { addDays, daysBetween, localDate } from '../day/shiftDay.ts';
import { expectedLossL, type BasinView } from '../needs/basinView.ts';
import { fillingNeed } from '../needs/fillingNeed.ts';
import type { DraftVisit } from '../visits/draftVisit.ts';
import { WEEK_DAYS, type ExpectedVisit } from './expectedVisit.ts';
import type { ExpectedHarvest } from './expectHarvests.ts';
import type { WeekQuestion } from './weekQuestion.ts';

/** Days before the level is too low from which a basin is refilled, and around its turn in which it is imaged (common practice, no source). */
const FILL_AHEAD_DAYS = 3;
const IMAGE_AROUND_DAYS = 2;
/** Days after the planned end of a stage within which plants still move on without harm (common practice, no source). */
const MOVE_LATE_DAYS = 2;
/** Days that a basin may wait for its washing (common practice, no source). */
const WASH_LATE_DAYS = 3;
const DAY_MS = 86_400_000;

interface BasinDays { readonly view: BasinView; readonly today: DraftVisit | undefined; readonly question: WeekQuestion }

/** Visits of day 1 to 13; those of day 0 are the plan's. `harvests` by basin. */
export function expectVisits(question: WeekQuestion, harvests: ReadonlyMap<string, ExpectedHarvest>): ExpectedVisit[] {
  const today = new Map(question.today.map((draft) => [draft.view.basin.id, draft]));
  return question.basins.flatMap((view): ExpectedVisit[] => {
    const days: BasinDays = { view, today: today.get(view.basin.id), question };
    if (view.basin.planting === undefined) return days.today?.stops.some(({ kind }) => kind === 'transplanting') ? imagesAfter(days, 0) : washing(days);
    if (days.today?.stops.some(({ kind, effect }) => kind === 'harvest' || (effect.kind === 'transplanting' && effect.fromBasin === view.basin.id))) return [];
    const last = emptied(days, harvests.get(view.basin.id));
    return [...upkeep(days, Math.min(WEEK_DAYS, last[0]?.earliest ?? WEEK_DAYS)), ...last].filter(({ day }) => day < WEEK_DAYS);
  });
}

function washing({ view: { basin }, today }: BasinDays): ExpectedVisit[] {
  if (!basin.needsWash || today !== undefined) return [];
  return [{ basin: basin.id, why: 'emptied and not washed since', day: 1, earliest: 1, latest: 1 + WASH_LATE_DAYS, stops: [{ kind: 'washing', plants: 0, litres: 0 }] }];
}

/** The visit on which the plants leave the basin, and those of the basins that take them. */
function emptied(days: BasinDays, harvest: ExpectedHarvest | undefined): ExpectedVisit[] {
  const { view: { basin } } = days;
  if (harvest !== undefined) return [{ basin: basin.id, ...harvest, stops: emptyingStops('harvest', days, harvest.day) }];
  return movedOn(days);
}

function movedOn(days: BasinDays): ExpectedVisit[] {
  const { view: { basin, lot }, question: { day } } = days;
  const view = lot?.view;
  const next = view?.card.stages[view.stageIndex + 1];
  if (view === undefined || next === undefined || basin.planting!.stage !== view.stage.id) return [];
  const due = Math.max(1, daysBetween(day.date, view.stageEnds));
  if (due >= WEEK_DAYS) return [];
  const window = { day: due, earliest: due, latest: due + MOVE_LATE_DAYS };
  const { plants } = basin.planting!;
  const each = Math.max(1, Math.round(next.plantsPerM2 * basinAreaM2(basin.type)));
  const takers = Array.from({ length: Math.ceil(plants / each) }, (_, i) => Math.min(each, plants - i * each));
  return [
    { basin: basin.id, ...window, why: `${view.stage.title} stage of ${view.lot} ends ${view.stageEnds}`, stops: emptyingStops('transplanting', days, due) },
    ...takers.map((taken): ExpectedVisit => ({
      basin: basin.id, ...window, why: `a basin takes ${taken} plants of ${view.lot} from ${basin.id}`,
      stops: [{ kind: 'filling', plants: 0, litres: basinFullL(basin.type) }, { kind: 'transplanting', plants: taken, litres: 0 }],
    })),
    ...takers.flatMap(() => imagesAfter(days, due)),
  ];
}

/** Images of plants that moved on, by their interval. */
function imagesAfter({ view: { basin, card }, question: { file } }: BasinDays, moved: number): ExpectedVisit[] {
  const everyDays = Math.min(file.imagingEveryDays, card?.handling.imagingEveryDays ?? Infinity);
  return Array.from({ length: Math.floor((WEEK_DAYS - 1 - moved) / everyDays) }, (_, i): ExpectedVisit => {
    const day = moved + (i + 1) * everyDays;
    return { basin: basin.id, why: 'plants that moved on, their turn to be imaged', day, earliest: day - Math.min(IMAGE_AROUND_DAYS, everyDays - 1), latest: day + IMAGE_AROUND_DAYS, stops: [stop('imaging', 0)] };
  });
}

function emptyingStops(kind: 'harvest' | 'transplanting', days: BasinDays, day: number): ExpectedVisit['stops'] {
  const { view, question: { file } } = days;
  const plants = view.basin.planting!.plants;
  return [{ kind, plants, litres: 0 }, ...(file.washAfterHarvest ? [{ kind: 'washing' as const, plants: 0, litres: levelOn(days, day) }] : [])];
}

/** Images by their interval and fillings by the level, until the plants leave; what is due soon rides along. */
function upkeep(days: BasinDays, until: number): ExpectedVisit[] {
  const visits: ExpectedVisit[] = [];
  let image = firstImage(days);
  let filled: Filled = startOfWater(days);
  let fill = nextFilling(days, filled);
  for (let at = Math.max(1, Math.min(image.due, fill.due)); at < until; at = Math.max(at + 1, Math.min(image.due, fill.due))) {
    const images = image.due <= at + IMAGE_AROUND_DAYS;
    const fills = fill.due <= at + FILL_AHEAD_DAYS;
    visits.push(upkeepVisit(days, at, images ? image.due : undefined, fills ? { due: fill.due, why: fill.why, litres: Math.max(0, basinFullL(days.view.basin.type) - levelAfter(days, filled, at)) } : undefined));
    if (images) image = { due: at + image.everyDays, everyDays: image.everyDays };
    if (fills) { filled = { day: at, volumeL: basinFullL(days.view.basin.type) }; fill = nextFilling(days, filled); }
  }
  return visits;
}

function upkeepVisit({ view: { basin } }: BasinDays, day: number, imageDue: number | undefined, fill: { due: number; why: string; litres: number } | undefined): ExpectedVisit {
  const bounds = [...(imageDue === undefined ? [] : [[imageDue - IMAGE_AROUND_DAYS, imageDue + IMAGE_AROUND_DAYS]]), ...(fill === undefined ? [] : [[fill.due - FILL_AHEAD_DAYS, fill.due]])] as [number, number][];
  const why = [...(imageDue === undefined ? [] : ['its turn to be imaged']), ...(fill === undefined ? [] : [fill.why])].join('; ');
  return {
    basin: basin.id, why, day, earliest: Math.max(1, Math.min(day, Math.max(...bounds.map(([from]) => from)))), latest: Math.max(day, Math.min(...bounds.map(([, to]) => to))),
    stops: [...(imageDue === undefined ? [] : [stop('imaging', 0)]), ...(fill === undefined ? [] : [stop('filling', fill.litres)])],
  };
}

const stop = (kind: StationKind, litres: number) => ({ kind, plants: 0, litres });

function firstImage({ view: { basin, card }, today, question: { file, day } }: BasinDays): { due: number; everyDays: number } {
  if (card === undefined) return { due: Infinity, everyDays: Infinity };
  const everyDays = Math.min(file.imagingEveryDays, card.handling.imagingEveryDays);
  if (today?.stops.some(({ kind }) => kind === 'imaging')) return { due: everyDays, everyDays };
  const imaged = basin.imagedAt === undefined ? undefined : localDate(Date.parse(basin.imagedAt), day.timeZone);
  const since = imaged === undefined || imaged < basin.planting!.placed ? basin.planting!.placed : imaged;
  return { due: Math.max(1, daysBetween(day.date, addDays(since, everyDays))), everyDays };
}

/** Litres in a basin at the end of a day's shift. */
interface Filled { readonly day: number; readonly volumeL: number; readonly now?: true }

function startOfWater({ view: { water }, today }: BasinDays): Filled {
  const filling = today?.stops.find(({ effect }) => effect.kind === 'filling')?.effect;
  if (filling?.kind === 'filling') return { day: 0, volumeL: filling.resultVolumeL };
  return { day: 0, volumeL: water.known ? water.solution.volumeL : 0, now: true };
}

const levelOn = (days: BasinDays, day: number): number => (days.view.water.known ? levelAfter(days, startOfWater(days), day) : 0);

function levelAfter({ view, question: { day } }: BasinDays, from: Filled, at: number): number {
  const fromMs = from.now === true ? day.atMs : day.endMs + from.day * DAY_MS;
  return Math.max(0, from.volumeL - expectedLossL(view, fromMs, day.endMs + at * DAY_MS));
}

/** The day at whose end the level would be too low; at once where the plan of the day left a filling open. */
function nextFilling(days: BasinDays, filled: Filled): { due: number; why: string } {
  const { view, question: { day } } = days;
  if (!view.water.known || view.card === undefined) return { due: Infinity, why: '' };
  const open = filled.now === true ? fillingNeed(view, day) : undefined;
  if (open !== undefined && open.urgency !== 'may') return { due: Math.max(1, daysBetween(day.date, open.dueDate ?? day.date)), why: open.reason };
  for (let at = filled.day + 1; at < WEEK_DAYS + FILL_AHEAD_DAYS; at++) {
    if (levelAfter(days, filled, at) < basinLeastL(view.basin.type)) return { due: Math.max(1, at), why: `falls below ${Math.round(basinLeastL(view.basin.type))} L on ${addDays(day.date, at)}` };
  }
  return { due: Infinity, why: '' };
}
