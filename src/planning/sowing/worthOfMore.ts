import type { LinearSolver } from '../solver/linearModel.ts';
import { relaxSowing } from './solveSowing.ts';
import type { SowingPlace, SowingProblem } from './sowingProblem.ts';
import { sowingProblemOf } from './sowingProblemOf.ts';
import type { SowingQuestion } from './sowingQuestion.ts';
import type { Worth } from './sowingPlan.ts';

/**
 * What one more basin, square metre, hour of work or of lamps would save over the horizon: the programme is solved again with
 * it, both times in its linear relaxation (the whole programme is solved to a gap that is larger than such differences).
 */
export function worthOfMore(question: SowingQuestion, problem: SowingProblem, solver: LinearSolver, withMoreLight: (() => SowingQuestion) | undefined): Worth[] {
  const { house: { file: { prices: { currency } } }, calendar } = question;
  const base = relaxSowing(problem, solver).solution.objective;
  const over = `over the ${Math.ceil((calendar.blocks.at(-1)!.toDay + 1) / 7)} weeks`;
  const entry = (what: Worth['what'], title: string, other: SowingProblem): Worth => {
    const saves = Math.round((base - relaxSowing(other, solver).solution.objective) * 100) / 100;
    const words = saves > 0.01 ? `would save ${saves.toFixed(2)} ${currency} ${over}` : saves < -0.01 ? `would cost ${(-saves).toFixed(2)} ${currency} more than it saves ${over}` : `would save nothing ${over}: there is enough`;
    return { what, title, saves, sentence: `One more ${title} ${words}.` };
  };
  const places = problem.places.map((place) => (place.kind === 'glass'
    ? entry('basin', `basin in ${place.title}`, withPlace(problem, place, 1))
    : entry('nursery-m2', `square metre of basins in ${place.title}`, withPlace(problem, place, 1 / place.basinM2))));
  const work = [...new Set(problem.limits.filter(({ unit }) => unit === 'h').map(({ title }) => title))]
    .map((title) => entry('work-hour', `hour a week of ${title.toLowerCase()}`, { ...problem, limits: problem.limits.map((limit) => (limit.title === title ? { ...limit, amount: limit.amount + 1 } : limit)) }));
  const lamps = withMoreLight === undefined ? [] : [entry('lamp-hour', 'hour of lamps a day in every glass bay, its electricity paid,', sowingProblemOf(withMoreLight()))];
  return [...places, ...work, ...lamps];
}

const withPlace = (problem: SowingProblem, place: SowingPlace, more: number): SowingProblem => ({
  ...problem, places: problem.places.map((each) => (each === place ? { ...each, usableBasins: each.usableBasins + more } : each)),
});
