/** What is used of ml-logistic-regression 2.0.0, which brings no types. */
declare module 'ml-logistic-regression' {
  import type { Matrix } from 'ml-matrix';

  export default class LogisticRegression {
    constructor(options: { readonly numSteps: number; readonly learningRate: number });
    /** One class against the rest, for classes 0 to n - 1. */
    train(features: Matrix, classes: Matrix): void;
    /** Class i has y = 0, all others 1. */
    readonly classifiers: readonly { readonly weights: Matrix | null }[];
  }
}
