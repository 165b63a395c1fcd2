import type { BasinState } from '../../greenhouse/state.ts';
import type { BasinOutlook, MorningPlan } from '../../planning/morningPlan.ts';
import type { BasinAnswer } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { refuse } from '../http/answers.ts';
import { sheetVisitOf } from '../planning/sheetOf.ts';
import { concernsBasin, journalLine } from './journalLine.ts';
import { readingRanges } from './readingRanges.ts';
import { waterBands } from './waterBands.ts';

const HISTORY_EVENTS = 2000;
const HISTORY_LINES = 30;
const READINGS_DAYS = 10;
const DAY_MS = 86_400_000;

/** Everything the desk knows of one basin. Refused where the basin is not described. */
export async function basinView(desk: DeskParts, id: string): Promise<BasinAnswer> {
  const state = desk.greenhouse.state();
  const basin = state.basins[id];
  if (basin === undefined) throw refuse('reference-unknown', 'address.id', `No basin "${id}" is described in greenhouse.yaml.`, id);
  const plan = desk.morning.newest();
  const outlook = plan?.basins.find((is) => is.basin === id) ?? bareOutlook(basin);
  const card = outlook.crop === undefined ? undefined : state.crops[outlook.crop];
  const nowAt = desk.nowAt();
  const readings = await desk.greenhouse.readings(`basin:${id}`, new Date(Date.parse(nowAt) - READINGS_DAYS * DAY_MS).toISOString(), nowAt);
  return {
    date: plan?.date ?? nowAt.slice(0, 10), outlook, bayTitle: state.file?.bays.find((bay) => bay.id === basin.bay)?.title ?? basin.bay, dimensions: dimensionsOf(basin),
    cropTitle: card?.title, cultivar: card?.cultivar, stageTitle: card?.stages.find((stage) => stage.id === outlook.stage)?.title,
    readyFreshG: card?.harvest.readyFreshG, latestFreshG: card?.harvest.latestFreshG,
    lot: plan?.lots.find((lot) => lot.lot === outlook.lot),
    needs: plan?.needs.filter((need) => need.basin === id) ?? [],
    visits: plan?.visits.filter((visit) => visit.basin === id).map(sheetVisitOf) ?? [],
    bands: card === undefined ? [] : waterBands(outlook, card),
    readings: readingRanges(readings),
    history: await historyOf(desk, id, plan),
  };
}

function bareOutlook(basin: BasinState): BasinOutlook {
  return { basin: basin.id, bay: basin.bay, berth: basin.berth, lot: basin.planting?.lot, crop: basin.planting?.crop, stage: basin.planting?.stage, plants: basin.planting?.plants, waterUnknown: 'no plan has been computed yet', visitsToday: [], needs: [] };
}

function dimensionsOf({ type }: BasinState): BasinAnswer['dimensions'] {
  const { lengthMm, widthMm, depthMm, rafts } = type;
  return { lengthMm, widthMm, depthMm, rafts, fullL: (lengthMm * widthMm * depthMm) / 1e6 };
}

/** Newest first. */
async function historyOf(desk: DeskParts, id: string, plan: MorningPlan | undefined) {
  const visits = new Set(plan?.visits.filter((visit) => visit.basin === id).map((visit) => visit.visit));
  const approved = desk.greenhouse.state().approved?.visits.filter((visit) => visit.basin === id) ?? [];
  approved.forEach((visit) => visits.add(visit.visit));
  const events = await desk.greenhouse.events(undefined, HISTORY_EVENTS);
  return events.filter((event) => concernsBasin(event, id, visits)).slice(-HISTORY_LINES).reverse().map(journalLine);
}
