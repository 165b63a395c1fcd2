import { CAUTION_DEFERENCE, CAUTIONS } from '../../science/chemistry/cautions.ts';
import { shown } from '../words/plainWords.ts';
import type { DrainRoute } from './returned/routeReturns.ts';
import type { Feed } from './feed.ts';
import { isWater, SOURCE_ROLES, sourceRole } from './sourceRole.ts';
import type { SourceWater } from './sourceWaters.ts';

/** Order in which sources go in: water first, calcium before phosphate and sulfate, what changes pH last and into water. */
const stepOf = (from: SourceWater): number => SOURCE_ROLES.indexOf(sourceRole(from));

/**
 * The work at the filling station, one line a step, in an order in which nothing concentrated meets what it must not:
 * water, calcium, stirring, the other stocks each by itself, base or acid last and into water, then the check.
 */
export function feedSteps(feed: Feed, route: DrainRoute | undefined): string[] {
  const draws = [...feed.draws].sort((a, b) => stepOf(a.from) - stepOf(b.from));
  const stocks = draws.filter(({ from }) => !isWater(from));
  const [low, high] = feed.request.card.water.ecMsPerCm25;
  const [pHLow, pHHigh] = feed.request.card.water.pH;
  return [
    `Check that this is basin ${feed.request.basin.id}.`,
    ...(feed.drainL > 0 ? [`Drain ${shown(feed.drainL, 1)} L ${route === undefined || route.to === undefined ? 'to discharge, where the local permit allows it' : `into ${route.title}`}.${route === undefined ? '' : ` Why: ${route.reason}.`}`] : []),
    ...draws.map(({ from, litres }, i) => drawStep(from, litres, stocks.length > 0 && i === draws.length - stocks.length)),
    ...(stocks.length > 0 ? ['Stir until the water is even.'] : []),
    `Measure: about ${shown(feed.after.volumeL, 0)} L, conductivity ${shown(feed.after.ecMsPerCm25, 2)} mS/cm at 25 C (allowed ${low} to ${high}), pH ${pHLow} to ${pHHigh}. If a reading is outside, mark the stop failed and call the grower.`,
    ...(stocks.length > 0 || draws.some(({ from }) => (from.treatmentCautions ?? []).length > 0) ? [CAUTION_DEFERENCE] : []),
  ];
}

function drawStep(from: SourceWater, litres: number, isFirstStock: boolean): string {
  const { source } = from;
  if (isWater(from)) return [`Fill in ${shown(litres, 1)} L of ${source.title}.`, ...(from.treatmentCautions ?? []).map((caution) => CAUTIONS[caution])].join(' ');
  const before = isFirstStock ? 'Into the water: ' : 'Stir and rinse the measure; then into the water: ';
  const cautions = from.cautions.filter((caution) => caution !== 'dust' && caution !== 'ammonium').map((caution) => CAUTIONS[caution]);
  return [`${before}${shown(litres, 3)} L of ${source.title}.`, ...cautions].join(' ');
}
