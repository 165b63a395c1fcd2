/** What a lot's ensemble shows at noon of each day of the horizon, collected into a forecast. */
import { dateOf, dayNumberOf } from './calendar.ts';
import { densityOn } from './densitySchedule.ts';
import { freshOf } from './dryMatter.ts';
import type { LotEnsemble } from './lotEnsemble.ts';
import { dryPerPlant, logFreshPerPlant, meanCanopy } from './lotEnsemble.ts';
import type { DayForecast, LotForecast, LotForecastInput } from './lotForecast.ts';
import { plantQuantilesOf, quantilesOf, shareAbove } from './massQuantiles.ts';
import { burntShare, countedGrowth, countedLight } from './tipBurn.ts';
import { hourIndex } from './walkLot.ts';

export class LotRecord {
  readonly dates: DayForecast[] = [];
  readonly #input: LotForecastInput;
  readonly #plantDryLogSd: number;
  readonly #plantFreshLogSd: number;
  readonly #fromDay: number;
  readonly #atDay: number;
  readonly #dry: Float64Array;
  readonly #fresh: Float64Array;
  /** First day on which a member's share of ready plants is reached; infinity while it is not. */
  readonly #readyDay: Float64Array;

  /** Light counted towards tip-burn so far, and the mean plant of the day before, g dry. */
  #countedMolM2 = 0;
  #dryGBefore: number | undefined;

  constructor(input: LotForecastInput, plantLogSd: number) {
    this.#input = input;
    this.#plantDryLogSd = plantLogSd;
    this.#plantFreshLogSd = Math.hypot(plantLogSd, input.crop.dryMatter.plantLogSd);
    this.#fromDay = dayNumberOf(input.reportFrom ?? input.at)!;
    this.#atDay = dayNumberOf(input.at)!;
    this.#dry = new Float64Array(input.members);
    this.#fresh = new Float64Array(input.members);
    this.#readyDay = new Float64Array(input.members).fill(Infinity);
  }

  /** Takes the members as they are at noon of a day; days before the first to be reported are passed over. */
  take(day: number, ensemble: LotEnsemble): void {
    const dry = dryPerPlant(ensemble, this.#dry);
    const burnt = this.#countBurnt(day, ensemble.plantsPerM2);
    if (day < this.#fromDay) return;
    const logFresh = logFreshPerPlant(ensemble, this.#input.crop.dryMatter, this.#fresh);
    for (let m = 0; m < logFresh.length; m += 1) logFresh[m] = Math.exp(logFresh[m]!);
    const canopy = meanCanopy(ensemble);
    const readyShare = this.#countReady(day);
    this.dates.push({
      date: dateOf(day),
      dryG: quantilesOf(dry), freshG: quantilesOf(this.#fresh),
      plant: { dryG: plantQuantilesOf(dry, this.#plantDryLogSd), freshG: plantQuantilesOf(this.#fresh, this.#plantFreshLogSd) },
      readyShare, saleableShare: readyShare * (1 - burnt),
      plantsPerM2: ensemble.plantsPerM2, leafAreaIndex: canopy.leafAreaIndex, groundCover: canopy.groundCover,
    });
  }

  /** Share burnt by this noon: what the 24 hours before count for, once the mean plant's heart closes. */
  #countBurnt(day: number, plantsPerM2: number): number {
    const { crop, climate, rootC } = this.#input;
    if (crop.tipBurn === undefined) return 0;
    const dryG = this.#dry.reduce((sum, each) => sum + each, 0) / this.#dry.length;
    const before = this.#dryGBefore;
    this.#dryGBefore = dryG;
    if (before === undefined || freshOf(crop.dryMatter, dryG) < crop.tipBurn.fromFreshG) return burntShare(crop.tipBurn, this.#countedMolM2);
    // Plants moved apart grow no less for it: growth is counted per plant, at the density of the day.
    const grown = countedGrowth(crop.tipBurn, plantsPerM2 * (dryG - before));
    this.#countedMolM2 += Math.max(grown, countedLight(crop.tipBurn, climate, hourIndex(climate, day) - 12, rootC));
    return burntShare(crop.tipBurn, this.#countedMolM2);
  }

  #countReady(day: number): number {
    const { readyFreshG, readyShare } = this.#input.crop;
    let sum = 0;
    for (let m = 0; m < this.#fresh.length; m += 1) {
      const share = shareAbove(this.#fresh[m]!, this.#plantFreshLogSd, readyFreshG);
      sum += share;
      if (share >= readyShare && day < this.#readyDay[m]!) this.#readyDay[m] = day;
    }
    return sum / this.#fresh.length;
  }

  /** A date is given where so many members are ready within the horizon. */
  readyDate(): LotForecast['readyDate'] {
    const { p05, p50, p95 } = quantilesOf(this.#readyDay);
    const dated = (name: string, day: number) => (Number.isFinite(day) ? { [name]: dateOf(Math.ceil(day)) } : {});
    return { ...dated('p05', p05), ...dated('p50', p50), ...dated('p95', p95) };
  }

  /** Growth of the middle crop after `at` times tissue content; plants moved apart take their later uptake with them. */
  demand(): Pick<LotForecast, 'nutrientMmolPerM2'> {
    const tissue = this.#input.crop.tissueMmolPerGDry;
    if (tissue === undefined) return {};
    const density = densityOn(this.#input.densities);
    let grownGPerM2 = 0;
    for (let i = Math.max(1, this.#atDay - this.#fromDay + 1); i < this.dates.length; i += 1) {
      grownGPerM2 += density(this.#fromDay + i) * Math.max(0, this.dates[i]!.dryG.p50 - this.dates[i - 1]!.dryG.p50);
    }
    return { nutrientMmolPerM2: Object.fromEntries(Object.entries(tissue).map(([element, mmolPerG]) => [element, mmolPerG * grownGPerM2])) };
  }
}
