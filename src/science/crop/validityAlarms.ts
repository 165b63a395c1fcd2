/** Climate or density outside what the growth model is valid for: said, with its figures. */
import { dayNumberOf } from './calendar.ts';
import { densityOn } from './densitySchedule.ts';
import type { GrowthModel } from './growthModel.ts';
import type { GrowthAlarm, LotForecastInput } from './lotForecast.ts';
import { hourIndex } from './walkLot.ts';

/** Fewer hours than this share of all are let pass without a word. */
const TOLERATED_SHARE = 0.02;

export function findValidityAlarms(input: LotForecastInput, model: GrowthModel): GrowthAlarm[] {
  const firstDay = dayNumberOf(input.planting)!;
  const lastDay = dayNumberOf(input.at)! + input.horizonDays;
  const from = Math.max(0, hourIndex(input.climate, firstDay));
  const until = Math.min(input.climate.airC.length, hourIndex(input.climate, lastDay));
  const climate = (['airC', 'co2Ppm', 'ppfdUmolM2S'] as const).flatMap((quantity) => {
    const values = input.climate[quantity].subarray(from, until);
    return alarmFor(quantity, values, model.valid[quantity], model.title);
  });
  const density = densityOn(input.densities);
  const densities = Float64Array.from({ length: lastDay - firstDay + 1 }, (_, i) => density(firstDay + i));
  return [...climate, ...alarmFor('plantsPerM2', densities, model.valid.plantsPerM2, model.title)];
}

function alarmFor(quantity: string, values: Float64Array, [least, most]: readonly [number, number], title: string): GrowthAlarm[] {
  let outside = 0;
  for (const value of values) if (value < least || value > most) outside += 1;
  const outsideShare = values.length === 0 ? 0 : outside / values.length;
  if (outsideShare <= TOLERATED_SHARE) return [];
  return [{
    name: 'outside-valid-range',
    sentence: `${quantity} lies outside ${least} to ${most}, where the model "${title}" is valid, for ${Math.round(100 * outsideShare)} % of the time: trust the forecast less.`,
    numbers: { outsideShare, least, most },
  }];
}
