import type { GreenhouseFile } from '../greenhouse/schema/greenhouseFile.ts';
import type { ProductDescription } from '../greenhouse/schema/productsFile.ts';
import type { DayAccount } from '../planning/morningPlan.ts';
import { EMISSION_FACTORS } from './emissionFactors.ts';

/** What a day takes, before it is summed. */
export interface DayUse {
  readonly feeds: readonly { readonly draws: readonly { readonly source: string; readonly kind: string; readonly litres: number; readonly grams: Readonly<Record<string, number>> }[]; readonly cost: number }[];
  readonly drains: readonly { readonly litres: number; readonly to: string | undefined }[];
  readonly lampKWh: number;
  readonly vehicles: readonly { readonly emptyM: number; readonly loadedM: number }[];
  /** Mean weight of a basin on its way, kg. */
  readonly carriedKg: number;
}

const GRAVITY_M_PER_S2 = 9.81;
const J_PER_KWH = 3.6e6;

/**
 * The planned day's balance: water by source, products, electricity of lamps, vehicle ways, cost, and emissions as electricity
 * (location-based factor of the greenhouse file), mains water, products at plant gate and driving. Heating is left out: the
 * greenhouse file names no fuel.
 */
export function sumDay(use: DayUse, file: GreenhouseFile, products: Readonly<Record<string, ProductDescription>>): DayAccount {
  const draws = use.feeds.flatMap((feed) => feed.draws);
  const waterL = sumBy(draws, (draw) => [[draw.source, draw.litres]]);
  const productG = sumBy(draws, (draw) => Object.entries(draw.grams));
  const freshL = draws.filter((draw) => draw.kind === 'fresh').reduce((sum, draw) => sum + draw.litres, 0);
  const loadedM = use.vehicles.reduce((sum, vehicle) => sum + vehicle.loadedM, 0);
  const emptyM = use.vehicles.reduce((sum, vehicle) => sum + vehicle.emptyM, 0);
  const { prices } = file;
  const kgCo2e = prices.electricityKgCo2ePerKWh * (use.lampKWh + drivingKWh(loadedM, emptyM, use.carriedKg))
    + (prices.waterKgCo2ePerM3 * freshL) / 1000
    + Object.entries(productG).reduce((sum, [id, grams]) => sum + (grams / 1000) * (products[id]?.kgCo2ePerKg ?? EMISSION_FACTORS.unknownProductKgPerKg.value), 0);
  const litres = (to: boolean) => round(use.drains.filter((drain) => (drain.to !== undefined) === to).reduce((sum, drain) => sum + drain.litres, 0), 1);
  return {
    waterL, productG, dischargedL: litres(false), returnedL: litres(true), lampKWh: round(use.lampKWh, 1), vehicleLoadedM: Math.round(loadedM), vehicleEmptyM: Math.round(emptyM),
    feedCost: round(use.feeds.reduce((sum, feed) => sum + feed.cost, 0), 2), currency: prices.currency, kgCo2e: round(kgCo2e, 2), why: 'account',
  };
}

/** Work against rolling resistance; lifting is left out (below a tenth). */
export function drivingKWh(loadedM: number, emptyM: number, carriedKg: number): number {
  const { vehicleRollingShare, vehicleEfficiency, vehicleEmptyKg } = EMISSION_FACTORS;
  const kgMetres = loadedM * (vehicleEmptyKg.value + carriedKg) + emptyM * vehicleEmptyKg.value;
  return (kgMetres * GRAVITY_M_PER_S2 * vehicleRollingShare.value) / vehicleEfficiency.value / J_PER_KWH;
}

function sumBy<T>(entries: readonly T[], read: (entry: T) => readonly (readonly [string, number])[]): Record<string, number> {
  const sums = new Map<string, number>();
  for (const entry of entries) for (const [name, value] of read(entry)) sums.set(name, (sums.get(name) ?? 0) + value);
  return Object.fromEntries([...sums].sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, value]) => [name, round(value, 3)]));
}

const round = (value: number, decimals: number): number => Number(value.toFixed(decimals));
