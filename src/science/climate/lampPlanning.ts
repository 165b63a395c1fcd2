/**
 * When lamps burn so that each day reaches its light integral at least cost.
 *
 * One day and one dark period make a linear programme: least sum of price x electricity over shares between 0 and 1, with the
 * light missing from the sun to be filled. Every hour gives the same light for the same electricity, so filling the cheapest
 * hours first, the last in part, is its exact optimum, and the price of that last hour is the price of one more mol (the dual
 * value). The dark period is tried at every hour of the clock and kept the same on all days, as plants want it.
 */
import { localHourOfDay } from './hourGrid.ts';
import { isWithin, lampPowerWM2, lightIntegralMol } from './lightInside.ts';
import type { HourGrid, LampDesign } from './types.ts';

/** What a lamp plan is made from; arrays have an entry for each hour of the grid. */
export interface LampPlanRequest extends HourGrid {
  readonly lamps: Pick<LampDesign, 'ppfdUmolM2S' | 'efficacyUmolJ'>;
  /** Sunlight above the crop, mean over the hour. */
  readonly sunPpfdUmolM2S: Float64Array;
  /** Price of a kWh in the hour, after what its heat saves (`netLampPrice`). */
  readonly pricePerKWh: Float64Array;
  /** Light integral wanted on each local day, mol/m2. */
  readonly targetDliMolM2: number;
  /** Hours on end, 0 to 24, in which lamps stay off every day; the plan looks for a stretch without sun too. */
  readonly darkH: number;
  /** Light above the crop that lamps must not push past, umol/(m2 s). Absent: none. */
  readonly mostPpfdUmolM2S?: number;
  /** Lamp shares of hours that are past: kept as they are. */
  readonly pastShares?: Float64Array;
}

/** One local day of a plan. */
interface LampDay {
  readonly fromHour: number;
  readonly toHour: number;
  readonly dliMolM2: number;
  readonly lampKWhM2: number;
  readonly cost: number;
  /** Light that is missing from the target however long the lamps burn, mol/m2. */
  readonly shortfallMolM2: number;
  /** Cost of one mol more; absent when no lamp hour is left. */
  readonly pricePerMol?: number;
}

export interface LampPlanResult {
  /** Share of each hour that lamps are on. */
  readonly shares: Float64Array;
  readonly days: readonly LampDay[];
  readonly cost: number;
  /** Lamps stay off from this hour of the clock for `darkH` hours; absent where no dark period was asked for. */
  readonly darkFromH?: number;
  /** False where every such stretch has sun in it on some day: lamps keep their dark period, the sky does not. */
  readonly darkIsDark: boolean;
}

/** Sun under this is darkness to the crop, umol/(m2 s): common practice, no source. */
const DARK_PPFD = 1;

/** What a kWh in lamps costs in the end: less the heating that its useful share replaces while heat is needed. */
export const netLampPrice = (electricityPricePerKWh: number, heatPricePerKWh: number, usefulLampShare: number, heatIsNeeded: boolean): number =>
  electricityPricePerKWh - (heatIsNeeded ? usefulLampShare * heatPricePerKWh : 0);

/** Largest share of an hour that lamps may be on. */
function roomAt(request: LampPlanRequest, hour: number, darkFromH: number | undefined): number {
  if (darkFromH !== undefined && isWithin(localHourOfDay(request, hour), darkFromH, (darkFromH + request.darkH) % 24)) return 0;
  if (request.mostPpfdUmolM2S === undefined) return 1;
  return Math.max(0, Math.min(1, (request.mostPpfdUmolM2S - (request.sunPpfdUmolM2S[hour] as number)) / request.lamps.ppfdUmolM2S));
}

interface Draft { readonly shares: Float64Array; readonly days: LampDay[]; readonly cost: number; readonly shortfall: number }

/** Fills the cheapest hours of one day until its light is reached. Equal prices: the earlier hour, so that a plan repeats itself. */
function fillDay(request: LampPlanRequest, from: number, to: number, darkFromH: number | undefined, shares: Float64Array): LampDay {
  const past = request.pastShares?.length ?? 0;
  const kWhPerHour = lampPowerWM2({ ...request.lamps, onFromH: 0, onUntilH: 0, offAboveGlobalWM2: 0 }) / 1000;
  const molPerHour = lightIntegralMol(request.lamps.ppfdUmolM2S, 1);
  const hours = Array.from({ length: to - from }, (_, index) => from + index);
  for (const hour of hours.filter((one) => one < past)) shares[hour] = request.pastShares?.[hour] as number;
  let mol = hours.reduce((sum, hour) => sum + lightIntegralMol(request.sunPpfdUmolM2S[hour] as number, 1) + (shares[hour] as number) * molPerHour, 0);
  let pricePerMol: number | undefined;
  const free = hours.filter((hour) => hour >= past && roomAt(request, hour, darkFromH) > 0);
  for (const hour of free.sort((a, b) => (request.pricePerKWh[a] as number) - (request.pricePerKWh[b] as number) || a - b)) {
    const room = roomAt(request, hour, darkFromH);
    const share = Math.max(0, Math.min(room, (request.targetDliMolM2 - mol) / molPerHour));
    shares[hour] = share;
    mol += share * molPerHour;
    if (share === room) continue;
    pricePerMol = (request.pricePerKWh[hour] as number) * kWhPerHour / molPerHour;
    break;
  }
  const sum = (weight: (hour: number) => number): number => hours.reduce((total, hour) => total + (shares[hour] as number) * kWhPerHour * weight(hour), 0);
  return {
    fromHour: from, toHour: to, dliMolM2: mol, lampKWhM2: sum(() => 1), cost: sum((hour) => request.pricePerKWh[hour] as number),
    shortfallMolM2: Math.max(0, request.targetDliMolM2 - mol), pricePerMol,
  };
}

/** Local days of the grid as [from, to). */
function daySpans(request: LampPlanRequest): (readonly [number, number])[] {
  const starts = Array.from({ length: request.hours }, (_, hour) => hour).filter((hour) => hour === 0 || localHourOfDay(request, hour) < 1);
  return starts.map((from, index) => [from, starts[index + 1] ?? request.hours] as const);
}

function draftPlan(request: LampPlanRequest, spans: readonly (readonly [number, number])[], darkFromH: number | undefined): Draft {
  const shares = new Float64Array(request.hours);
  const days = spans.map(([from, to]) => fillDay(request, from, to, darkFromH, shares));
  return { shares, days, cost: days.reduce((sum, day) => sum + day.cost, 0), shortfall: days.reduce((sum, day) => sum + day.shortfallMolM2, 0) };
}

/** Light of the sun within a dark stretch of the clock, over all days: 0 where it is dark indeed. */
const sunWithin = (request: LampPlanRequest, darkFromH: number): number => request.sunPpfdUmolM2S.reduce((sum, ppfd, hour) =>
  (ppfd > DARK_PPFD && isWithin(localHourOfDay(request, hour), darkFromH, (darkFromH + request.darkH) % 24) ? sum + ppfd : sum), 0);

const TIE = 1e-9;

/** Whether one draft beats another: less shortfall first, then less cost. */
const beats = (one: Draft, other: Draft): boolean =>
  one.shortfall < other.shortfall - TIE || (Math.abs(one.shortfall - other.shortfall) <= TIE && one.cost < other.cost - TIE);

/**
 * Plans lamps over whole or part days. Days are independent but for the dark period, which is the same on all of them: the
 * stretch with the least sun in it, and among those the one with the least missing light and then the least cost.
 * The grid begins on a full local hour; a first or last day that is cut off has its target all the same.
 */
export function planLamps(request: LampPlanRequest): LampPlanResult {
  const spans = daySpans(request);
  if (request.darkH <= 0) {
    const { shares, days, cost } = draftPlan(request, spans, undefined);
    return { shares, days, cost, darkIsDark: true };
  }
  const clock = Array.from({ length: 24 }, (_, hour) => hour);
  const suns = clock.map((hour) => sunWithin(request, hour));
  const leastSun = Math.min(...suns);
  const [first, ...others] = clock.filter((hour) => (suns[hour] as number) <= leastSun).map((hour) => ({ hour, draft: draftPlan(request, spans, hour) }));
  const best = others.reduce((kept, next) => (beats(next.draft, kept.draft) ? next : kept), first as { hour: number; draft: Draft });
  return { shares: best.draft.shares, days: best.draft.days, cost: best.draft.cost, darkFromH: best.hour, darkIsDark: leastSun === 0 };
}
