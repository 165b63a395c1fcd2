/** Refuses a forecast that cannot be computed, with every reason at once. */
import type { Refusal } from '../refusal.ts';
import { dayNumberOf } from './calendar.ts';
import type { HourlyClimate } from './growthModel.ts';
import type { LotForecastInput } from './lotForecast.ts';
import { hourIndex, NOON_H } from './walkLot.ts';

const PLAUSIBLE_MASS_G = [1e-6, 1e5] as const;

export function checkLotInput(input: LotForecastInput): Refusal[] {
  const dates = checkDates(input);
  const rest = [
    ...checkNumber('members', input.members, 20, 5000, '1', true), ...checkNumber('horizonDays', input.horizonDays, 0, 400, 'd', true),
    ...checkNumber('crop.seedlingDryG', input.crop.seedlingDryG, 1e-5, 100, 'g'), ...checkNumber('crop.seedlingLogSd', input.crop.seedlingLogSd, 0.01, 2, '1'),
    ...checkNumber('crop.readyFreshG', input.crop.readyFreshG, 0.1, 1e5, 'g'), ...checkNumber('crop.readyShare', input.crop.readyShare, 0.01, 1, '1'),
    ...input.densities.flatMap((step, i) => checkNumber(`densities.${i}.plantsPerM2`, step.plantsPerM2, 0.1, 5000, '/m2')),
    ...input.samples.flatMap((sample, i) => checkMasses(`samples.${i}`, sample.plants)),
    ...(input.observations ?? []).flatMap((seen, i) => [
      ...checkNumber(`observations.${i}.mean`, seen.mean, ...PLAUSIBLE_MASS_G, 'g or m2'), ...checkNumber(`observations.${i}.relativeSd`, seen.relativeSd, 0.005, 2, '1'), ...checkNumber(`observations.${i}.sharedRelativeSd`, seen.sharedRelativeSd ?? 0, 0, 2, '1'),
    ]),
    ...checkClimateArrays(input.climate),
  ];
  if (dates.length > 0 || rest.length > 0) return [...dates, ...rest];
  return [...checkOrder(input), ...checkCoverage(input)];
}

function checkDates(input: LotForecastInput): Refusal[] {
  const named: [string, string][] = [
    ['planting', input.planting], ['at', input.at], ...(input.reportFrom === undefined ? [] : [['reportFrom', input.reportFrom] as [string, string]]),
    ...input.densities.map((step, i): [string, string] => [`densities.${i}.date`, step.date]),
    ...input.samples.map((sample, i): [string, string] => [`samples.${i}.date`, sample.date]),
    ...(input.observations ?? []).map((seen, i): [string, string] => [`observations.${i}.date`, seen.date]),
  ];
  const wrong = named.filter(([, date]) => dayNumberOf(date) === undefined).map(([path, value]): Refusal => ({
    code: 'value-not-allowed', path, value, limit: 'YYYY-MM-DD', severity: 'error', message: `${path} should be a calendar date YYYY-MM-DD.`,
  }));
  if (input.densities.length > 0) return wrong;
  return [...wrong, { code: 'value-missing', path: 'densities', severity: 'error', message: 'At least one planting density is needed.' }];
}

function checkNumber(path: string, value: number, least: number, most: number, unit: string, whole = false): Refusal[] {
  if (value >= least && value <= most && (!whole || Number.isInteger(value))) return [];
  const code = Number.isFinite(value) ? 'value-out-of-range' as const : 'value-not-a-number' as const;
  return [{ code, path, value, limit: [least, most], unit, severity: 'error', message: `${path} should be ${whole ? 'a whole number ' : ''}between ${least} and ${most} ${unit}.` }];
}

function checkMasses(path: string, plants: readonly { readonly freshG?: number; readonly dryG?: number }[]): Refusal[] {
  return plants.flatMap((plant, i) => [
    ...(plant.freshG === undefined ? [] : checkNumber(`${path}.plants.${i}.freshG`, plant.freshG, ...PLAUSIBLE_MASS_G, 'g')),
    ...(plant.dryG === undefined ? [] : checkNumber(`${path}.plants.${i}.dryG`, plant.dryG, ...PLAUSIBLE_MASS_G, 'g')),
    ...(plant.freshG !== undefined && plant.dryG !== undefined && plant.dryG >= plant.freshG ? [{
      code: 'inconsistent' as const, path: `${path}.plants.${i}`, value: plant.dryG, limit: plant.freshG, unit: 'g', severity: 'error' as const,
      message: 'A plant cannot weigh more dry than fresh.',
    }] : []),
  ]);
}

function checkClimateArrays(climate: HourlyClimate): Refusal[] {
  const hours = climate.airC.length;
  const wrong = (['airC', 'co2Ppm', 'ppfdUmolM2S'] as const).flatMap((quantity): Refusal[] => {
    const values = climate[quantity];
    const hour = values.findIndex((value) => !Number.isFinite(value));
    if (values.length === hours && hour === -1) return [];
    return [{ code: 'value-not-a-number', path: `climate.${quantity}`, value: hour, severity: 'error', message: `climate.${quantity} should have ${hours} finite hours.` }];
  });
  return wrong;
}

function checkOrder(input: LotForecastInput): Refusal[] {
  const early = (path: string, value: string, limit: string, message: string): Refusal => ({ code: 'inconsistent', path, value, limit, severity: 'error', message });
  const from = input.reportFrom ?? input.at;
  return [
    ...(input.at < input.planting ? [early('at', input.at, input.planting, 'A lot cannot be forecast from a day before its planting.')] : []),
    ...(from < input.planting || from > input.at ? [early('reportFrom', from, input.planting, 'The first reported day lies between planting and `at`.')] : []),
  ];
}

function checkCoverage(input: LotForecastInput): Refusal[] {
  const first = hourIndex(input.climate, dayNumberOf(input.planting)!) + NOON_H;
  const last = hourIndex(input.climate, dayNumberOf(input.at)! + input.horizonDays) + NOON_H;
  const hours = input.climate.airC.length;
  if (first >= 0 && last <= hours) return [];
  return [{
    code: 'value-missing', path: 'climate', value: hours, limit: [first, last], unit: 'h', severity: 'error',
    message: `The inside climate should reach from noon of ${input.planting} to noon ${input.horizonDays} days after ${input.at}; `
      + (first < 0 ? `its first ${-first} hours are missing.` : `its last ${last - hours} hours are missing.`),
  }];
}
