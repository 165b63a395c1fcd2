import LogisticRegression from 'ml-logistic-regression';
import { Matrix } from 'ml-matrix';
import type { ScoreClass } from '../../greenhouse/scanEvents.ts';
import { seedFor } from '../../science/seededRandom.ts';

/** A plant that a grower scored. */
export interface ScoredExample {
  readonly features: readonly number[];
  readonly class: ScoreClass;
  /** Examples of one group (the same plant on several scans, a raft scored as one) are held out together. */
  readonly group: string;
}

/** What was learnt; plain values. */
export interface ScoreModel {
  readonly classes: readonly ScoreClass[];
  /** Of each feature: what is taken off, and what it is divided by. */
  readonly middles: readonly number[];
  readonly spreads: readonly number[];
  /** One row a class: a constant, then one weight a feature. */
  readonly weights: readonly (readonly number[])[];
}

/** How often it was right on examples that it had not seen, and how often naming the commonest class would have been. */
export interface ScoreTrust { readonly examples: number; readonly rightShare: number; readonly commonestShare: number }

export interface LearntScores {
  readonly model: ScoreModel | undefined;
  /** Absent where too little is scored to learn anything. */
  readonly trust: ScoreTrust | undefined;
  readonly scored: number;
  readonly classes: readonly { readonly class: ScoreClass; readonly scored: number }[];
}

const LEAST_EXAMPLES = 30;
/** A class with fewer examples cannot be learnt yet and is left out. */
export const LEAST_OF_CLASS = 5;
/** The latest ones are learnt from. */
const MOST_EXAMPLES = 1500;
const FOLDS = 5;
/** Steps of gradient descent from zero: stopping early keeps weights small, as a penalty would. */
const STEPS = 250;

/**
 * Learns classes from scored plants: logistic regression, one class against the rest (D.R. Cox 1958, J. R. Stat. Soc. B 20:215-242), on
 * standardised features; library ml-logistic-regression. No chance is involved: the same examples give the same model. Examples in the
 * order in which they were scored. Scores in own words are not learnt.
 */
export function learnScores(all: readonly ScoredExample[]): LearntScores {
  const counts = countClasses(all);
  const classes = counts.filter(({ class: named, scored }) => named !== 'own' && scored >= LEAST_OF_CLASS).map(({ class: named }) => named);
  const examples = all.filter((example) => classes.includes(example.class)).slice(-MOST_EXAMPLES);
  const told = { scored: all.length, classes: counts };
  if (examples.length < LEAST_EXAMPLES || new Set(examples.map((example) => example.class)).size < 2) return { ...told, model: undefined, trust: undefined };
  return { ...told, model: fit(examples), trust: crossValidate(examples) };
}

function countClasses(examples: readonly ScoredExample[]): { class: ScoreClass; scored: number }[] {
  const counts = new Map<ScoreClass, number>();
  for (const { class: named } of examples) counts.set(named, (counts.get(named) ?? 0) + 1);
  return [...counts].map(([named, scored]) => ({ class: named, scored })).sort((a, b) => b.scored - a.scored || (a.class < b.class ? -1 : 1));
}

function fit(examples: readonly ScoredExample[]): ScoreModel {
  const classes = countClasses(examples).map(({ class: named }) => named);
  const middles = examples[0]!.features.map((_, k) => examples.reduce((sum, { features }) => sum + features[k]!, 0) / examples.length);
  const spreads = middles.map((middle, k) => Math.max(1e-9, Math.sqrt(examples.reduce((sum, { features }) => sum + (features[k]! - middle) ** 2, 0) / examples.length)));
  const rows = examples.map(({ features }) => rowOf(features, middles, spreads));
  // The gradient is a sum over examples; its steepness is below a quarter of the number of features for each of them.
  const regression = new LogisticRegression({ numSteps: STEPS, learningRate: 2 / (examples.length * Math.sqrt(rows[0]!.length)) });
  regression.train(new Matrix(rows), Matrix.columnVector(examples.map((example) => classes.indexOf(example.class))));
  return { classes, middles, spreads, weights: regression.classifiers.map(({ weights }) => weights!.to1DArray()) };
}

const rowOf = (features: readonly number[], middles: readonly number[], spreads: readonly number[]): number[] => [1, ...features.map((value, k) => Math.max(-6, Math.min(6, (value - middles[k]!) / spreads[k]!)))];

/** The class that fits best, and its share of the fit of all: a proposal, nothing more. */
export function proposeClass({ classes, middles, spreads, weights }: ScoreModel, features: readonly number[]): { readonly class: ScoreClass; readonly confidence: number } {
  const row = rowOf(features, middles, spreads);
  // The library counts the class itself as 0 and the rest as 1.
  const fits = weights.map((of) => 1 / (1 + Math.exp(of.reduce((sum, weight, k) => sum + weight * row[k]!, 0))));
  const total = fits.reduce((sum, each) => sum + each, 0);
  const best = fits.reduce((found, each, i) => (each > fits[found]! ? i : found), 0);
  return { class: classes[best]!, confidence: total > 0 ? fits[best]! / total : 0 };
}

/** Each fifth of the groups is proposed from the other four fifths. */
function crossValidate(examples: readonly ScoredExample[]): ScoreTrust | undefined {
  const foldOf = ({ group }: ScoredExample) => seedFor(1, group) % FOLDS;
  let asked = 0, right = 0, commonest = 0;
  for (let fold = 0; fold < FOLDS; fold += 1) {
    const held = examples.filter((example) => foldOf(example) === fold), rest = examples.filter((example) => foldOf(example) !== fold);
    if (held.length === 0 || new Set(rest.map((example) => example.class)).size < 2) continue;
    const model = fit(rest), usual = countClasses(rest)[0]!.class;
    asked += held.length;
    right += held.filter((example) => proposeClass(model, example.features).class === example.class).length;
    commonest += held.filter((example) => example.class === usual).length;
  }
  return asked === 0 ? undefined : { examples: asked, rightShare: right / asked, commonestShare: commonest / asked };
}
