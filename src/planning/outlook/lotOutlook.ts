import type { GreenhouseState } from '../../greenhouse/state.ts';
import { addDays } from '../day/shiftDay.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import type { LotOutlook, Quantiles } from '../morningPlan.ts';
import { roundTo } from '../water/feedTicket.ts';

/** Days before today that a lot's curve shows. */
const PAST_DAYS = 28;

/** A lot for people: its curve, its samples, when it is ready, and what is wrong with it. */
export function lotOutlook(expectation: LotExpectation, state: GreenhouseState, date: string): LotOutlook {
  const { view, forecast, refusals } = expectation;
  const from = addDays(date, -PAST_DAYS);
  const { p05, p50, p95 } = forecast?.readyDate ?? {};
  return {
    lot: view.lot, crop: view.card.id, sown: view.sown, placed: view.placed, stage: view.stage.id, basins: view.basins.map(({ id }) => id).sort(), plants: view.plants,
    days: (forecast?.dates ?? []).filter((day) => day.date >= from).map((day) => ({ date: day.date, dryG: roundQuantiles(day.dryG), freshG: roundQuantiles(day.freshG), plantG: roundQuantiles(day.plant.freshG), readyShare: roundTo(day.readyShare, 3), saleableShare: roundTo(day.saleableShare, 3) })),
    samples: sampleMeans(state, view.lot),
    ...(p50 === undefined ? {} : { readyDate: { early: p05 ?? p50, likely: p50, late: p95 ?? forecast!.dates.at(-1)!.date } }),
    alarms: [
      ...(forecast?.alarms ?? []).map(({ name, sentence }) => ({ code: name as string, sentence })),
      ...(forecast === undefined ? refusals.slice(0, 3).map(({ code, message }) => ({ code: code as string, sentence: `No forecast: ${message}` })) : []),
    ],
    why: 'forecast',
  };
}

export const roundQuantiles = (of: Quantiles): Quantiles => ({ p05: roundTo(of.p05, 4), p25: roundTo(of.p25, 4), p50: roundTo(of.p50, 4), p75: roundTo(of.p75, 4), p95: roundTo(of.p95, 4) });

function sampleMeans(state: GreenhouseState, lot: string): LotOutlook['samples'] {
  const byDate = new Map<string, number[]>();
  for (const row of state.samples) if (row.lot === lot) byDate.set(row.date, [...(byDate.get(row.date) ?? []), row.freshG]);
  return [...byDate].sort(([a], [b]) => (a < b ? -1 : 1)).map(([date, grams]) => ({ date, meanFreshG: roundTo(grams.reduce((sum, g) => sum + g, 0) / grams.length, 4), plants: grams.length }));
}
