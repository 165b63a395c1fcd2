import type { Outcome, Refusal } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import { fitLevels } from './fitLevels.ts';
import type { MassColumns, MassModel } from './massModel.ts';
import { featureCount, pairName, rowOf } from './massModel.ts';
import type { MassRow } from './massRow.ts';
import type { MassPlant, MassSample, WeighedTogether } from './massSample.ts';

const LEAST_SAMPLES = 10;
/** Times that sums of plants are made linear around the last answer. */
const SUM_ROUNDS = 4;

/**
 * Learns mass from weighed plants: ln mass is linear in age, age squared and ln of the traits; each cultivar has its own coefficients,
 * drawn towards those of all by as much as the cultivars differ; each occasion (and each cultivar on it) shifts its plants alike. How
 * strongly is decided by the samples themselves (fitLevels). Plants weighed together count as one observation of their sum.
 *
 * Sources: Gelman & Hill 2006, "Data Analysis Using Regression and Multilevel/Hierarchical Models", ch. 12-13; allometry in logarithms:
 * common practice. Refused: fewer than 10 plants weighed by themselves, traits or masses that are not positive numbers.
 */
export function learnMass(samples: readonly MassSample[], traits: readonly string[], sums: readonly WeighedTogether[] = []): Outcome<MassModel> {
  const refusals = [...checkSamples(samples, traits, 'samples'), ...sums.flatMap(({ plants, massG }, i) => checkSamples(plants.map((plant) => ({ ...plant, massG })), traits, `sums[${i}].plants`))];
  if (samples.length < LEAST_SAMPLES) refusals.push({ code: 'value-out-of-range', path: 'samples', value: samples.length, limit: LEAST_SAMPLES, message: `At least ${LEAST_SAMPLES} plants weighed by themselves are needed to learn mass; weigh more.`, severity: 'error' });
  if (refusals.length > 0) return refused(refusals);
  const columns = columnsOf(samples, sums.flatMap(({ plants }) => plants), traits);
  const single = samples.map((sample) => ({ row: rowOf(columns, sample), lnMass: Math.log(sample.massG), weight: 1 }));
  let model = modelOf(columns, single, samples);
  for (let round = 0; round < SUM_ROUNDS && sums.length > 0; round += 1) {
    const before = model;
    model = modelOf(columns, [...single, ...sums.map((sum) => rowOfSum(before, sum))], samples);
  }
  return accepted(model);
}

function checkSamples(samples: readonly MassSample[], traits: readonly string[], path: string): Refusal[] {
  return samples.flatMap((sample, i) => [['massG', sample.massG], ['ageDays', sample.ageDays], ...traits.map((trait) => [`traits.${trait}`, sample.traits[trait]])]
    .filter(([, value]) => !(typeof value === 'number' && value > 0 && Number.isFinite(value)))
    .map(([name, value]) => ({ code: 'value-out-of-range' as const, path: `${path}[${i}].${name}`, value, limit: 'a positive number', message: 'Mass is learnt from positive numbers; leave the plant out or correct it.', severity: 'error' as const })));
}

function columnsOf(samples: readonly MassSample[], others: readonly MassPlant[], traits: readonly string[]): MassColumns {
  const all: readonly MassPlant[] = [...samples, ...others];
  const occasional = all.filter(({ occasion }) => occasion !== undefined);
  const mean = (value: (sample: MassSample) => number) => samples.reduce((sum, sample) => sum + value(sample), 0) / samples.length;
  return {
    traits,
    centres: traits.map((trait) => mean((sample) => Math.log(sample.traits[trait]!))),
    middleAgeDays: mean(({ ageDays }) => ageDays),
    cultivars: [...new Set(all.map(({ cultivar }) => cultivar))].sort(),
    occasions: [...new Set(occasional.map(({ occasion }) => occasion!))].sort(),
    pairs: [...new Set(occasional.map(pairName))].sort(),
  };
}

function modelOf(columns: MassColumns, rows: readonly MassRow[], samples: readonly MassSample[]): MassModel {
  const features = featureCount(columns);
  const levels = [
    ...Array.from({ length: columns.cultivars.length * features }, (_, i) => i % features),
    ...columns.occasions.map(() => features), ...columns.pairs.map(() => features + 1),
  ];
  const fit = fitLevels(rows, features, levels);
  const ages = samples.map(({ ageDays }) => ageDays);
  return {
    version: 1, columns, mean: [...fit.mean], covariance: [...fit.covariance], cultivarVariances: fit.variances.slice(0, features),
    occasionVariance: fit.variances[features] ?? 0, pairVariance: fit.variances[features + 1] ?? 0, plantVariance: fit.residual,
    samples: samples.length, ageDays: [Math.min(...ages), Math.max(...ages)],
  };
}

/** ln of a sum, made linear around the present answer: plants weigh in by their share, and their own differences average out. */
function rowOfSum({ columns, mean, plantVariance }: MassModel, { plants, massG }: WeighedTogether): MassRow {
  const rows = plants.map((plant) => rowOf(columns, plant));
  const lnMasses = rows.map((row) => row.reduce((sum, value, i) => sum + value * mean[i]!, 0));
  const masses = lnMasses.map((ln) => Math.exp(ln + plantVariance / 2));
  const total = masses.reduce((sum, mass) => sum + mass, 0);
  const row = new Float64Array(mean.length);
  let [middle, spread] = [0, 0];
  rows.forEach((plant, i) => {
    const share = masses[i]! / total;
    for (let j = 0; j < row.length; j += 1) row[j]! += share * plant[j]!;
    middle += share * lnMasses[i]!;
    spread += share * share;
  });
  return { row, lnMass: Math.log(massG) - Math.log(total) + middle, weight: 1 / spread };
}
