import * as fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { BasinType, SourceDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import type { ProductDescription } from '../../greenhouse/schema/productsFile.ts';
import type { BasinState } from '../../greenhouse/state.ts';
import { stockComposition } from '../../greenhouse/productComposition.ts';
import { cautionsOf } from '../../science/chemistry/incompatibilities.ts';
import { fertiliserOf } from '../../greenhouse/productComposition.ts';
import type { Composition } from '../../science/chemistry/composition.ts';
import { speciate } from '../../science/chemistry/solutionSpeciation.ts';
import type { LinearSolver } from '../solver/linearModel.ts';
import { loadLinearSolver } from '../solver/loadLinearSolver.ts';
import type { Feed, FeedRequest } from './feed.ts';
import { feedSteps } from './feedSteps.ts';
import { mixFeeds } from './mixFeeds.ts';
import type { SourceWater } from './sourceWaters.ts';

let solver: LinearSolver;
beforeAll(async () => { solver = await loadLinearSolver(); });

const TYPE: BasinType = { id: 'standard', lengthMm: 2500, widthMm: 1000, depthMm: 200, emptyKg: 60, rafts: 4, raftKg: 1.5, levelMinShare: 0.8, raftGapMm: 10, rimAboveRaftsMm: 60 };
const BASIN = (id: string): BasinState => ({ id, type: TYPE, bay: 'g', berth: 'G1', planting: undefined, filled: undefined, imagedAt: undefined, scans: [], washedAt: undefined, needsWash: false });

/** Pure salts, one mole a litre or less: the bottles of the textbook recipes. */
const SALTS: Readonly<Record<string, ProductDescription>> = Object.fromEntries([
  ['kno3', 'KNO3'], ['kh2po4', 'KH2PO4'], ['cano3', 'Ca(NO3)2.4H2O'], ['mgso4', 'MgSO4.7H2O'], ['nh4no3', 'NH4NO3'], ['k2so4', 'K2SO4'], ['hno3', 'HNO3'], ['koh', 'KOH'],
].map(([id, salt]) => [id, { id: id!, title: id!, salt: salt!, purityPct: 100, pricePerKg: 1 }]));

function source(id: string, kind: SourceDescription['kind'], products: Record<string, number>, more: Partial<SourceDescription> = {}): SourceWater {
  const costPerL = Object.values(products).reduce((sum, grams) => sum + grams / 1000, 0.0005);
  const found = kind === 'fresh' || kind === 'return' ? { mmolPerL: {} } : stockComposition(products, SALTS);
  const description: SourceDescription = { id, title: id, kind, capacityL: 5000, availableL: 5000, costPerM3: 0, pumpMinimumL: 0, ...more };
  return { source: description, mmolPerL: found.mmolPerL, availableL: description.availableL, costPerL, gramsPerL: products, basis: 'test', cautions: [...new Set(Object.keys(products).flatMap((product) => cautionsOf(fertiliserOf(SALTS[product]!)!)))] };
}

const WATER = source('rain', 'fresh', {});
/** Tap water of 2 meq/L alkalinity (invented, balances). */
const TAP: SourceWater = { ...source('tap', 'fresh', {}), costPerL: 0.002, mmolPerL: { Ca: 0.9, Mg: 0.2, Na: 0.5, Cl: 0.5, HCO3: 2, SO4: 0.1 } };
const STOCKS = [source('a', 'stock', { cano3: 236.15 }), source('b', 'stock', { kno3: 101.1 }), source('c', 'stock', { kh2po4: 136.09 }), source('d', 'stock', { mgso4: 246.47 }), source('e', 'stock', { nh4no3: 80.04 }), source('f', 'stock', { k2so4: 87.13 })];
const ACID = source('acid', 'acid', { hno3: 63.01 });
const BASE = source('base', 'base', { koh: 28.05 });

const MACROS = { NH4: 0, K: 0, Ca: 0, Mg: 0, NO3: 0, SO4: 0, P: 0 };
function card(target: Partial<typeof MACROS>, more: Partial<CropCard['water']> = {}): CropCard {
  const none = { source: 'test', mmolPerL: MACROS, umolPerL: { Fe: 0, Mn: 0, Zn: 0, B: 0, Cu: 0, Mo: 0 } };
  const water: CropCard['water'] = { target: { ...none, mmolPerL: { ...MACROS, ...target } }, feed: none, uptake: none, tolerance: 0.1, traceTolerance: 3, ecMsPerCm25: [0.2, 5], pH: [4, 7], sodiumMaxMmolPerL: 4, chlorideMaxMmolPerL: 4, ...more };
  return { id: 'leaf', title: 'Leaf', water } as CropCard;
}

const request = (id: string, of: CropCard, present: FeedRequest['present'] = { volumeL: 0, mmolPerL: {} }): FeedRequest =>
  ({ basin: BASIN(id), card: of, present, maximumLoadKg: 900, uptake: { litres: 0, mmolPerL: {} } });

function mix(requests: readonly FeedRequest[], sources: readonly SourceWater[], discharge = 0.003): readonly Feed[] {
  const out = mixFeeds(requests, sources, discharge, solver);
  if (!out.ok) throw new Error(JSON.stringify(out.refusals));
  return out.value;
}
const litresOf = (feed: Feed, id: string): number => feed.draws.find(({ from }) => from.source.id === id)?.litres ?? 0;

/** Grams of each salt in 1,000 L. Hoagland & Arnon 1950, no. 1 and 2; lettuce: Sonneveld & Straver 1994 (all from memory; the grams are stoichiometric). */
const RECIPES = [
  { name: 'Hoagland & Arnon 1950, no. 1', target: { K: 6, Ca: 5, Mg: 2, NO3: 15, SO4: 2, P: 1 }, grams: { kh2po4: 136.1, kno3: 505.5, cano3: 1180.7, mgso4: 492.9 } },
  { name: 'Sonneveld & Straver 1994, lettuce', target: { NH4: 1.25, K: 11, Ca: 4.5, Mg: 1, NO3: 19, SO4: 1.125, P: 2 }, grams: { cano3: 1062.7, nh4no3: 100.1, kno3: 884.6, kh2po4: 272.2, mgso4: 246.5, k2so4: 21.8 } },
];

describe('mixFeeds', () => {
  it.each(RECIPES)('meets $name with the grams of the recipe', ({ name, target, grams }) => {
    console.log(`feed checked against ${name}: grams in 1,000 L`);
    const exact = card(target, { tolerance: 0.0005 });
    const [feed] = mix([request('B1', exact)], [WATER, ...STOCKS]);
    expect(feed!.violations).toEqual([]);
    for (const [product, expected] of Object.entries(grams)) {
      const got = feed!.draws.reduce((sum, { from, litres }) => sum + (from.gramsPerL[product] ?? 0) * litres, 0) / feed!.after.volumeL * 1000;
      expect(Math.abs(got / expected - 1)).toBeLessThan(0.01);
    }
    for (const [ion, mmol] of Object.entries(target)) expect(Math.abs(feed!.after.mmolPerL[ion as keyof Composition]! / mmol - 1)).toBeLessThan(0.002);
  });

  it('brings the alkalinity of tap water down with acid until pH holds, by full speciation', () => {
    const [feed] = mix([request('B1', card(RECIPES[0]!.target, { pH: [5.5, 6.2] }))], [TAP, ...STOCKS, ACID, BASE]);
    expect(litresOf(feed!, 'acid')).toBeGreaterThan(0.5);
    expect(litresOf(feed!, 'base')).toBe(0);
    const checked = speciate(feed!.after.mmolPerL, { carbon: { by: 'air', log10PCO2Atm: -2.7 } });
    expect(checked.ok && checked.value.pH).toBeCloseTo(feed!.after.pH!, 9);
    expect(feed!.after.pH!).toBeGreaterThanOrEqual(5.5);
    expect(feed!.after.pH!).toBeLessThanOrEqual(6.2);
    expect(feed!.violations).toEqual([]);
  });

  it('never puts acid and base into the same filling, though both would be cheap potassium and nitrate', () => {
    const cheap = (water: SourceWater): SourceWater => ({ ...water, costPerL: 0.0001 });
    for (const pH of [[5, 5.4], [5.8, 6.2], [6.6, 7]] as const) {
      const [feed] = mix([request('B1', card({ K: 6, NO3: 6 }, { pH: [...pH], tolerance: 0.3 }))], [WATER, source('b', 'stock', { kno3: 101.1 }, { perBasinMaxL: 1 }), cheap(ACID), cheap(BASE)]);
      expect(litresOf(feed!, 'acid') * litresOf(feed!, 'base')).toBe(0);
    }
  });

  it('keeps conductivity within its band by the speciated conductivity, tightening its own plane until it holds', () => {
    const wide = card(RECIPES[1]!.target, { tolerance: 0.5, ecMsPerCm25: [1.75, 1.8] });
    const [feed] = mix([request('B1', wide)], [WATER, ...STOCKS]);
    expect(feed!.after.ecMsPerCm25).toBeGreaterThanOrEqual(1.75);
    expect(feed!.after.ecMsPerCm25).toBeLessThanOrEqual(1.8);
    expect(feed!.violations).toEqual([]);
  });

  it('drains a basin that is too salty, as little as it can', () => {
    const salty = { volumeL: 480, mmolPerL: { Na: 6, Cl: 3 } };
    const [feed] = mix([request('B1', card({}, { ecMsPerCm25: [0, 5], pH: [4, 8] }), salty)], [WATER]);
    // Discharge costs more than water, so it is filled up to 500 L: 480 x 6 - 6 d = 4 x 500 x (1 - narrowing).
    expect(feed!.drainL).toBeCloseTo((2880 - 4 * 0.998 * 500) / 6, 0);
    expect(feed!.after.mmolPerL.Na!).toBeLessThanOrEqual(4);
    expect(feed!.binding.some(({ limit, side }) => limit === 'Na' && side === 'high')).toBe(true);
  });

  it('leaves room for what the crop will take in the days that the feed has to last', () => {
    const thirsty = { ...request('B1', card({ K: 5, NO3: 5 }, { tolerance: 0.2 })), uptake: { litres: 50, mmolPerL: { K: 10, NO3: 10 } } };
    const [feed] = mix([thirsty], [WATER, STOCKS[1]!]);
    const later = (feed!.after.mmolPerL.K! * feed!.after.volumeL - 500) / (feed!.after.volumeL - 50);
    expect(later).toBeGreaterThanOrEqual(4);
    expect(feed!.after.mmolPerL.K!).toBeGreaterThan(4.5);
  });

  it('names the least miss when the water at hand cannot do it', () => {
    const [feed] = mix([request('B1', card({ P: 1 }))], [WATER, STOCKS[0]!]);
    expect(feed!.violations.map(({ limit, side }) => `${limit} ${side}`)).toContain('P low');
    expect(feed!.after.volumeL).toBeGreaterThan(480);
  });

  it('keeps litres that a person approved', () => {
    const fixed = { ...request('B1', card({ K: 5, NO3: 5 })), fixed: { drainL: 0, drawL: { rain: 400, b: 2 } } };
    const [feed] = mix([fixed], [WATER, STOCKS[1]!]);
    expect(feed!.draws.map(({ from, litres }) => [from.source.id, litres])).toEqual([['rain', 400], ['b', 2]]);
    expect(feed!.violations.map(({ limit }) => limit)).toContain('volume');
  });

  it('never exceeds a hard limit, a tank, a load or a pump, mixes what must be apart, or says NaN, for any input', () => {
    const amount = fc.integer({ min: 0, max: 120 }).map((n) => n / 10);
    const target = fc.record({ NH4: amount, K: amount, Ca: amount, Mg: amount, NO3: amount, SO4: amount, P: amount });
    const limit = fc.record({ perBasinMaxL: fc.integer({ min: 0, max: 800 }).map((n) => n / 100), pumpMinimumL: fc.integer({ min: 0, max: 60 }).map((n) => n / 100), availableL: fc.integer({ min: 0, max: 40 }) });
    const present = fc.record({ volumeL: fc.integer({ min: 0, max: 520 }), mmolPerL: fc.record({ K: amount, NO3: amount, Ca: amount, P: amount, Na: amount, Cl: amount, HCO3: fc.integer({ min: -10, max: 40 }).map((n) => n / 10) }) });
    fc.assert(fc.property(fc.array(fc.tuple(target, present), { minLength: 1, maxLength: 3 }), fc.array(limit, { minLength: 8, maxLength: 8 }), fc.integer({ min: 300, max: 900 }), (asked, limits, maximumLoadKg) => {
      const doses = [...STOCKS, ACID, BASE].map((water, i) => ({ ...water, availableL: limits[i]!.availableL, source: { ...water.source, ...limits[i]! } }));
      const requests = asked.map(([mmol, water], i) => ({ ...request(`B${i}`, card(mmol, { tolerance: 0.3, ecMsPerCm25: [0.5, 3], pH: [5.2, 6.5] }), water), maximumLoadKg }));
      const feeds = mix(requests, [WATER, TAP, ...doses]);
      expect(JSON.stringify(feeds)).not.toMatch(/:null/);
      for (const { source: { id, perBasinMaxL, pumpMinimumL }, availableL } of doses) {
        for (const feed of feeds) {
          const litres = litresOf(feed, id);
          expect(litres).toBeLessThanOrEqual(perBasinMaxL! + 1e-9);
          if (litres > 0) expect(litres).toBeGreaterThanOrEqual(pumpMinimumL - 1e-9);
        }
        expect(feeds.reduce((sum, feed) => sum + litresOf(feed, id), 0)).toBeLessThanOrEqual(availableL + 1e-9);
      }
      for (const feed of feeds) expectSafe(feed, maximumLoadKg);
    }), { numRuns: 12, seed: 5 });
  });
});

function expectSafe(feed: Feed, maximumLoadKg: number): void {
  expect(litresOf(feed, 'acid') * litresOf(feed, 'base')).toBe(0);
  expect(feed.drainL).toBeLessThanOrEqual(feed.request.present.volumeL + 1e-9);
  const volumeL = feed.request.present.volumeL - feed.drainL + feed.draws.reduce((sum, { litres }) => sum + litres, 0);
  expect(Math.abs(volumeL - feed.after.volumeL)).toBeLessThan(1e-9 * 500);
  expect(feed.after.volumeL).toBeLessThanOrEqual(500);
  if (feed.draws.length > 0) expect(60 + 6 + feed.after.volumeL).toBeLessThanOrEqual(Math.max(maximumLoadKg, 66) + 1e-9);
  for (const name of ['K', 'NO3', 'HCO3'] as const) {
    const amount = feed.draws.reduce((sum, { from, litres }) => sum + litres * (from.mmolPerL[name] ?? 0), (feed.request.present.mmolPerL[name] ?? 0) * (feed.request.present.volumeL - feed.drainL));
    expect(Math.abs(amount - (feed.after.mmolPerL[name] ?? 0) * feed.after.volumeL)).toBeLessThan(1e-9 * (1 + Math.abs(amount)));
  }
  const steps = feedSteps(feed, undefined);
  const firstWater = steps.findIndex((step) => step.startsWith('Fill in'));
  const acidAt = steps.findIndex((step) => step.includes('of acid'));
  if (acidAt >= 0) {
    expect(steps[acidAt]).toContain('never water into acid');
    if (firstWater >= 0) expect(acidAt).toBeGreaterThan(firstWater);
  }
}
