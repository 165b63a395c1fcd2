import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CULTIVAR_DRY_MATTER, dryOf, freshOf, HERB_DRY_MATTER, LETTUCE_DRY_MATTER } from './dryMatter.ts';

const PLANTS = '../shared/data/lettuce-2021/plants.csv';

describe('dry matter', () => {
  it('lettuce: 13.87 g fresh at 1 g dry (7.2 %), 225 g at 10 g (4.4 %), and back', () => {
    expect(freshOf(LETTUCE_DRY_MATTER, 1)).toBeCloseTo(13.874, 3);
    expect(freshOf(LETTUCE_DRY_MATTER, 10)).toBeCloseTo(Math.exp(2.63 + 1.21 * Math.LN10), 9);
    expect(dryOf(LETTUCE_DRY_MATTER, freshOf(LETTUCE_DRY_MATTER, 4.2))).toBeCloseTo(4.2, 12);
  });

  it('states its spreads: lots 0.12 (cultivars 0.10, rounded up), a known cultivar 0.08, passing 0.08, plants 0.11; herbs wide on purpose', () => {
    const spreads = ({ lotLogSd, driftLogSd, plantLogSd }: typeof LETTUCE_DRY_MATTER) => [lotLogSd, driftLogSd, plantLogSd];
    expect(spreads(LETTUCE_DRY_MATTER)).toEqual([0.12, 0.08, 0.11]);
    for (const [cultivar, curve] of Object.entries(CULTIVAR_DRY_MATTER)) expect(spreads(curve), cultivar).toEqual([0.08, 0.08, 0.11]);
    expect(spreads(HERB_DRY_MATTER)).toEqual([0.2, 0.1, 0.12]);
  });

  it('herbs: 8 to 10 % at 0.5 to 5 g dry', () => {
    for (const dryG of [0.5, 1, 5]) {
      const share = dryG / freshOf(HERB_DRY_MATTER, dryG);
      expect(share).toBeGreaterThan(0.08);
      expect(share).toBeLessThan(0.1);
    }
  });
});

describe.skipIf(!existsSync(PLANTS))('dry matter fitted to the lettuce of 2021 (4TU doi 10.4121/15023088)', () => {
  const plants = !existsSync(PLANTS) ? [] : readFileSync(PLANTS, 'utf8').trim().split('\n').slice(1).map((line) => line.split(','))
    .filter((row) => row[10] === '' && row[2] !== '1').map((row) => ({ cultivar: row[1]!.toLowerCase(), week: row[2]!, x: Math.log(Number(row[4])), y: Math.log(Number(row[3])) }));
  type Plant = (typeof plants)[number];
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const fit = (of: readonly Plant[]) => {
    const [mx, my] = [mean(of.map((one) => one.x)), mean(of.map((one) => one.y))];
    const slope = mean(of.map((one) => (one.x - mx) * (one.y - my))) / mean(of.map((one) => (one.x - mx) ** 2));
    return { intercept: my - slope * mx, slope };
  };

  it('has the constants of the fit, all cultivars and each', () => {
    expect(plants.length).toBe(369);
    const pooled = fit(plants);
    console.log(`dry matter of lettuce, own fit to ${plants.length} plants of 2021: ln fresh = ${pooled.intercept.toFixed(3)} + ${pooled.slope.toFixed(3)} ln dry`);
    expect(LETTUCE_DRY_MATTER.intercept).toBeCloseTo(pooled.intercept, 3);
    expect(LETTUCE_DRY_MATTER.slope).toBeCloseTo(pooled.slope, 3);
    for (const [cultivar, curve] of Object.entries(CULTIVAR_DRY_MATTER)) {
      const own = fit(plants.filter((one) => one.cultivar === cultivar));
      expect(Math.abs(curve.intercept - own.intercept)).toBeLessThan(1e-3);
      expect(Math.abs(curve.slope - own.slope)).toBeLessThan(1e-3);
    }
  });

  it('has the slope within a cultivar and week, which is not that over the weeks', () => {
    const groups = [...new Set(plants.map((one) => `${one.cultivar} ${one.week}`))].map((key) => plants.filter((one) => `${one.cultivar} ${one.week}` === key));
    const about = groups.flatMap((group) => group.map((one) => ({ x: one.x - mean(group.map((each) => each.x)), y: one.y - mean(group.map((each) => each.y)) })));
    const slope = mean(about.map(({ x, y }) => x * y)) / mean(about.map(({ x }) => x * x));
    console.log(`  slope of ln fresh on ln dry within a cultivar and week: ${slope.toFixed(3)}`);
    for (const curve of [LETTUCE_DRY_MATTER, ...Object.values(CULTIVAR_DRY_MATTER)]) expect(curve.daySlope).toBeCloseTo(slope, 3);
  });

  it('has the spreads that the fit leaves: between cultivars, weeks and plants', () => {
    const residual = (one: Plant) => one.y - LETTUCE_DRY_MATTER.intercept - LETTUCE_DRY_MATTER.slope * one.x;
    const groups = new Map<string, Plant[]>();
    for (const one of plants) groups.set(`${one.cultivar} ${one.week}`, [...(groups.get(`${one.cultivar} ${one.week}`) ?? []), one]);
    const within = Math.sqrt([...groups.values()].flatMap((group) => {
      const middle = mean(group.map(residual));
      return group.map((one) => (residual(one) - middle) ** 2);
    }).reduce((sum, square) => sum + square, 0) / (plants.length - groups.size));
    const cultivars = Object.keys(CULTIVAR_DRY_MATTER).map((cultivar) => mean(plants.filter((one) => one.cultivar === cultivar).map(residual)));
    const sd = (values: readonly number[]) => Math.sqrt(values.reduce((sum, value) => sum + (value - mean(values)) ** 2, 0) / (values.length - 1));
    const drift = [...groups].map(([key, group]) => mean(group.map(residual)) - mean(plants.filter((one) => one.cultivar === key.split(' ')[0]).map(residual)));
    console.log(`  spread of ln fresh: plants ${within.toFixed(3)}, cultivars ${sd(cultivars).toFixed(3)}, weeks ${sd(drift).toFixed(3)}`);
    expect(Math.abs(within - LETTUCE_DRY_MATTER.plantLogSd)).toBeLessThan(0.01);
    // The sampling error of a week's dozen plants is taken out of the spread of weeks.
    expect(Math.abs(Math.sqrt(sd(drift) ** 2 - within ** 2 / (plants.length / groups.size)) - LETTUCE_DRY_MATTER.driftLogSd)).toBeLessThan(0.01);
    expect(sd(cultivars)).toBeLessThan(LETTUCE_DRY_MATTER.lotLogSd);
  });
});
