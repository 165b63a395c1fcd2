/**
 * Invented lots whose truth is none of the filter's models, for trying its bands on.
 * Leafy truth: light use by the day (Monteith 1977) on ground cover, against a highest relative growth that rises with temperature,
 * joined by a non-rectangular hyperbola; leaf area per gram that falls as a plant grows (2021: 0.06 to 0.07 m2/g in the first week, 0.033 on the way to harvest); light use as
 * Carotti et al. 2021 measured it (1.01, 0.87, 0.76 g dry/mol at 200, 400, 750 umol/m2/s, 16 h a day) times 0.85 (greenhouses make
 * less of their light: Jin et al. 2023), by 0.2 more or less from lot to lot, with the carbon dioxide response of light-limited
 * leaves. It was held against the weekly growth of the four cultivars of 2021 (0.18 to 0.22 a day from 0.12 g, 0.07 to 0.11 at
 * 2 to 3 g, 0.04 to 0.07 at 9 g), which is not what is scored; it was revised for that while bands could be seen.
 * Fruiting truth: a young stand that closes its canopy on degree-days (logistic), and light use on what it catches.
 */
import { dateOf } from '../src/science/crop/calendar.ts';
import { KNOWN_CROP_GROWTHS } from '../src/science/crop/cropGrowths.ts';
import type { CropGrowth, DensityStep, LotForecastInput, PlantSample } from '../src/science/crop/lotForecast.ts';
import type { RandomStream } from '../src/science/seededRandom.ts';
import { startRandom } from '../src/science/seededRandom.ts';

export const FIRST_DAY = 19_026;

export interface InventedLot {
  readonly input: Omit<LotForecastInput, 'at' | 'horizonDays' | 'samples'>;
  readonly samples: readonly PlantSample[];
  /** True mean dry and fresh mass per plant at noon of each day since planting. */
  readonly dryG: readonly number[];
  readonly freshG: readonly number[];
  /** One plant of the lot, fresh, each day. */
  readonly onePlantFreshG: readonly number[];
}

/** What lots of one cultivar in one season have in common: the logarithms of what their growth is multiplied by. */
export interface SharedGrowth { readonly lightUse: number; readonly early: number; readonly matter: number }

export interface InventedKind {
  readonly days: number;
  readonly sampleDays: readonly number[];
  /** Model that the filter uses. */
  readonly modelId: string;
  /** Share of its growth that the lot loses from the middle on. */
  readonly lostShare?: number;
  readonly shared?: SharedGrowth;
}

export interface InventedDay { readonly dliMolM2: number; readonly airC: number; readonly co2Ppm: number }

export const LEAFY: Omit<InventedKind, 'modelId'> = { days: 42, sampleDays: [5, 12, 19, 26, 33] };
export const FRUITING: InventedKind = { days: 84, sampleDays: [7, 21, 35, 49, 63], modelId: 'reduced-tomato' };

/** Spread between lots of the logarithm of light use, of early growth and of the dry-matter share. */
export const BETWEEN_LOTS: SharedGrowth = { lightUse: 0.2, early: 0.1, matter: 0.1 };
const AVERAGE: SharedGrowth = { lightUse: 0, early: 0, matter: 0 };

export function inventLot(seed: number, kind: InventedKind): InventedLot {
  const random = startRandom(seed);
  const fruiting = kind.modelId === 'reduced-tomato';
  const days = fruiting ? inventDays(random, kind.days, 12, 20, 19) : inventDays(random, kind.days, 8, 15, 16);
  const densities = fruiting ? [{ date: dateOf(FIRST_DAY), plantsPerM2: 2.2 + random.uniform() }] : inventDensities(random);
  const shared = kind.shared ?? AVERAGE;
  const own = kind.shared === undefined ? 1 : Math.SQRT1_2;
  const draw = (of: keyof SharedGrowth) => shared[of] + own * BETWEEN_LOTS[of] * random.normal();
  const lot = { lightUse: draw('lightUse'), early: draw('early'), matter: draw('matter') };
  const truth = (fruiting ? growFruiting : growLeafy)(random, days, densities, lot, kind.lostShare ?? 0);
  const freshG = (fruiting ? fruitingFresh : leafyFresh)(random, days, truth, lot.matter);
  return { ...weighLot(random, kind, truth, freshG), dryG: truth, freshG, input: {
    crop: CROPS[kind.modelId]!, planting: dateOf(FIRST_DAY), densities, seed, members: 200, climate: climateOf(days),
  } };
}

/** The crop as the filter sees it, by its model: each as it stands among the known crops, with the dry matter of lettuce where it is. */
const CROPS: Readonly<Record<string, CropGrowth>> = {
  'two-state-lettuce': KNOWN_CROP_GROWTHS['lettuce']!, 'reduced-tomato': KNOWN_CROP_GROWTHS['tomato']!,
  expolinear: { ...KNOWN_CROP_GROWTHS['leafy']!, dryMatter: KNOWN_CROP_GROWTHS['lettuce']!.dryMatter },
};

/** Six plants at each sampling, from one place of the bay: plants differ, and places do (0.04). */
function weighLot(random: RandomStream, kind: InventedKind, dryG: readonly number[], freshG: readonly number[]): Pick<InventedLot, 'samples' | 'onePlantFreshG'> {
  const plantSd = 0.12 + 0.14 * random.uniform();
  const share = (sd: number) => Math.exp(sd * random.normal() - sd ** 2 / 2);
  return {
    samples: kind.sampleDays.map((day) => {
      const place = share(0.04);
      return { date: dateOf(FIRST_DAY + day), plants: Array.from({ length: 6 }, () => {
        const factor = place * share(plantSd);
        return { dryG: dryG[day]! * factor, freshG: Math.max(dryG[day]! * factor * 3, freshG[day]! * factor * share(0.1)) };
      }) };
    }),
    onePlantFreshG: freshG.map((mean) => mean * share(plantSd) * share(0.1)),
  };
}

/** Light, air and carbon dioxide by the day; light rises or falls over the lot's time by up to 30 %. */
function inventDays(random: RandomStream, count: number, leastMol: number, mostMol: number, leastC: number): InventedDay[] {
  const level = leastMol + (mostMol - leastMol) * random.uniform();
  const trend = 0.6 * (random.uniform() - 0.5);
  const warmth = leastC + 5 * random.uniform();
  const co2Ppm = 420 + (leastC > 18 ? 80 : 400) * random.uniform();
  return Array.from({ length: count + 1 }, (_, i) => ({
    dliMolM2: Math.max(2, level * (1 + trend * (i / count - 0.5) + 0.3 * random.normal())), airC: warmth + 1.2 * random.normal(), co2Ppm,
  }));
}

function inventDensities(random: RandomStream): DensityStep[] {
  const at = (day: number, plantsPerM2: number) => ({ date: dateOf(FIRST_DAY + day), plantsPerM2 });
  const shift = random.below(4);
  return [at(0, 90), at(10 + shift, 60), at(15 + shift, 45), at(19 + shift, 30), at(26 + shift, 20)];
}

/** Carotti et al. 2021 by the day: 200, 400, 750 umol/m2/s for 16 h are 11.5, 23, 43.2 mol. */
const carotti = (dliMolM2: number) => (dliMolM2 < 23 ? 1.01 - 0.14 * (dliMolM2 - 11.5) / 11.5 : 0.87 - 0.11 * (dliMolM2 - 23) / 20.2);
/** Light-limited leaves at a compensation point of 45 ppm, 1 at 600 ppm (Farquhar et al. 1980, from memory). */
const carbonShare = (co2Ppm: number) => (co2Ppm - 45) / (co2Ppm + 90) / (555 / 690);
/** Smooth smaller of two (non-rectangular hyperbola, curvature 0.9). */
const smaller = (a: number, b: number) => (a + b - Math.sqrt((a + b) ** 2 - 4 * 0.9 * a * b)) / 1.8;

type Grow = (random: RandomStream, days: readonly InventedDay[], densities: readonly DensityStep[], lot: SharedGrowth, lostShare: number) => number[];

/** Days are good or bad for growth by 0.2, in spells of three days. */
const spell = (before: number, random: RandomStream) => 0.7 * before + 0.2 * Math.sqrt(1 - 0.7 ** 2) * random.normal();

/** Steps a day: a seedling gains a quarter of its mass in one. */
const STEPS = 6;

const growLeafy: Grow = (random, days, densities, lot, lostShare) => {
  const lightUse = 0.85 * Math.exp(lot.lightUse);
  const early = 0.33 * Math.exp(lot.early);
  const area = 0.033 * Math.exp(0.15 * random.normal());
  let disturbance = 0.2 * random.normal();
  let massG = 0.077 * Math.exp(0.6 * random.normal());
  return days.map((day, i) => {
    if (i === 0) return massG;
    disturbance = spell(disturbance, random);
    const plantsPerM2 = densities.findLast((step) => step.date <= dateOf(FIRST_DAY + i))!.plantsPerM2;
    const perM2 = lightUse * carotti(day.dliMolM2) * carbonShare(day.co2Ppm) * day.dliMolM2;
    const rate = early * Math.max(0.2, (day.airC - 4) / 15);
    const kept = (i >= days.length / 3 ? 1 - lostShare : 1) * Math.exp(disturbance) / STEPS;
    for (let step = 0; step < STEPS; step += 1) {
      const leafArea = area * (1 + Math.exp(-massG / 0.7)) * massG * plantsPerM2;
      massG += kept * smaller(perM2 * (1 - Math.exp(-0.75 * leafArea)) / plantsPerM2, rate * massG);
    }
    return massG;
  });
};

/** 9 % dry matter in seedlings, 4.4 % in heads; less on dull days; the lot's own, and a passing part of a week. */
function leafyFresh(random: RandomStream, days: readonly InventedDay[], dryG: readonly number[], matter: number): number[] {
  const falls = 1.4 * Math.exp(0.2 * random.normal());
  let drift = 0.07 * random.normal();
  const level = days.reduce((sum, day) => sum + day.dliMolM2, 0) / days.length;
  return dryG.map((mass, i) => {
    drift = 0.87 * drift + 0.07 * Math.sqrt(1 - 0.87 ** 2) * random.normal();
    const seen = days.slice(Math.max(0, i - 2), i + 1);
    const light = seen.reduce((sum, day) => sum + day.dliMolM2, 0) / seen.length / level;
    return mass / ((0.044 + 0.046 * Math.exp(-mass / falls)) * light ** 0.15) * Math.exp(matter + drift);
  });
}

/** Leaves close over degree-days above 10 C, half of them some five to six weeks after planting; 0.62 g a mole of caught light (2.8 g/MJ, from memory) by 0.2 more or less. */
const growFruiting: Grow = (random, days, densities, lot, lostShare) => {
  const plantsPerM2 = densities[0]!.plantsPerM2;
  const lightUse = 0.62 * Math.exp(lot.lightUse);
  const half = 430 * Math.exp(0.15 * random.normal() - lot.early);
  let disturbance = 0.2 * random.normal();
  let degreeDays = 0;
  let massG = 2.5 * Math.exp(0.35 * random.normal());
  return days.map((day, i) => {
    if (i === 0) return massG;
    disturbance = spell(disturbance, random);
    degreeDays += Math.max(0, day.airC - 10);
    const leafArea = 3.2 / (1 + Math.exp(-(degreeDays - half) / 120));
    const cover = 1 - Math.exp(-0.7 * leafArea);
    const made = lightUse * carbonShare(day.co2Ppm) * day.dliMolM2 * cover / plantsPerM2;
    massG += (i >= days.length / 3 ? 1 - lostShare : 1) * Math.exp(disturbance) * made;
    return massG;
  });
};

/** Leaves and stems of 12 % dry matter, then more and more fruit of 6 %. */
function fruitingFresh(random: RandomStream, _days: readonly InventedDay[], dryG: readonly number[], matter: number): number[] {
  let drift = 0.05 * random.normal();
  return dryG.map((mass) => {
    drift = 0.93 * drift + 0.05 * Math.sqrt(1 - 0.93 ** 2) * random.normal();
    const fruitShare = 0.6 / (1 + Math.exp(-(mass - 120) / 40));
    return mass * (fruitShare / 0.06 + (1 - fruitShare) / 0.12) * Math.exp(matter + drift);
  });
}

/** Light as a half sine from 6 to 20 h, air 3 K warmer in the afternoon. */
function climateOf(days: readonly InventedDay[]) {
  const hourly = (of: (day: InventedDay, hour: number) => number) => Float64Array.from({ length: days.length * 24 }, (_, i) => of(days[Math.floor(i / 24)]!, i % 24));
  return {
    startUtcHour: FIRST_DAY * 24, utcOffsetH: 0, co2Ppm: hourly((day) => day.co2Ppm),
    airC: hourly((day, hour) => day.airC + 1.5 * Math.sin((hour - 8) * Math.PI / 12)),
    ppfdUmolM2S: hourly((day, hour) => (hour >= 6 && hour < 20 ? day.dliMolM2 * LIGHT_AT_HOUR[hour]! : 0)),
  };
}

/** umol/m2/s at each hour for 1 mol a day. */
const LIGHT_AT_HOUR = (() => {
  const shape = Array.from({ length: 24 }, (_, hour) => (hour >= 6 && hour < 20 ? Math.sin((hour - 5.5) * Math.PI / 14) : 0));
  const sum = shape.reduce((total, each) => total + each, 0);
  return shape.map((each) => each / sum * 1e6 / 3600);
})();
