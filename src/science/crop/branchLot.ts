/** A lot from today on under several futures that people choose between: the same members, the same chance, another light or density. */
import type { Outcome } from '../refusal.ts';
import { accepted } from '../refusal.ts';
import { seedFor, startRandom } from '../seededRandom.ts';
import { dayNumberOf } from './calendar.ts';
import { densityOn } from './densitySchedule.ts';
import { forecastLot } from './forecastLot.ts';
import type { HourlyClimate } from './growthModel.ts';
import type { LotEnsemble } from './lotEnsemble.ts';
import { logFreshPerPlant } from './lotEnsemble.ts';
import type { DensityStep, LotForecastInput } from './lotForecast.ts';
import { walkLot } from './walkLot.ts';

/** What differs from today on. */
export interface LotBranch {
  readonly climate: HourlyClimate;
  readonly densities: readonly DensityStep[];
}

/** ln of the fresh mass of each member's mean plant, g, at noon of each day from `at` on: `logFresh[day][member]`. */
export interface BranchedLot { readonly logFresh: readonly Float64Array[] }

/**
 * Grows the lot to `at` once, with all that was seen of it, and from there along each branch to `horizonDays` later. All
 * branches are disturbed by the same random numbers (common random numbers; Glasserman & Yao 1992, Manag. Sci. 38:884-908),
 * so that member m differs between two branches only by what was chosen.
 * Refuses what `forecastLot` refuses; a branch's climate must cover the same hours as the input's.
 */
export function branchLot(input: LotForecastInput, branches: readonly LotBranch[]): Outcome<BranchedLot[]> {
  const atDay = dayNumberOf(input.at) ?? NaN;
  let today: LotEnsemble | undefined;
  const grown = forecastLot({ ...input, reportFrom: input.at, horizonDays: 1 }, (day, ensemble) => { if (day === atDay) today = copyOf(ensemble); });
  if (!grown.ok) return grown;
  return accepted(branches.map((branch) => walkBranch(input, branch, copyOf(today!), atDay)), grown.warnings);
}

function walkBranch(input: LotForecastInput, { climate, densities }: LotBranch, ensemble: LotEnsemble, atDay: number): BranchedLot {
  const logFresh: Float64Array[] = [];
  walkLot({
    climate, startDay: atDay, endDay: atDay + input.horizonDays, plantsPerM2On: densityOn(densities), dryMatter: input.crop.dryMatter, looks: [],
    atNoon: (_, members) => logFresh.push(logFreshPerPlant(members, input.crop.dryMatter, new Float64Array(members.members))),
  }, ensemble, startRandom(seedFor(input.seed, 'branch')));
  return { logFresh };
}

/** The same members apart from the original: what is done to one is not done to the other. */
function copyOf(ensemble: LotEnsemble): LotEnsemble {
  const copy = (column: Float64Array) => column.slice();
  return {
    ...ensemble, states: ensemble.states.map(copy), assimilation: copy(ensemble.assimilation), expansion: copy(ensemble.expansion),
    lotAssimilation: copy(ensemble.lotAssimilation), lotExpansion: copy(ensemble.lotExpansion), disturbance: copy(ensemble.disturbance),
    lotFreshness: copy(ensemble.lotFreshness), freshnessDrift: copy(ensemble.freshnessDrift), scratch: copy(ensemble.scratch), normals: copy(ensemble.normals),
  };
}
