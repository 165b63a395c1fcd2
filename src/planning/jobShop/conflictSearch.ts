/**
 * A search by learning from conflicts over whole-number variables whose bounds are the literals: "variable s is at most v", where every variable x
 * has two signs, s = 2 x for x itself and s = 2 x + 1 for minus x (lazy clause generation: Ohrimenko, Stuckey & Codish 2009, Constraints 14:357-391;
 * first unique implication points, activities and restarts: Moskewicz et al. 2001, Luby et al. 1993). Knows clauses and differences that hold
 * under a condition. A yes-or-no variable has bounds 0 and 1; its sign alone is a literal: s = 2 x "no", s = 2 x + 1 "yes".
 */
export interface ConflictSearch {
  readonly addVariable: (low: number, high: number) => number;
  /** A yes-or-no variable that the search decides on. `hint`: two variables; it tries "yes" first where the first is due earlier; with none "no". */
  readonly addChoice: (hint?: readonly [number, number]) => number;
  /** later >= earlier + distance, always or where the yes-or-no literal `when` holds. */
  readonly addDifference: (earlier: number, later: number, distance: number, when?: number) => void;
  /** At least one of these yes-or-no literals holds. */
  readonly addClause: (signs: readonly number[]) => void;
  /** Makes variable <= high or says that nothing is left. Only before or between runs. */
  readonly lowerTop: (variable: number, high: number) => void;
  /** Runs until an assignment is found that keeps everything at its lower bounds, none is left, or so much work is done. */
  readonly run: (work: number, isStopped: () => boolean) => 'found' | 'none' | 'unknown';
  readonly lowOf: (variable: number) => number;
  readonly highOf: (variable: number) => number;
  /** Prefers from now on what the present assignment says. */
  readonly rememberChoices: () => void;
  /** Visits of differences and clauses so far. */
  readonly work: () => number;
}
