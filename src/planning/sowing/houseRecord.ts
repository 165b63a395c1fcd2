import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { forecastLot } from '../../science/crop/forecastLot.ts';
import type { BayClimates } from '../climate/bayClimates.ts';
import { daysBetween } from '../day/shiftDay.ts';
import { climateOfLot, type LotExpectation } from '../lots/forecastLots.ts';
import { middleOf } from './middleGrowth.ts';

/** How lots of a crop have grown here, held against what the season's curve would have said of them. */
export interface HouseRecord {
  /** Mean of ln(fresh mass weighed / curve): the curve is moved by it. */
  readonly logBias: number;
  /** Change of that with ln(mass / mass of a ready plant). */
  readonly slope: number;
  /** Spread of that from lot to lot. */
  readonly logSd: number;
  /** What all lots ahead may be off together: how well the line itself is known, and the weather that nobody knows yet. */
  readonly sharedLogSd: number;
  /** Samples that it rests on. */
  readonly samples: number;
}

/** Samples lighter than this share of a ready plant say little of the day on which it will be ready (own choice). */
const LEAST_SHARE_OF_READY = 0.03;
/** Believed before any lot was weighed: spread of bias, of its slope, of lots around it, and the samples that the latter is worth (own choice). */
const PRIOR = { biasSd: 0.5, slopeSd: 0.3, logSd: 0.15, worth: 4 } as const;
/** Spread of mass at harvest that a year's own weather adds where lamps fill up the light (own choice, no source). */
const WEATHER_LOG_SD = 0.05;
/** A weighing counts half after so many days: how a model errs changes with the season (own choice). */
const HALF_LIFE_DAYS = 21;
/** Width around the size of a ready plant within which weighings count: the line is a local one (Cleveland 1979, JASA 74:829-836; width own choice). */
const NEAR_LOG_SIZE = 0.8;

/** A sample against the curve: ln(weighed / curve), at ln(weighed / mass of a ready plant). */
export interface CurveRatio { readonly logRatio: number; readonly logSize: number; readonly ageDays: number }

/**
 * From the samples of the lots that stand: their mean fresh mass against the curve of the season for the lot's own planting
 * day, densities and climate, without its samples. Models are wrong by more at one size than at another, so the ratio is taken
 * as a straight line in ln mass and read at the mass of a ready plant.
 */
export function houseRecord(card: CropCard, lots: readonly LotExpectation[], state: GreenhouseState, climates: BayClimates, date: string): HouseRecord {
  return recordOf(lots.flatMap(({ view, forecast }): CurveRatio[] => {
    const dates = forecast?.basis.samplesUsed ?? [];
    if (view.card.id !== card.id || dates.length === 0) return [];
    const curve = forecastLot({ ...middleOf(card), climate: climateOfLot(view, climates), densities: view.densities, planting: view.planting, samples: [], at: dates.at(-1)!, reportFrom: view.planting, horizonDays: 0 });
    if (!curve.ok) return [];
    return dates.flatMap((sampled) => {
      const masses = state.samples.filter((row) => row.lot === view.lot && row.date === sampled).map(({ freshG }) => freshG);
      const meanG = masses.reduce((sum, each) => sum + each, 0) / masses.length;
      const curveG = curve.value.dates.find((day) => day.date === sampled)?.freshG.p50;
      if (curveG === undefined || !(meanG >= LEAST_SHARE_OF_READY * card.harvest.readyFreshG)) return [];
      return [{ logRatio: Math.log(meanG / curveG), logSize: Math.log(meanG / card.harvest.readyFreshG), ageDays: daysBetween(sampled, date) }];
    });
  }));
}

/**
 * Bias at the size of a ready plant, and the spread around the line. A normal linear model with a conjugate prior
 * (Gelman et al., Bayesian Data Analysis, 14.8), its two unknowns solved by hand.
 */
export function recordOf(ratios: readonly CurveRatio[]): HouseRecord {
  const weight = ({ ageDays, logSize }: CurveRatio) => 0.5 ** (Math.max(0, ageDays) / HALF_LIFE_DAYS) * Math.exp(-0.5 * (logSize / NEAR_LOG_SIZE) ** 2);
  const sum = (of: (each: CurveRatio) => number) => ratios.reduce((total, each) => total + weight(each) * of(each), 0);
  const noise = PRIOR.logSd ** 2;
  const count = sum(() => 1);
  const [a11, a12, a22] = [count + noise / PRIOR.biasSd ** 2, sum(({ logSize }) => logSize), sum(({ logSize }) => logSize ** 2) + noise / PRIOR.slopeSd ** 2];
  const [b1, b2] = [sum(({ logRatio }) => logRatio), sum(({ logRatio, logSize }) => logRatio * logSize)];
  const determinant = a11 * a22 - a12 * a12;
  const [bias, slope] = [(a22 * b1 - a12 * b2) / determinant, (a11 * b2 - a12 * b1) / determinant];
  const squares = sum(({ logRatio, logSize }) => (logRatio - bias - slope * logSize) ** 2);
  const variance = (PRIOR.worth * noise + squares) / (PRIOR.worth + count);
  // How well the line itself is known at the size of a ready plant.
  const ofLine = (variance * a22) / determinant;
  return { logBias: bias, slope, logSd: Math.sqrt(lotVariance(ratios, weight, (each) => each.logRatio - bias - slope * each.logSize)), sharedLogSd: Math.sqrt(ofLine + WEATHER_LOG_SD ** 2), samples: ratios.length };
}

/**
 * Variance from lot to lot: half the mean square of the differences between weighings that are next to one another in time and
 * size (von Neumann 1941, Annals of Mathematical Statistics 12:367-395), so that what all lots of a season have in common, and
 * the bend of the model's curve, do not count as spread.
 */
function lotVariance(ratios: readonly CurveRatio[], weight: (each: CurveRatio) => number, residual: (each: CurveRatio) => number): number {
  const inTurn = [...ratios].sort((a, b) => b.ageDays - a.ageDays || b.logSize - a.logSize);
  let [pairs, squares] = [0, 0];
  for (let i = 1; i < inTurn.length; i++) {
    const both = Math.sqrt(weight(inTurn[i - 1]!) * weight(inTurn[i]!));
    pairs += both;
    squares += (both * (residual(inTurn[i]!) - residual(inTurn[i - 1]!)) ** 2) / 2;
  }
  return (PRIOR.worth * PRIOR.logSd ** 2 + squares) / (PRIOR.worth + pairs);
}
