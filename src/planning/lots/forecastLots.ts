import type { GreenhouseState } from '../../greenhouse/state.ts';
import { forecastLot } from '../../science/crop/forecastLot.ts';
import type { HourlyClimate } from '../../science/crop/growthModel.ts';
import type { LotForecast, LotForecastInput, PlantSample } from '../../science/crop/lotForecast.ts';
import type { Refusal } from '../../science/refusal.ts';
import { seedFor } from '../../science/seededRandom.ts';
import type { BayClimates } from '../climate/bayClimates.ts';
import { addDays, daysBetween, instantMs } from '../day/shiftDay.ts';
import { growthOfCard } from './growthOfCard.ts';
import type { LotView } from './lotViews.ts';
import { priorsOfLots } from './priorsOfLots.ts';
import { scanObservations } from './scanObservations.ts';

/** What is expected of a lot; without a forecast, why not. */
export interface LotExpectation {
  readonly view: LotView;
  readonly forecast: LotForecast | undefined;
  readonly refusals: readonly Refusal[];
  /** What was forecast from: to ask again what would be if something were changed. */
  readonly input: LotForecastInput;
  /** Lots of the same card whose samples taught what this one was believed to be at its start. */
  readonly taughtBy?: readonly string[];
}

export interface ForecastSettings {
  readonly date: string;
  readonly seed: number;
  readonly members: number;
  readonly onLot?: (done: number, of: number) => void;
}

const HOUR_MS = 3_600_000;
/** Days after the planned end of the last stage to which a forecast runs, and the fewest and most days in all. */
const SPARE_DAYS = 10;
/** Days before today whose canopy is wanted, for the water that basins have lost. */
const PAST_DAYS = 28;
const HORIZON_DAYS: readonly [number, number] = [14, 60];

/** Days from today to which this lot is forecast. */
export function horizonDays(view: LotView, date: string): number {
  const last = view.densities.at(-1)!.date;
  const lastStageDays = view.card.stages.at(-1)!.days ?? daysBetween(view.placed, view.stageEnds);
  const [least, most] = HORIZON_DAYS;
  return Math.min(most, Math.max(least, daysBetween(date, addDays(last, Math.round(lastStageDays))) + SPARE_DAYS));
}

/**
 * Forecasts every lot from its own climate, density, samples and scans, beginning with what the other lots of its card have taught. A lot
 * that cannot be forecast says why; the others are not held up.
 */
export function forecastLots(views: readonly LotView[], state: GreenhouseState, climates: BayClimates, settings: ForecastSettings): LotExpectation[] {
  const samples = samplesByLot(state), scans = scanObservations(state);
  const inputs = views.map((view): LotForecastInput => ({
    crop: growthOfCard(view.card),
    climate: climateOfLot(view, climates), densities: view.densities, planting: view.planting, samples: samples.get(view.lot) ?? [], observations: scans.get(view.lot) ?? [],
    at: settings.date, horizonDays: horizonDays(view, settings.date), reportFrom: latest(view.planting, addDays(settings.date, -PAST_DAYS)), seed: seedFor(settings.seed, view.lot), members: settings.members,
  }));
  const priors = priorsOfLots(views.map(({ lot, card }, i) => ({ lot, card: card.id, input: inputs[i]! })));
  return views.map((view, i) => {
    settings.onLot?.(i, views.length);
    const taught = priors.get(view.lot);
    const input = taught === undefined ? inputs[i]! : { ...inputs[i]!, prior: taught.prior };
    const outcome = forecastLot(input);
    return {
      view, input, ...(taught === undefined ? {} : { taughtBy: taught.from }),
      ...(outcome.ok ? { forecast: outcome.value, refusals: outcome.warnings } : { forecast: undefined, refusals: outcome.refusals }),
    };
  });
}

const latest = (a: string, b: string): string => (a > b ? a : b);

function samplesByLot(state: GreenhouseState): Map<string, PlantSample[]> {
  const byLot = new Map<string, Map<string, { freshG: number; dryG?: number }[]>>();
  for (const row of state.samples) {
    const days = byLot.get(row.lot) ?? new Map<string, { freshG: number; dryG?: number }[]>();
    days.set(row.date, [...(days.get(row.date) ?? []), { freshG: row.freshG, ...(row.dryG === undefined ? {} : { dryG: row.dryG }) }]);
    byLot.set(row.lot, days);
  }
  return new Map([...byLot].map(([lot, days]) => [lot, [...days].sort(([a], [b]) => (a < b ? -1 : 1)).map(([date, plants]) => ({ date, plants }))]));
}

/** The air that the lot has had and will have: of a bay of each stage's kind, of its own bay once it stands there. */
export function climateOfLot(view: LotView, climates: BayClimates): HourlyClimate {
  const parts = view.densities.map(({ date }, i) => ({ fromHour: hourOf(climates, date), inside: insideOf(bayOfStage(view, i, climates), climates) }));
  const join = (quantity: 'airC' | 'co2Ppm' | 'ppfdUmolM2S'): Float64Array => {
    const joined = parts[0]!.inside[quantity].slice();
    for (const { fromHour, inside } of parts.slice(1)) if (fromHour < joined.length) joined.set(inside[quantity].subarray(fromHour), fromHour);
    return joined;
  };
  return { startUtcHour: climates.startMs / HOUR_MS, utcOffsetH: climates.utcOffsetH, airC: join('airC'), co2Ppm: join('co2Ppm'), ppfdUmolM2S: join('ppfdUmolM2S') };
}

const insideOf = (bay: string, climates: BayClimates) => climates.byBay[bay]!.inside;

/** Own bay while the stage is of its kind, else the first bay of the kind that the stage asks for, else its own. */
function bayOfStage(view: LotView, index: number, climates: BayClimates): string {
  const own = view.basins.find(({ planting }) => planting?.stage === view.stage.id)?.bay ?? view.basins[0]!.bay;
  const kind = view.card.stages[index]!.bay;
  if (index === view.stageIndex || climates.byBay[own]!.bay.kind === kind) return own;
  return Object.values(climates.byBay).find(({ bay }) => bay.kind === kind)?.bay.id ?? own;
}

const hourOf = (climates: BayClimates, date: string): number =>
  Math.max(0, Math.round((instantMs(`${date}T00:00:00Z`) - climates.utcOffsetH * HOUR_MS - climates.startMs) / HOUR_MS));
