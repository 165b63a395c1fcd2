import { branchLot } from '../../science/crop/branchLot.ts';
import { covariance, meanOf } from '../../science/crop/assimilate.ts';
import { dayNumberOf } from '../../science/crop/calendar.ts';
import type { DayForecast, Quantiles } from '../../science/crop/lotForecast.ts';
import { quantilesOf } from '../../science/crop/massQuantiles.ts';
import { climateOfLot, type LotExpectation } from '../lots/forecastLots.ts';
import type { LotView } from '../lots/lotViews.ts';
import type { Scenario } from './scenario.ts';

/** Members that carry the differences between scenarios: they share all chance, so that few tell a difference sharply. */
const MEMBERS = 40;

export interface GrownScenarios {
  /** Days from today on as each scenario has them; those of doing nothing are the forecast's own. */
  readonly days: readonly (readonly DayForecast[])[];
  /** Spread of ln mass today over the members, and its correlation with ln mass so many days later. */
  readonly todayLogSd: number;
  readonly correlationAfter: (days: number) => number;
}

/**
 * Growth of the lot under each scenario, by its own ensemble and common random numbers: each quantile of the lot's forecast
 * is moved by the ratio of that quantile with and without the change. Absent where the lot cannot be grown again.
 */
export function growScenarios({ input, forecast }: LotExpectation, scenarios: readonly Scenario[]): GrownScenarios | undefined {
  const now = { climate: input.climate, densities: input.densities };
  const changed = scenarios.map(({ growth }) => (growth === undefined ? undefined : { climate: climateOfLot(stagesOnly(growth.view), growth.climates), densities: growth.view.densities }));
  const grown = branchLot({ ...input, members: MEMBERS }, [now, ...changed.flatMap((branch) => branch ?? [])]);
  if (!grown.ok || forecast === undefined) return undefined;
  const ahead = forecast.dates.filter(({ date }) => date >= input.at);
  const [asNow, ...branches] = grown.value.map(({ logFresh }) => logFresh);
  const offsetOf = (date: string): number => dayNumberOf(date)! - dayNumberOf(input.at)!;
  return {
    days: changed.map((branch) => {
      const other = branch === undefined ? undefined : branches.shift()!;
      return other === undefined ? ahead : ahead.map((day) => movedDay(day, asNow![offsetOf(day.date)]!, other[offsetOf(day.date)]!));
    }),
    todayLogSd: sdOf(asNow![0]!),
    correlationAfter: (days) => correlationOf(asNow![0]!, asNow![Math.min(asNow!.length - 1, days)]!),
  };
}

/** Thinning adds a density that is no stage: the air is that of the stages. */
const stagesOnly = (view: LotView): LotView => ({ ...view, densities: view.densities.slice(0, view.card.stages.length) });

function movedDay(day: DayForecast, now: Float64Array, changed: Float64Array): DayForecast {
  const [from, to] = [quantilesOf(now), quantilesOf(changed)];
  const ratio = (name: keyof Quantiles): number => Math.exp(to[name] - from[name]);
  const { freshG } = day;
  const moved = (['p05', 'p25', 'p50', 'p75', 'p95'] as const).map((name) => freshG[name] * ratio(name)).sort((a, b) => a - b);
  return { ...day, freshG: { p05: moved[0]!, p25: moved[1]!, p50: moved[2]!, p75: moved[3]!, p95: moved[4]! } };
}

const sdOf = (values: Float64Array): number => Math.sqrt(covarianceOf(values, values));
const correlationOf = (a: Float64Array, b: Float64Array): number => covarianceOf(a, b) / Math.max(1e-12, sdOf(a) * sdOf(b));
const covarianceOf = (a: Float64Array, b: Float64Array): number => covariance(a, meanOf(a), b, meanOf(b));
