import type { ShiftDay } from '../day/shiftDay.ts';
import type { BasinOutlook, PlannedVisit } from '../morningPlan.ts';
import { expectedLossL, type BasinView } from '../needs/basinView.ts';
import { lowLevelDate, outOfBand } from '../needs/fillingNeed.ts';
import type { NeedDraft } from '../needs/needDraft.ts';
import { basinFullL, basinWeightKg } from '../../greenhouse/basinGeometry.ts';
import { roundTo, solutionView } from '../water/feedTicket.ts';
import { roundQuantiles } from './lotOutlook.ts';

const DAY_MS = 86_400_000;

/** A basin for people: what stands in it, its water, when it is ready, and what is to be done with it. */
export function basinOutlook(view: BasinView, needs: readonly NeedDraft[], visits: readonly PlannedVisit[], day: ShiftDay): BasinOutlook {
  const { basin, lot, card, water } = view;
  const forecast = lot?.forecast;
  const today = forecast?.dates.find(({ date }) => date === day.date);
  const readyDate = forecast?.readyDate.p50;
  const ready = forecast?.dates.find(({ date }) => date === readyDate);
  return {
    basin: basin.id, bay: basin.bay, berth: basin.berth,
    ...(basin.planting === undefined ? {} : { lot: basin.planting.lot, crop: basin.planting.crop, stage: basin.planting.stage, plants: basin.planting.plants }),
    ...(water.known ? { water: waterOutlook(view, day) } : { waterUnknown: water.reason }),
    ...(readyDate === undefined ? {} : { readyDate }),
    ...(today === undefined ? {} : { freshGToday: roundQuantiles(today.freshG) }),
    ...(ready === undefined ? {} : { freshGAtReady: roundQuantiles(ready.freshG) }),
    visitsToday: visits.map(({ visit }) => visit),
    needs: needs.map((need) => `${need.kind} (${need.urgency}): ${need.reason}`),
    ...(water.known ? { weightKg: Math.round(basinWeightKg(basin.type, water.solution.volumeL) + plantsKg(view, today?.freshG.p50)) } : {}),
    ...(card === undefined && basin.planting !== undefined ? { waterUnknown: `No crop card describes ${basin.planting.crop}.` } : {}),
  };
}

const plantsKg = (view: BasinView, freshG: number | undefined): number => ((freshG ?? 0) * (view.basin.planting?.plants ?? 0)) / 1000;

function waterOutlook(view: BasinView, day: ShiftDay): NonNullable<BasinOutlook['water']> {
  if (!view.water.known) throw new Error('asked for water that is not known');
  const { solution } = view.water;
  const lossL = expectedLossL(view, day.atMs, day.atMs + DAY_MS);
  const low = lowLevelDate(view, day);
  return {
    ...solutionView(solution, solution.basis),
    levelShare: roundTo(solution.volumeL / basinFullL(view.basin.type), 4), outOfBand: outOfBand(view).map(({ words }) => words),
    ...(view.basin.planting === undefined ? {} : { transpirationLPerDay: Math.round(lossL * 100) / 100 }),
    ...(low === undefined ? {} : { lowLevelDate: low }),
  };
}
