/** A first day: several constructions with different weights, the best of them kept. */
import { compareAims, readAims } from './dayAims.ts';
import { DayChoice } from './dayChoice.ts';
import type { ToldStops } from './dayFloor.ts';
import type { DayModel } from './dayModel.ts';
import { dispatchDay } from './dispatchDay.ts';
import type { FoundDay } from './improveOrder.ts';
import type { SeededRandom } from './seededRandom.ts';
import { scoreByWeights, varyWeights } from './tripScores.ts';
import type { DispatchWeights, TripScore } from './tripScores.ts';

/** What a plan is measured against when it is made again: what people know, and what a change of it costs. */
export interface KnownPlan {
  readonly told: ToldStops;
  readonly changeS: number;
}

/** The best of the constructions with these weights, and of `more` that vary the best weights so far. */
export function constructDay(model: DayModel, weights: readonly DispatchWeights[], random: SeededRandom, more: number, known?: KnownPlan): FoundDay {
  let best: FoundDay | undefined;
  let bestWeights = weights[0] as DispatchWeights;
  for (let i = 0; i < weights.length + more; i++) {
    const one = weights[i] ?? varyWeights(bestWeights, random);
    const found = layOut(model, scoreByWeights(model, one), known);
    if (best !== undefined && compareAims(found.aims, best.aims) >= 0) continue;
    best = found;
    bestWeights = one;
  }
  return best as FoundDay;
}

/** One construction. */
export function layOut(model: DayModel, score: TripScore, known?: KnownPlan, genes?: Int16Array): FoundDay {
  const choice = new DayChoice(model);
  const { decoder, order } = dispatchDay(model, choice, score, known?.told, genes);
  return {
    order: [...order], choice,
    alternativeGene: decoder.alternativeGene.slice(), vehicleGene: decoder.vehicleGene.slice(),
    aims: readAims(decoder.floor.totals, choice.droppedWeights(), known?.changeS ?? 0),
  };
}
