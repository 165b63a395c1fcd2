import { accepted, type Outcome } from '../../science/refusal.ts';
import { ec25UsPerCm } from '../../science/chemistry/conductivity.ts';
import type { Composition } from '../../science/chemistry/composition.ts';
import type { LinearSolver } from '../solver/linearModel.ts';
import { basinFullL, basinLeastL } from '../../greenhouse/basinGeometry.ts';
import type { BasinBlend, BlendAnswer, BlendBasin, BlendProblem, BlendSource, QualityLimit, Violation } from './blendProblem.ts';
import { componentLimits, conductivityLimit, targetComposition } from './feedLimits.ts';
import type { Feed, FeedRequest } from './feed.ts';
import { findViolations, mixBasin, solveBlend } from './solveBlend.ts';
import type { SourceWater } from './sourceWaters.ts';

/** Bands are narrowed by this share for the programme, so that rounded litres hold the true ones. */
const NARROWING = 0.002;
/** A filled basin holds at least this share of its full volume. */
const FILLED_SHARE = 0.97;
/** Steps to which litres are rounded: what meters and pumps resolve (common practice, no source). */
const WATER_STEP_L = 0.1;
const DOSE_STEP_L = 0.001;
const ROUNDS = 4;

/**
 * The feeds of a shift as one least-cost programme over all basins: every component within the crop's band, sodium and
 * chloride below their maxima, conductivity within its band (linearised, checked with the conductivity model, and
 * linearised again around the mix until it holds), sources shared, hard limits per filling, least doses of pumps.
 * Alkalinity is brought to the residual of `ALKALINITY_BAND_MEQ_PER_L` by acid. pH itself is not computed here.
 */
export function mixFeeds(requests: readonly FeedRequest[], sources: readonly SourceWater[], dischargeCostPerL: number, solver: LinearSolver): Outcome<readonly Feed[]> {
  if (requests.length === 0) return accepted([]);
  let around: Composition[] = requests.map(({ card }) => targetComposition(card));
  for (let round = 1; ; round++) {
    const narrowed = buildProblem(requests, sources, dischargeCostPerL, around, NARROWING);
    const answer = solveBlend(narrowed, solver, buildProblem(requests, sources, dischargeCostPerL, around, 0));
    if (!answer.ok) return answer;
    const feeds = requests.map((request, b) => readFeed(request, sources, narrowed, answer.value, b));
    if (round === ROUNDS || !feeds.some((feed) => missesConductivity(feed) && answer.value.status === 'optimal')) return accepted(feeds);
    around = feeds.map((feed, b) => (missesConductivity(feed) ? feed.after.mmolPerL : around[b]!));
  }
}

const missesConductivity = (feed: Feed): boolean => feed.violations.some(({ limit }) => limit === 'conductivity');

function buildProblem(requests: readonly FeedRequest[], sources: readonly SourceWater[], dischargeCostPerL: number, around: readonly Composition[], narrowing: number): BlendProblem {
  const roundingL = narrowing > 0 ? requests.length / 2 : 0;
  return {
    dischargeCostPerL,
    sources: sources.map(({ source, mmolPerL, availableL, costPerL }): BlendSource => ({
      id: source.id, mmolPerL: mmolPerL as Record<string, number>, costPerL,
      availableL: Math.max(0, availableL - roundingL * stepOf(source.kind)),
      ...(source.perBasinMaxL === undefined ? {} : { perBasinMaxL: floorTo(source.perBasinMaxL, stepOf(source.kind)) }),
      ...(source.pumpMinimumL > 0 ? { minimumDoseL: source.pumpMinimumL + stepOf(source.kind) } : {}),
    })),
    basins: requests.map((request, b): BlendBasin => ({
      id: request.basin.id, volumeL: request.present.volumeL, mmolPerL: request.present.mmolPerL as Record<string, number>,
      volumeBandL: volumeBand(request),
      limits: [...componentLimits(request.card, narrowing), conductivityLimit(request.card, around[b]!, narrowing)],
    })),
  };
}

/** Full, but not heavier than a vehicle may carry. */
function volumeBand({ basin: { type }, maximumLoadKg }: FeedRequest): [number, number] {
  const most = Math.min(basinFullL(type), Math.max(0, maximumLoadKg - type.emptyKg - type.rafts * type.raftKg));
  return [Math.min(most, Math.max(FILLED_SHARE * most, Math.min(most, basinLeastL(type)))), most];
}

const stepOf = (kind: string): number => (kind === 'fresh' || kind === 'return' ? WATER_STEP_L : DOSE_STEP_L);
const floorTo = (litres: number, step: number): number => Math.floor(litres / step + 1e-9) * step;
const roundTo = (litres: number, step: number): number => Number((Math.round(litres / step) * step).toFixed(3));

function readFeed(request: FeedRequest, sources: readonly SourceWater[], problem: BlendProblem, answer: BlendAnswer, b: number): Feed {
  const blend = answer.basins[b]!;
  const drainL = Math.min(request.present.volumeL, roundTo(blend.drainL, WATER_STEP_L));
  const drawL = blend.drawL.map((litres, s) => roundDraw(litres, sources[s]!));
  return assembleFeed(request, sources, problem, blend, drawL, drainL, answer);
}

/** To the meter's step, never above the hard limit of the source and never above zero but below the pump's least dose. */
function roundDraw(litres: number, { source }: SourceWater): number {
  const step = stepOf(source.kind);
  const rounded = Math.min(roundTo(litres, step), source.perBasinMaxL ?? Infinity);
  return rounded < Math.max(source.pumpMinimumL, step / 2) ? 0 : rounded;
}

function assembleFeed(request: FeedRequest, sources: readonly SourceWater[], problem: BlendProblem, blend: BasinBlend, drawL: readonly number[], drainL: number, answer: BlendAnswer): Feed {
  const basin = problem.basins.find(({ id }) => id === request.basin.id)!;
  const mixed = mixBasin(problem, basin, drawL, drainL);
  const after = { ...mixed, mmolPerL: mixed.mmolPerL as Composition, ecMsPerCm25: ec25UsPerCm(mixed.mmolPerL as Composition) / 1000 };
  return {
    request, drainL, after,
    draws: drawL.flatMap((litres, s) => (litres > 0 ? [{ from: sources[s]!, litres }] : [])),
    cost: drawL.reduce((sum, litres, s) => sum + litres * sources[s]!.costPerL, drainL * problem.dischargeCostPerL),
    costLowerBound: blend.lowerBound,
    violations: feedViolations(request, after),
    binding: answer.binding.filter((is) => is.basin === request.basin.id || (is.basin === undefined && drawL[sources.findIndex(({ source }) => source.id === is.limit)]! > 0)),
  };
}

/** Checked against the true bands, with the conductivity model itself. */
export function feedViolations(request: FeedRequest, after: { readonly volumeL: number; readonly mmolPerL: Composition; readonly ecMsPerCm25: number }): Violation[] {
  const [low, high] = request.card.water.ecMsPerCm25;
  const measured: QualityLimit = { name: 'conductivity', unit: 'mS/cm', weights: {}, constant: after.ecMsPerCm25, low, high };
  const basin: BlendBasin = { id: request.basin.id, volumeL: 0, mmolPerL: {}, volumeBandL: volumeBand(request), limits: [...componentLimits(request.card, 0), measured] };
  return findViolations(basin, { volumeL: after.volumeL, mmolPerL: after.mmolPerL as Record<string, number> }, 5e-4);
}
