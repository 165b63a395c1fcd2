import { describe, expect, it } from 'vitest';
import { startRandom } from '../seededRandom.ts';
import { assimilateScalar, covariance, meanOf } from './assimilate.ts';
import { createGrowthModel } from './growthModels.ts';
import { DEFAULT_GROWTH_PRIOR } from './growthPrior.ts';
import type { LotEnsemble } from './lotEnsemble.ts';
import { advanceLot, createLotEnsemble, disturbLot, dryPerPlant, leafAreaPerPlant, meanCanopy, respaceLot } from './lotEnsemble.ts';

function ensembleOf(modelId = 'two-state-lettuce', members = 200): LotEnsemble {
  const model = createGrowthModel(modelId, {});
  if (!model.ok) throw new Error('model refused');
  return createLotEnsemble(model.value, DEFAULT_GROWTH_PRIOR, { shootDryGPerPlant: 0.5, logSd: 0.4, plantsPerM2: 60 }, members, startRandom(3));
}
const logDry = (ensemble: LotEnsemble) => dryPerPlant(ensemble, new Float64Array(ensemble.members)).map(Math.log);
const variance = (values: Float64Array) => covariance(values, meanOf(values), values, meanOf(values));
const correlation = (a: Float64Array, b: Float64Array) => covariance(a, meanOf(a), b, meanOf(b)) / Math.sqrt(variance(a) * variance(b));

describe('learning from one number', () => {
  it('has the mean and variance of Kalman 1960 for a normal belief: prior variance P, error R -> PR/(P+R)', () => {
    const ensemble = ensembleOf('expolinear');
    const before = logDry(ensemble);
    const [prior, spread] = [meanOf(before), variance(before)];
    assimilateScalar(ensemble, before, prior + 0.3, 0.2);
    const after = logDry(ensemble);
    expect(meanOf(after)).toBeCloseTo(prior + 0.3 * spread / (spread + 0.04), 10);
    expect(variance(after)).toBeCloseTo(spread * 0.04 / (spread + 0.04), 10);
  });

  it('moves what goes together with it and leaves the rest', () => {
    const ensemble = ensembleOf();
    const seen = ensemble.lotAssimilation.map((log, m) => 0.5 * log + 0.01 * ensemble.disturbance[m]!);
    const untouched = meanOf(ensemble.lotFreshness);
    assimilateScalar(ensemble, seen, 0.1, 0.02);
    expect(meanOf(ensemble.lotAssimilation)).toBeCloseTo(0.195, 1);
    expect(Math.abs(meanOf(ensemble.lotFreshness) - untouched)).toBeLessThan(0.03);
    expect(ensemble.assimilation[7]).toBeCloseTo(Math.exp(ensemble.lotAssimilation[7]! + ensemble.disturbance[7]!), 12);
  });

  it('a surprise beyond three standard deviations pulls as one of three would', () => {
    const [sane, wild] = [ensembleOf('expolinear'), ensembleOf('expolinear')];
    const before = logDry(sane);
    const [prior, spread] = [meanOf(before), variance(before)];
    assimilateScalar(wild, before, prior + 5, 0.1);
    // error so that 5 = 3 sqrt(S + R); gain S/(S+R) = 9 S/25
    expect(meanOf(logDry(wild))).toBeCloseTo(prior + 5 * 9 * spread / 25, 9);
  });
});

describe('a lot as members', () => {
  it('begins with the spreads it was given', () => {
    const ensemble = ensembleOf('expolinear');
    const logs = logDry(ensemble);
    expect(meanOf(logs)).toBeCloseTo(Math.log(0.5), 10);
    expect(Math.sqrt(variance(logs))).toBeCloseTo(0.4, 2);
    expect(Math.sqrt(variance(ensemble.lotAssimilation))).toBeCloseTo(0.25, 2);
    expect(Math.sqrt(variance(ensemble.lotExpansion))).toBeCloseTo(0.2, 2);
    expect(Math.sqrt(variance(ensemble.disturbance))).toBeCloseTo(0.2, 2);
    expect(Math.sqrt(variance(ensemble.lotFreshness))).toBeCloseTo(0.12, 2);
    expect(Math.sqrt(variance(ensemble.freshnessDrift))).toBeCloseTo(0.08, 2);
  });

  it('the split between sugar and structure is uncertain too', () => {
    const ensemble = ensembleOf();
    const split = ensemble.states[0]!.map((sugar, m) => Math.log(sugar / ensemble.states[1]![m]!));
    expect(meanOf(split)).toBeCloseTo(Math.log(1 / 3), 6);
    expect(Math.sqrt(variance(split))).toBeCloseTo(0.3, 2);
    const tomato = ensembleOf('reduced-tomato');
    expect(new Set(tomato.states[0]).size).toBe(1);
    expect(new Set(tomato.states[1]).size).toBeGreaterThan(100);
  });

  it('disturbances keep their spread and fade in five days; the lot\'s rate drifts by 0.07 in a week', () => {
    const ensemble = ensembleOf();
    const random = startRandom(9);
    const first = Float64Array.from(ensemble.disturbance);
    const rate = Float64Array.from(ensemble.lotAssimilation);
    for (let day = 0; day < 5; day += 1) disturbLot(ensemble, random);
    expect(correlation(first, ensemble.disturbance)).toBeGreaterThan(Math.exp(-1) - 0.15);
    expect(correlation(first, ensemble.disturbance)).toBeLessThan(Math.exp(-1) + 0.15);
    for (let day = 5; day < 28; day += 1) disturbLot(ensemble, random);
    expect(Math.sqrt(variance(ensemble.disturbance))).toBeGreaterThan(0.16);
    expect(Math.sqrt(variance(ensemble.disturbance))).toBeLessThan(0.24);
    const drifted = ensemble.lotAssimilation.map((log, m) => log - rate[m]!);
    expect(Math.sqrt(variance(drifted)) / (0.07 * 2)).toBeGreaterThan(0.8);
    expect(Math.sqrt(variance(drifted)) / (0.07 * 2)).toBeLessThan(1.2);
  });

  it('a disturbance acts on expansion only where the model says so', () => {
    const [two, one] = [ensembleOf('two-state-lettuce'), ensembleOf('expolinear')];
    expect(two.expansion[3]).toBeCloseTo(Math.exp(two.lotExpansion[3]!), 12);
    expect(one.expansion[3]).toBeCloseTo(Math.exp(one.lotExpansion[3]! + one.disturbance[3]!), 12);
  });

  it('moving plants keeps their mass; leaf area and cover follow the density', () => {
    const ensemble = ensembleOf();
    const before = logDry(ensemble);
    const canopy = meanCanopy(ensemble);
    const leaf = leafAreaPerPlant(ensemble, new Float64Array(ensemble.members));
    respaceLot(ensemble, 30);
    logDry(ensemble).forEach((log, m) => expect(log).toBeCloseTo(before[m]!, 10));
    expect(meanCanopy(ensemble).leafAreaIndex).toBeCloseTo(canopy.leafAreaIndex / 2, 10);
    expect(meanCanopy(ensemble).groundCover).toBeLessThan(canopy.groundCover);
    expect(leafAreaPerPlant(ensemble, new Float64Array(ensemble.members))[5]).toBeCloseTo(leaf[5]!, 10);
    expect(canopy.leafAreaIndex).toBeCloseTo(meanOf(leaf) * 60, 10);
  });

  it('members with a higher rate grow more', () => {
    const ensemble = ensembleOf();
    const before = logDry(ensemble);
    const climate = { startUtcHour: 0, utcOffsetH: 0, airC: new Float64Array(240).fill(20), co2Ppm: new Float64Array(240).fill(700), ppfdUmolM2S: new Float64Array(240).fill(200) };
    advanceLot(ensemble, climate, 0, 240);
    const grown = logDry(ensemble).map((log, m) => log - before[m]!);
    expect(correlation(grown, ensemble.lotAssimilation)).toBeGreaterThan(0.3);
  });
});
