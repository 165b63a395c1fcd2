import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { learnMass } from './learnMass.ts';
import type { MassSample } from './massSample.ts';
import { predictMass } from './predictMass.ts';

/** 391 lettuces of 4 cultivars in 7 weekly harvests: second Autonomous Greenhouse Challenge 2021, 4TU doi 10.4121/15023088. */
const FILE = new URL('../../../../../shared/data/lettuce-2021/plants.csv', import.meta.url);
const AREA = ['areaCm2'];
const SIZE = ['diameterCm', 'heightCm'];

function readSamples(): MassSample[] {
  const [head, ...lines] = readFileSync(FILE, 'utf8').trim().split('\n').map((line) => line.split(','));
  const at = (name: string) => head!.indexOf(name);
  // One plant's leaf area is marked implausible in the file; the two marked for dry mass are kept.
  return lines.filter((fields) => !fields[at('flag')]!.startsWith('leaf area')).map((fields) => ({
    cultivar: fields[at('variety')]!, occasion: `week ${fields[at('sample_week_inferred')]}`, ageDays: 7 * Number(fields[at('sample_week_inferred')]),
    massG: Number(fields[at('fresh_weight_g')]),
    traits: { areaCm2: Number(fields[at('leaf_area_cm2')]), diameterCm: Number(fields[at('diameter_cm')]), heightCm: Number(fields[at('height_cm')]) },
  }));
}

/**
 * Learns without each fold in turn and predicts it. The score: |predicted / weighed - 1| of each plant, mean within each age, mean of the
 * seven ages; and the share of plants inside the 90 % interval.
 */
function score(samples: readonly MassSample[], traits: readonly string[], foldOf: (sample: MassSample, i: number) => string) {
  const byAge = new Map<number, number[]>();
  let inside = 0;
  for (const fold of new Set(samples.map(foldOf))) {
    if (fold === 'always learnt from') continue;
    const model = learnMass(samples.filter((sample, i) => foldOf(sample, i) !== fold), traits);
    if (!model.ok) throw new Error('not learnt');
    samples.forEach((sample, i) => {
      if (foldOf(sample, i) !== fold) return;
      const estimate = predictMass(model.value, sample);
      if (!estimate.ok) throw new Error('not predicted');
      const { medianG, lowG, highG } = estimate.value;
      byAge.set(sample.ageDays, [...byAge.get(sample.ageDays) ?? [], Math.abs(medianG / sample.massG - 1)]);
      if (sample.massG >= lowG && sample.massG <= highG) inside += 1;
    });
  }
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return { errorPct: 100 * mean([...byAge.values()].map(mean)), plantErrorPct: 100 * mean([...byAge.values()].flat()), insidePct: 100 * inside / [...byAge.values()].flat().length };
}

type Fold = (sample: MassSample, i: number) => string;
const FOLDS: Readonly<Record<string, Fold>> = {
  'every tenth plant left out': (_, i) => String(i % 10),
  'one cultivar on one week left out': ({ cultivar, occasion }) => `${cultivar} ${occasion}`,
  'one week left out': ({ occasion }) => occasion!,
  'one cultivar left out': ({ cultivar }) => cultivar,
};

describe.runIf(existsSync(FILE))('mass of 390 lettuces that were not learnt from', () => {
  const samples = existsSync(FILE) ? readSamples() : [];
  const scores = new Map(Object.entries(FOLDS).flatMap(([name, foldOf]) => [['leaf area and age', AREA] as const, ['diameter, height and age', SIZE] as const]
    .map(([from, traits]) => [`${from}; ${name}`, score(samples, traits, foldOf)] as const)));
  for (const [name, { errorPct, plantErrorPct, insidePct }] of scores) console.log(`${name}: ${errorPct.toFixed(1)} % within an age, ${plantErrorPct.toFixed(1)} % over plants, ${insidePct.toFixed(1)} % inside 90 % intervals`);
  const [age, week] = ['one cultivar on one week left out', 'one week left out'];

  test('within an age: at most 14 % from leaf area, 21 % from diameter and height', () => {
    for (const fold of ['every tenth plant left out', age]) {
      expect(scores.get(`leaf area and age; ${fold}`)!.errorPct).toBeLessThanOrEqual(14);
      expect(scores.get(`diameter, height and age; ${fold}`)!.errorPct).toBeLessThanOrEqual(21);
    }
    expect(scores.get(`leaf area and age; ${week}`)!.errorPct).toBeLessThanOrEqual(14);
  });

  test('90 % intervals hold 85 to 95 %, also for a week that was never met; for an unmet cultivar they may be wider', () => {
    for (const [name, { insidePct }] of scores) {
      expect(insidePct, name).toBeGreaterThanOrEqual(85);
      expect(insidePct, name).toBeLessThanOrEqual(name.endsWith('one cultivar left out') ? 97 : 95);
    }
  });

  test('a few plants of a new cultivar bring most of what is to be had', () => {
    const errors = [0, 7, 14, 28].map((few) => score(samples, AREA, newCultivar(samples, few)).errorPct);
    console.log(`leaf area and age; new cultivar with 0, 7, 14 and 28 plants weighed: ${errors.map((error) => error.toFixed(1)).join(', ')} % within an age`);
    expect(errors[1]!).toBeLessThan(errors[0]! * 0.75);
    expect(errors[3]!).toBeLessThan(14);
  });
});

/** Folds by cultivar, except that so many plants of each, taken evenly over the weeks, are in none and so always learnt from. */
function newCultivar(samples: readonly MassSample[], few: number): Fold {
  const known = new Set<MassSample>();
  for (const cultivar of new Set(samples.map((sample) => sample.cultivar))) {
    const own = samples.filter((sample) => sample.cultivar === cultivar);
    for (let i = 0; i < few; i += 1) known.add(own[Math.floor((i + 0.5) * own.length / few)]!);
  }
  return (sample) => known.has(sample) ? 'always learnt from' : sample.cultivar;
}
