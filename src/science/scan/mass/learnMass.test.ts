import { expect, test } from 'vitest';
import { startRandom } from '../../seededRandom.ts';
import { learnMass } from './learnMass.ts';
import type { MassSample } from './massSample.ts';
import { predictMass } from './predictMass.ts';

const random = startRandom(4);
const TRUE_SD = 0.1;

/** mass = exp(own) * area^1.2, with 10 % noise. */
function plant(cultivar: string, own: number, occasion?: string): MassSample {
  const areaCm2 = 100 * Math.exp(2 * random.uniform());
  return { cultivar, occasion, ageDays: 20 + 20 * random.uniform(), traits: { areaCm2 }, massG: Math.exp(own + 1.2 * Math.log(areaCm2) - 4 + TRUE_SD * random.normal()) };
}

const OWN: Readonly<Record<string, number>> = { butterhead: 0, romaine: 0.3, oakleaf: -0.2 };
const samples = Object.entries(OWN).flatMap(([cultivar, own]) => Array.from({ length: 60 }, () => plant(cultivar, own)));

function learn(from: readonly MassSample[], sums: Parameters<typeof learnMass>[2] = []) {
  const model = learnMass(from, ['areaCm2'], sums);
  if (!model.ok) throw new Error(JSON.stringify(model.refusals));
  return model.value;
}

const trueG = (cultivar: string, areaCm2: number) => Math.exp(OWN[cultivar]! + 1.2 * Math.log(areaCm2) - 4);
function predict(model: ReturnType<typeof learn>, cultivar: string, areaCm2 = 300, ageDays = 30) {
  const estimate = predictMass(model, { cultivar, ageDays, traits: { areaCm2 } });
  if (!estimate.ok) throw new Error(JSON.stringify(estimate.refusals));
  return estimate.value;
}

test('what made the samples is found again, with its noise', () => {
  const model = learn(samples);
  expect(Math.sqrt(model.plantVariance)).toBeGreaterThan(0.085);
  expect(Math.sqrt(model.plantVariance)).toBeLessThan(0.115);
  for (const cultivar of Object.keys(OWN)) for (const areaCm2 of [150, 300, 600]) expect(Math.abs(predict(model, cultivar, areaCm2).medianG / trueG(cultivar, areaCm2) - 1)).toBeLessThan(0.06);
});

test('few plants of a cultivar are drawn towards the others; none leave a wide interval around them', () => {
  const others = samples.filter(({ cultivar }) => cultivar !== 'romaine');
  const [none, three, all] = [learn(others), learn([...others, ...samples.filter(({ cultivar }) => cultivar === 'romaine').slice(0, 3)]), learn(samples)].map((model) => predict(model, 'romaine'));
  expect(none!.medianG).toBeLessThan(three!.medianG);
  expect(none!.lnSd).toBeGreaterThan(three!.lnSd);
  expect(three!.lnSd).toBeGreaterThan(all!.lnSd);
});

test('rafts weighed as a whole teach a cultivar that was never weighed plant by plant', () => {
  const others = samples.filter(({ cultivar }) => cultivar !== 'romaine');
  const sums = Array.from({ length: 10 }, () => {
    const plants = Array.from({ length: 16 }, () => plant('romaine', OWN.romaine!));
    return { plants, massG: plants.reduce((sum, { massG }) => sum + massG, 0) };
  });
  const estimate = predict(learn(others, sums), 'romaine');
  expect(Math.abs(estimate.medianG / trueG('romaine', 300) - 1)).toBeLessThan(0.05);
  expect(estimate.lnSd).toBeLessThan(predict(learn(others), 'romaine').lnSd / 1.5);
});

test('what cannot be learnt or told is refused with its place', () => {
  expect(learnMass(samples.slice(0, 5), ['areaCm2'])).toMatchObject({ ok: false, refusals: [{ code: 'value-out-of-range', path: 'samples', value: 5 }] });
  expect(learnMass([{ ...samples[0]!, massG: -1 }, ...samples], ['areaCm2'])).toMatchObject({ ok: false, refusals: [{ path: 'samples[0].massG', value: -1 }] });
  const model = learn(samples);
  expect(predictMass(model, { cultivar: 'romaine', ageDays: 30, traits: {} })).toMatchObject({ ok: false, refusals: [{ path: 'traits.areaCm2' }] });
  expect(predictMass(model, { cultivar: 'romaine', ageDays: 90, traits: { areaCm2: 300 } })).toMatchObject({ ok: false, refusals: [{ path: 'ageDays', value: 90 }] });
  expect(predictMass(model, { cultivar: 'romaine', ageDays: 45, traits: { areaCm2: 300 } })).toMatchObject({ ok: true, warnings: [{ path: 'ageDays', severity: 'warning' }] });
});
