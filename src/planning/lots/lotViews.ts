import type { CropCard, CropStage } from '../../greenhouse/schema/cropCard.ts';
import type { LotRow } from '../../greenhouse/schema/tableRows.ts';
import type { BasinState, GreenhouseState } from '../../greenhouse/state.ts';
import type { BayClimates } from '../climate/bayClimates.ts';
import { addDays, daysBetween } from '../day/shiftDay.ts';

/** A lot as it stands: where, at which stage, and how it came there. */
export interface LotView {
  readonly lot: string;
  readonly card: CropCard;
  readonly basins: readonly BasinState[];
  readonly sown: string;
  /** Latest day on which plants of the lot came into a basin of this stage. */
  readonly placed: string;
  readonly stage: CropStage;
  readonly stageIndex: number;
  readonly plants: number;
  /** Day on which the seedlings came into a basin: known, or counted back from the planned durations of the stages before. */
  readonly planting: string;
  /** Plants per m2 from that day on, the stages to come as planned. */
  readonly densities: readonly { readonly date: string; readonly plantsPerM2: number }[];
  /** Planned end of the stage. */
  readonly stageEnds: string;
}

/** Every lot that stands in basins, by lot code. Lots of a crop without a card are left out; `lotsWithoutCard` names them. */
export function viewLots(state: GreenhouseState, climates: BayClimates): LotView[] {
  const byLot = new Map<string, BasinState[]>();
  for (const basin of Object.values(state.basins)) {
    if (basin.planting !== undefined) byLot.set(basin.planting.lot, [...(byLot.get(basin.planting.lot) ?? []), basin]);
  }
  return [...byLot].sort(([a], [b]) => (a < b ? -1 : 1)).flatMap(([lot, basins]) => {
    const card = state.crops[basins[0]!.planting!.crop];
    return card === undefined ? [] : [viewLot(lot, card, basins, climates)];
  });
}

export function lotsWithoutCard(state: GreenhouseState): { lot: string; crop: string }[] {
  const missing = new Map<string, string>();
  for (const { planting } of Object.values(state.basins)) if (planting !== undefined && state.crops[planting.crop] === undefined) missing.set(planting.lot, planting.crop);
  return [...missing].map(([lot, crop]) => ({ lot, crop }));
}

function viewLot(lot: string, card: CropCard, basins: readonly BasinState[], climates: BayClimates): LotView {
  const rows = basins.map(({ planting }) => planting!);
  const stageIndex = Math.max(0, ...rows.map((row) => card.stages.findIndex(({ id }) => id === row.stage)));
  const stage = card.stages[stageIndex]!;
  const ofStage = basins.filter(({ planting }) => planting!.stage === stage.id);
  const here = ofStage.length > 0 ? ofStage : basins;
  const placed = latest(here.map(({ planting }) => planting!.placed));
  const days = (index: number, from: string): number => stageDays(card.stages[index]!, here[0]!.bay, from, climates);
  const sown = rows.reduce((first, row) => (row.sown < first ? row.sown : first), rows[0]!.sown);
  const starts = stageStarts(card, stageIndex, placed, days).map((date) => (date < sown ? sown : date));
  return {
    lot, card, basins, sown, placed, stage, stageIndex, planting: starts[0]!,
    plants: rows.reduce((sum: number, row: LotRow) => sum + row.plants, 0),
    densities: starts.map((date, i) => ({ date, plantsPerM2: i === stageIndex ? densityNow(here) : card.stages[i]!.plantsPerM2 })),
    stageEnds: addDays(placed, days(stageIndex, placed)),
  };
}

/** First day of each stage: this one as recorded, those before and after by their planned durations. */
function stageStarts(card: CropCard, stageIndex: number, placed: string, days: (index: number, from: string) => number): string[] {
  const starts: string[] = [];
  starts[stageIndex] = placed;
  for (let i = stageIndex - 1; i >= 0; i--) starts[i] = addDays(starts[i + 1]!, -days(i, starts[i + 1]!));
  for (let i = stageIndex + 1; i < card.stages.length; i++) starts[i] = addDays(starts[i - 1]!, days(i - 1, starts[i - 1]!));
  return starts;
}

/** Planned days of a stage; thermal time is summed day by day over the climate of the bay, and at its mean beyond that. */
export function stageDays(stage: CropStage, bay: string, from: string, climates: BayClimates): number {
  if (stage.days !== undefined) return Math.round(stage.days);
  return Math.max(1, thermalDays(stage.degreeDays!, stage.baseC, dayMeansC(bay, from, climates)));
}

/** Mean temperatures of the days from a date on, as far as the climate reaches. */
function dayMeansC(bay: string, from: string, climates: BayClimates): number[] {
  const airC = climates.byBay[bay]?.inside.airC ?? new Float64Array();
  const first = Math.round((Date.parse(`${from}T00:00:00Z`) - climates.startMs) / 3_600_000 - climates.utcOffsetH);
  const means: number[] = [];
  for (let hour = first; hour + 24 <= airC.length; hour += 24) {
    if (hour < 0) continue;
    means.push(airC.subarray(hour, hour + 24).reduce((sum, c) => sum + c, 0) / 24);
  }
  return means;
}

/** Days until a thermal time above a base is reached. */
export function thermalDays(degreeDays: number, baseC: number, meansC: readonly number[]): number {
  let sum = 0;
  for (const [i, meanC] of meansC.entries()) {
    sum += Math.max(0, meanC - baseC);
    if (sum >= degreeDays) return i + 1;
  }
  const perDay = meansC.length === 0 ? 15 : Math.max(0.5, sum / meansC.length);
  return meansC.length + Math.ceil((degreeDays - sum) / perDay);
}

function densityNow(basins: readonly BasinState[]): number {
  const plants = basins.reduce((sum, { planting }) => sum + planting!.plants, 0);
  const areaM2 = basins.reduce((sum, { type }) => sum + (type.lengthMm * type.widthMm) / 1e6, 0);
  return plants / areaM2;
}

const latest = (dates: readonly string[]): string => dates.reduce((best, date) => (date > best ? date : best));

/** Days that a lot is past the planned end of its stage; negative before it. */
export const daysOverStage = (view: LotView, date: string): number => daysBetween(view.stageEnds, date);
