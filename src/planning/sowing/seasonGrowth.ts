import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { forecastLot } from '../../science/crop/forecastLot.ts';
import { DEFAULT_GROWTH_PRIOR } from '../../science/crop/growthPrior.ts';
import type { HourlyClimate } from '../../science/crop/growthModel.ts';
import { accepted, type Outcome } from '../../science/refusal.ts';
import type { BayClimates } from '../climate/bayClimates.ts';
import { addDays, instantMs } from '../day/shiftDay.ts';
import { middleOf } from './middleGrowth.ts';
import { stageDays } from '../lots/lotViews.ts';
import type { SowingPlace } from './sowingProblem.ts';
import type { HouseRecord } from './houseRecord.ts';
import { unitsAhead, type UnitsOnDay } from './unitsAhead.ts';

/** How a lot sown on a day would grow: when it moves on, and what it gives from its last stage on. */
export interface SeasonGrowth {
  /** Day of each stage's start, the first being the day on which seedlings come into a basin. */
  readonly starts: readonly string[];
  readonly units: readonly UnitsOnDay[];
}

/** The middle of the season's curve before the house's own lots have moved it, from the first basin on. */
export interface SeasonCurve {
  readonly starts: readonly string[];
  readonly days: readonly { readonly date: string; readonly freshG: number }[];
  readonly plantLogSd: number;
}

export interface SeasonQuestion {
  readonly card: CropCard;
  readonly sowDate: string;
  /** Place of each stage. */
  readonly places: readonly SowingPlace[];
  readonly climates: BayClimates;
}

const HOUR_MS = 3_600_000;
/** Days after the planned end of the last stage over which a lot is watched: what the season may add (own choice). */
const SPARE_DAYS = 24;

/**
 * Stages before the last take what the crop card plans (days, or thermal time in the season's air). In the last stage the
 * growth model decides, in the light and air of the days ahead: the bay's climate from the weather file, its set-points and
 * lamps. So a lot takes longer in dark months.
 */
export function curveInSeason({ card, sowDate, places, climates }: SeasonQuestion): Outcome<SeasonCurve> {
  const starts = [addDays(sowDate, Math.round(card.sowing.trayDays))];
  for (let i = 0; i + 1 < card.stages.length; i++) starts.push(addDays(starts[i]!, stageDays(card.stages[i]!, places[i]!.bays[0]!, starts[i]!, climates)));
  const [planting, finishing] = [starts[0]!, starts.at(-1)!];
  const horizonDays = Math.min(stageDays(card.stages.at(-1)!, places.at(-1)!.bays[0]!, finishing, climates) + SPARE_DAYS, lastDayOf(climates, finishing) - 1);
  const outcome = forecastLot({
    ...middleOf(card), climate: climateAlong(starts, places, climates), densities: starts.map((date, i) => ({ date, plantsPerM2: card.stages[i]!.plantsPerM2 })),
    planting, samples: [], at: finishing, reportFrom: planting, horizonDays: Math.max(1, horizonDays),
  });
  if (!outcome.ok) return outcome;
  return accepted({ starts, plantLogSd: DEFAULT_GROWTH_PRIOR.plantLogSd, days: outcome.value.dates.map(({ date, freshG }) => ({ date, freshG: freshG.p50 })) }, outcome.warnings);
}

/** The season's curve from its last stage on, moved and spread as the house's own lots have grown against such curves. */
export function unitsOfCurve(card: CropCard, { starts, days, plantLogSd }: SeasonCurve, record: HouseRecord): SeasonGrowth {
  const moved = days.filter(({ date }) => date >= starts.at(-1)!).map(({ date, freshG }) => ({ date, freshG: freshG * Math.exp(record.logBias), logSd: record.logSd, sharedLogSd: record.sharedLogSd }));
  return { starts, units: unitsAhead(card, plantLogSd, moved) };
}

function climateAlong(starts: readonly string[], places: readonly SowingPlace[], climates: BayClimates): HourlyClimate {
  const inside = (i: number) => climates.byBay[places[i]!.bays[0]!]!.inside;
  const join = (quantity: 'airC' | 'co2Ppm' | 'ppfdUmolM2S'): Float64Array => {
    if (places.every((place) => place === places[0])) return inside(0)[quantity];
    const joined = inside(0)[quantity].slice();
    for (let i = 1; i < starts.length; i++) {
      const hour = Math.max(0, Math.round((instantMs(`${starts[i]!}T00:00:00Z`) - climates.utcOffsetH * HOUR_MS - climates.startMs) / HOUR_MS));
      if (hour < joined.length) joined.set(inside(i)[quantity].subarray(hour), hour);
    }
    return joined;
  };
  return { startUtcHour: climates.startMs / HOUR_MS, utcOffsetH: climates.utcOffsetH, airC: join('airC'), co2Ppm: join('co2Ppm'), ppfdUmolM2S: join('ppfdUmolM2S') };
}

const lastDayOf = (climates: BayClimates, from: string): number => Math.floor((climates.startMs + climates.hours * HOUR_MS - instantMs(`${from}T00:00:00Z`)) / 86_400_000);
