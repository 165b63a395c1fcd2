import type { PlantMeasure } from '../measurePlants.ts';
import type { LeafColour } from '../picture/plantColours.ts';
import { robustSpread } from './robustSpread.ts';

/** A plant as two scans see it. Colours are means over the plant, 0 to 255; without them yellowing is not judged. */
export interface WatchedPlant extends PlantMeasure {
  readonly colour?: LeafColour;
}

export interface WatchRequest {
  readonly now: readonly WatchedPlant[];
  /** The scan before, of the same plants with the same cell size; absent for the first. */
  readonly before?: readonly WatchedPlant[];
  /** ln of the growth in volume that the forecast gives between the two scans, with its spread between plants; absent when there is none. */
  readonly forecast?: { readonly lnGrowth: number; readonly lnSd: number };
}

export type WatchReason = 'gone' | 'shrank' | 'lags' | 'bolts' | 'yellows' | 'outside';

/** A plant to look at, and why. */
export interface WatchNote {
  readonly raft: PlantMeasure['raft'];
  readonly position: PlantMeasure['position'];
  readonly reason: WatchReason;
  /** What was found and what it was held against, both in the unit that the sentence names. */
  readonly value: number;
  readonly limit: number;
  readonly sentence: string;
}

/** Standard deviations beyond which a plant is listed: one in 700 by chance alone (normal distribution). */
const LIMIT_SD = 3;
/**
 * Repeatability of ln volume of a plant that stands alone (0.8 % in repeated synthetic scans, doubled for real cameras) and of one whose
 * outline is all shared (own judgement, no source: leaves change hands between neighbours).
 */
const ALONE_SD = 0.016;
const SHARED_SD = 0.08;
/** No spread is taken as smaller: neighbours that happen to be alike make nobody an outsider. */
const LEAST_SD = { growth: 0.03, size: 0.1, slenderness: 0.05, green: 0.02 } as const;
/** Fewer plants have no middle to be held against. */
const LEAST_PLANTS = 8;

/**
 * Lists the plants to look at, each reason once, in the order of the scan. It proposes; nothing follows from it by itself.
 *
 * gone: present before, not now. shrank: less volume than the scans' repeatability allows. lags: grew less than its fellows or than
 * forecast. bolts: grew slender (height over width) faster than its fellows. yellows: lost more green than its fellows.
 * outside: larger or smaller than the plants of its raft.
 */
export function watchPlants({ now, before = [], forecast }: WatchRequest): WatchNote[] {
  const earlier = new Map(before.map((plant) => [nameOf(plant), plant]));
  const pairs = now.flatMap((plant): Pair[] => {
    const old = earlier.get(nameOf(plant));
    return old?.present === true ? [{ plant, old }] : [];
  });
  const grown = pairs.filter(({ plant, old }) => plant.present && plant.volumeMm3 > 0 && old.volumeMm3 > 0);
  const notes = [...findGone(pairs), ...findShrunk(grown), ...findLagging(grown, forecast), ...findBolting(grown), ...findYellow(grown), ...findOutsiders(now)];
  const order = new Map(now.map((plant, i) => [nameOf(plant), i]));
  return notes.sort((a, b) => order.get(nameOf(a))! - order.get(nameOf(b))!);
}

interface Pair { readonly plant: WatchedPlant; readonly old: WatchedPlant }

const nameOf = ({ raft, position }: { readonly raft: PlantMeasure['raft']; readonly position: PlantMeasure['position'] }) => JSON.stringify([raft, position]);
const note = ({ raft, position }: PlantMeasure, reason: WatchReason, value: number, limit: number, sentence: string): WatchNote => ({ raft, position, reason, value, limit, sentence });
const percent = (ln: number) => `${(100 * (Math.exp(ln) - 1)).toFixed(0)} %`;
const lnGrowth = ({ plant, old }: Pair) => Math.log(plant.volumeMm3 / old.volumeMm3);

function findGone(pairs: readonly Pair[]): WatchNote[] {
  return pairs.filter(({ plant }) => !plant.present).map(({ plant, old }) => note(plant, 'gone', 0, old.volumeMm3, 'There was a plant at the last scan and there is none now.'));
}

function findShrunk(grown: readonly Pair[]): WatchNote[] {
  return grown.flatMap((pair) => {
    const limit = -LIMIT_SD * Math.SQRT2 * (ALONE_SD + (SHARED_SD - ALONE_SD) * pair.plant.sharedOutline);
    const growth = lnGrowth(pair);
    return growth < limit ? [note(pair.plant, 'shrank', growth, limit, `Its volume changed by ${percent(growth)} since the last scan; scans alone differ by ${percent(limit)} at most.`)] : [];
  });
}

function findLagging(grown: readonly Pair[], forecast: WatchRequest['forecast']): WatchNote[] {
  // A forecast is for the mean plant and less sure than the plants beside: each is a reason of its own, and the stricter one is told.
  const { middle, sd } = robustSpread(grown.map(lnGrowth));
  const rules = [...(grown.length < LEAST_PLANTS ? [] : [{ due: middle, lnSd: sd, whose: 'its fellows\'' }]), ...(forecast === undefined ? [] : [{ due: forecast.lnGrowth, lnSd: forecast.lnSd, whose: 'the forecast' }])]
    .map(({ due, lnSd, whose }) => ({ due, whose, limit: due - LIMIT_SD * Math.max(lnSd, LEAST_SD.growth) })).sort((a, b) => b.limit - a.limit);
  return grown.flatMap((pair) => {
    const growth = lnGrowth(pair), broken = rules.find(({ limit }) => growth < limit);
    return broken === undefined ? [] : [note(pair.plant, 'lags', growth, broken.limit, `Its volume changed by ${percent(growth)} since the last scan; ${broken.whose} is ${percent(broken.due)}.`)];
  });
}

function findBolting(grown: readonly Pair[]): WatchNote[] {
  const slender = ({ plant, old }: Pair) => Math.log(plant.heightP95Mm / plant.diameterMm) - Math.log(old.heightP95Mm / old.diameterMm);
  const pairs = grown.filter((pair) => Number.isFinite(slender(pair)));
  return farFrom(pairs, slender, LEAST_SD.slenderness).filter(({ value, middle }) => value > middle).map(({ item, value, limit }) => note(item.plant, 'bolts', value, limit,
    `Its height over width changed by ${percent(value)} since the last scan, more than its fellows'.`));
}

function findYellow(grown: readonly Pair[]): WatchNote[] {
  const pairs = grown.filter(({ plant, old }) => plant.colour !== undefined && old.colour !== undefined);
  return farFrom(pairs, ({ plant, old }) => greenness(plant.colour!) - greenness(old.colour!), LEAST_SD.green).filter(({ value, middle }) => value < middle)
    .map(({ item, value, limit }) => note(item.plant, 'yellows', value, limit, `It lost ${(-value).toFixed(2)} of excess green since the last scan, more than its fellows.`));
}

/** Excess green on chromatic coordinates (D.M. Woebbecke et al. 1995, Trans. ASAE 38:259-269); 0 for black. */
function greenness({ red, green, blue }: NonNullable<WatchedPlant['colour']>): number {
  return (2 * green - red - blue) / Math.max(1, red + green + blue);
}

function findOutsiders(now: readonly WatchedPlant[]): WatchNote[] {
  const present = now.filter(({ present, volumeMm3 }) => present && volumeMm3 > 0);
  const rafts = new Set(present.map(({ raft }) => raft));
  return [...rafts].flatMap((raft) => farFrom(present.filter((plant) => plant.raft === raft), ({ volumeMm3 }) => Math.log(volumeMm3), LEAST_SD.size)
    .map(({ item, value, middle, limit }) => note(item, 'outside', Math.exp(value), Math.exp(limit), `Its volume is ${percent(value - middle)} against the middle of its raft.`)));
}

interface Far<T> { readonly item: T; readonly value: number; readonly middle: number; readonly limit: number }

/** The items further from the middle of all than LIMIT_SD of their spread. */
function farFrom<T>(items: readonly T[], valueOf: (item: T) => number, leastSd: number): Far<T>[] {
  if (items.length < LEAST_PLANTS) return [];
  const { middle, sd } = robustSpread(items.map(valueOf));
  const reach = LIMIT_SD * Math.max(sd, leastSd);
  return items.map((item) => ({ item, value: valueOf(item), middle, limit: middle + Math.sign(valueOf(item) - middle) * reach })).filter(({ value }) => Math.abs(value - middle) > reach);
}
