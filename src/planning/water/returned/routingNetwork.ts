import type { Component, Composition } from '../../../science/chemistry/composition.ts';
import type { PoolingProblem, PoolProduct, PoolSource, PoolToProduct, SourceToPool, SourceToProduct } from '../../solver/pooling/poolingProblem.ts';
import { groupBatches, type BatchGroup } from './batchGroups.ts';
import { limitedComponents, mergeWindows } from './expectedFeeds.ts';
import { SALT_SHARE, type ReturnTank, type RoutingQuestion } from './routingQuestion.ts';

/** The routing as a pooling network: cubic metres, mmol/L (which are mol/m3) and the greenhouse's currency. */
export interface RoutingNetwork {
  readonly problem: PoolingProblem;
  readonly groups: readonly BatchGroup[];
  readonly tanks: readonly ReturnTank[];
  /** Source of each tank's present contents; absent where it is empty. The groups are the first sources. */
  readonly contentsOf: readonly (number | undefined)[];
  /** Products that stand for discharge: within the permit, and beyond it. */
  readonly discharged: number;
  readonly beyond: number;
}

/** What is kept longer than is looked ahead is worth this share of the water and nutrients it may still replace, and costs this share of its discharge (common practice, no source). */
const KEPT_SHARE = 0.3;
/** Nitrate discharged beyond the permit, per mol: more than anything else costs, so that it is the last resort and the least. */
const BEYOND_PERMIT_PER_MOL = 1000;
/** A nutrient that nothing brings counts this many times its price, so that feeds can always be met. */
const MISSING_TIMES = 10;
const UNKNOWN_PRICE_PER_MOL = 1;
/** Pure water that is not at hand: dearer than any that is, so that feeds can be met where fresh water is not known. */
const MISSING_WATER_PER_M3 = 100;
const GRAMS_N_PER_MOL = 14.007;

/**
 * Batches and what the tanks hold are the sources, return tanks the pools, the feeds of the coming days the products, with
 * fresh water and stocks straight into them; what no feed takes is kept (below the salt limit) or has to be let out. Feeds
 * that arrive after today's batches are mixed in are what the network decides on; today's own draws are taken off before.
 * Left out: batches of later days, pH and conductivity of the feeds (their mix is made on the day), iron lost to UV-C.
 */
export function routingNetwork(question: RoutingQuestion): RoutingNetwork {
  const { tanks, others } = question;
  const feeds = tanks.every(({ drawnIn }) => drawnIn.length !== 1) ? mergeWindows(question.feeds) : question.feeds;
  const groups = groupBatches(question.batches);
  const names = [...new Set<Component>([...limitedComponents(feeds), 'Na', 'Cl', 'NO3'])];
  const qualities = (mmolPerL: Composition): number[] => names.map((name) => Math.max(0, mmolPerL[name] ?? 0));
  const priceOf = names.map((name) => molPrice(question, name));
  const sources: PoolSource[] = groups.map(({ litres, mmolPerL, batches }) => ({ id: batches[0]!.basin, cost: 0, least: litres / 1000, most: litres / 1000, quality: qualities(mmolPerL) }));
  const contentsOf = tanks.map(({ source, heldL, mmolPerL }) => (heldL < 1 ? undefined : sources.push({ id: source.id, cost: 0, least: heldL / 1000, most: heldL / 1000, quality: qualities(mmolPerL) }) - 1));
  const firstOther = sources.length;
  const neededM3 = feeds.reduce((sum, { litres }) => sum + litres, 0) / 1000;
  for (const { source, mmolPerL, costPerL } of others) sources.push({ id: source.id, cost: costPerL * 1000, least: 0, most: neededM3, quality: qualities(mmolPerL) });
  const firstMissing = sources.length;
  sources.push({ id: 'missing water', cost: MISSING_WATER_PER_M3, least: 0, most: neededM3, quality: names.map(() => 0) });
  names.forEach((name, k) => sources.push({ id: `missing ${name}`, cost: 1000 * MISSING_TIMES * priceOf[k]!, least: 0, most: neededM3, quality: names.map((_, other) => (other === k ? 1000 : 0)) }));

  const none = names.map(() => undefined);
  const freshHigh = names.map((name) => Math.max(0, ...others.filter(({ source }) => source.kind === 'fresh').map(({ mmolPerL }) => mmolPerL[name] ?? 0)));
  const products: PoolProduct[] = feeds.map(({ crop, window, litres, lowMmolPerL, highMmolPerL }) => ({
    id: `${crop} ${window}`, price: 0, least: litres / 1000, most: litres / 1000,
    qualityLow: names.map((name) => { const low = lowMmolPerL[name] ?? 0; return low > 0 ? low : undefined; }),
    qualityHigh: names.map((name, k) => { const high = highMmolPerL[name]; return high === undefined ? undefined : Math.max(high, lowMmolPerL[name] ?? 0, freshHigh[k]!) * (1 + 1e-9); }),
  }));
  const dischargePerM3 = question.dischargeCostPerL * 1000;
  const freshPerM3 = 1000 * Math.min(Infinity, ...others.filter(({ source }) => source.kind === 'fresh').map(({ costPerL }) => costPerL));
  const roomOf = tanks.map((tank) => Math.max(tank.source.capacityL, tank.heldL + approvedInto(groups, tank)) / 1000);
  const keptAt = tanks.map(({ source }, l) => products.push({
    id: `kept in ${source.id}`, price: KEPT_SHARE * ((Number.isFinite(freshPerM3) ? freshPerM3 : 0) - dischargePerM3), least: 0, most: roomOf[l]!, qualityLow: none, worth: priceOf.map((price) => KEPT_SHARE * price),
    qualityHigh: names.map((name) => (name === 'Na' ? SALT_SHARE * question.strictest.sodiumMmolPerL : name === 'Cl' ? SALT_SHARE * question.strictest.chlorideMmolPerL : undefined)),
  }) - 1);
  const letOutAt = tanks.map(({ source }, l) => products.push({ id: `let out of ${source.id}`, price: -dischargePerM3, least: 0, most: roomOf[l]!, qualityLow: none, qualityHigh: none }) - 1);
  const allM3 = groups.reduce((sum, { litres }) => sum + litres, 0) / 1000;
  const { nitrateMaxKgPerDay, nitrateMaxMmolPerL } = question.discharge;
  const dayMost = names.map((name) => (name === 'NO3' && nitrateMaxKgPerDay !== undefined ? (1000 * nitrateMaxKgPerDay) / GRAMS_N_PER_MOL : undefined));
  const discharged = products.push({ id: 'discharge', price: -dischargePerM3, least: 0, most: allM3, qualityLow: none, qualityHigh: none, amountMost: dayMost }) - 1;
  const beyond = products.push({ id: 'discharge beyond the permit', price: -dischargePerM3, least: 0, most: allM3, qualityLow: none, qualityHigh: none }) - 1;

  const intoPool: SourceToPool[] = [
    ...groups.flatMap(({ approved }, i) => tanks.flatMap(({ source }, l): SourceToPool[] => (approved === undefined || approved.to === source.id ? [{ source: i, pool: l }] : []))),
    ...contentsOf.flatMap((i, l): SourceToPool[] => (i === undefined ? [] : [{ source: i, pool: l }])),
  ];
  const outOfPool: PoolToProduct[] = tanks.flatMap(({ source, drawnIn }, l) => [
    ...feeds.flatMap(({ window }, j): PoolToProduct[] => (drawnIn.includes(window) ? [{ pool: l, product: j, most: roomOf[l]!, cost: source.costPerM3 }] : [])),
    { pool: l, product: keptAt[l]!, most: roomOf[l]! }, { pool: l, product: letOutAt[l]!, most: roomOf[l]! },
  ]);
  const direct: SourceToProduct[] = [
    ...groups.flatMap(({ mmolPerL, approved }, i): SourceToProduct[] => {
      // Approved into a tank that is no longer there: it has to go somewhere.
      if (tanks.some(({ source }) => source.id === approved?.to)) return [];
      const over = (mmolPerL.NO3 ?? 0) - (nitrateMaxMmolPerL ?? Infinity);
      const nitrate = over > 0 ? over : (mmolPerL.NO3 ?? 0);
      return [...(over > 0 ? [] : [{ source: i, product: discharged, most: allM3 }]), { source: i, product: beyond, most: allM3, cost: BEYOND_PERMIT_PER_MOL * nitrate }];
    }),
    ...feeds.flatMap((_, j) => sources.slice(firstOther).map((is, s): SourceToProduct => ({ source: firstOther + s, product: j, most: firstOther + s < firstMissing ? is.most : neededM3 }))),
  ];
  const problem: PoolingProblem = { qualities: names, sources, pools: tanks.map(({ source }, l) => ({ id: source.id, capacity: roomOf[l]! })), products, intoPool, outOfPool, direct };
  return { problem, groups, tanks, contentsOf, discharged, beyond };
}

/** What a mol of a component costs in the cheapest stock, whose price is spread evenly over what it brings. */
function molPrice({ others, feeds }: RoutingQuestion, name: Component): number {
  const wanted = new Set<string>(feeds.flatMap(({ lowMmolPerL }) => Object.entries(lowMmolPerL).filter(([, low]) => low > 0).map(([each]) => each)));
  if (!wanted.has(name)) return 0;
  const prices = others.filter(({ source, mmolPerL }) => source.kind === 'stock' && (mmolPerL[name] ?? 0) > 0).map(({ mmolPerL, costPerL }) => {
    const brought = Object.entries(mmolPerL).filter(([each, value]) => wanted.has(each) && value > 0).length;
    return (1000 * costPerL) / (mmolPerL[name]! * Math.max(1, brought));
  });
  return prices.length === 0 ? UNKNOWN_PRICE_PER_MOL : Math.min(...prices);
}

const approvedInto = (groups: readonly BatchGroup[], { source }: ReturnTank): number => groups.filter(({ approved }) => approved?.to === source.id).reduce((sum, { litres }) => sum + litres, 0);
