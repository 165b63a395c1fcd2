import { accepted, type Outcome } from '../../science/refusal.ts';
import { basinFullL, basinLeastL } from '../../greenhouse/basinGeometry.ts';
import { LEAST_WATER_SHARE } from '../../greenhouse/leastWaterShare.ts';
import type { Composition } from '../../science/chemistry/composition.ts';
import type { LinearSolver } from '../solver/linearModel.ts';
import type { BlendAnswer, BlendBasin, BlendProblem, BlendSource } from './blendProblem.ts';
import { acidityLimits, componentLimits, conductivityLimit, targetComposition } from './feedLimits.ts';
import type { Feed, FeedRequest, MixedWater } from './feed.ts';
import { feedViolations, isAboutWater } from './feedViolations.ts';
import { mixBasin, solveBlend } from './solveBlend.ts';
import { isWater, sourceRole, type SourceRole } from './sourceRole.ts';
import type { SourceWater } from './sourceWaters.ts';
import { waterFigures } from './waterFigures.ts';

/** Bands are narrowed by this share for the programme, so that rounded litres hold the true ones. */
const NARROWING = 0.002;
/** A filled basin holds at least this share of its full volume (common practice, no source). */
const FILLED_SHARE = 0.97;
/** Steps to which litres are rounded: what meters and pumps resolve (common practice, no source). */
const WATER_STEP_L = 0.1;
const DOSE_STEP_L = 0.001;
const ROUNDS = 4;

/**
 * The feeds of a shift as one least-cost programme over all basins: every component within the crop's band now and after
 * the expected uptake, sodium and chloride below their maxima, conductivity and pH within their bands (linearised,
 * checked by full speciation, and linearised again around the mix until they hold), sources shared, hard limits per
 * filling, least doses of pumps. Acid and base never go into the same filling, and concentrates only into water: where there is not
 * enough of it, the basin gets none of them.
 */
export function mixFeeds(requests: readonly FeedRequest[], sources: readonly SourceWater[], dischargeCostPerL: number, solver: LinearSolver): Outcome<readonly Feed[]> {
  const settled = requests.filter(({ fixed }) => fixed !== undefined);
  const kept = mixOpen(settled, sources, dischargeCostPerL, solver);
  if (!kept.ok) return kept;
  const fixed = kept.value.map((best) => fixFeed(best, sources, dischargeCostPerL));
  const left = sources.map((source) => ({ ...source, availableL: Math.max(0, source.availableL - drawnByOthers(fixed, -1, source)) }));
  const open = mixOpen(requests.filter((request) => request.fixed === undefined), left, dischargeCostPerL, solver);
  return open.ok ? accepted([...fixed, ...open.value]) : open;
}

/** Requests whose litres are still to be decided. */
function mixOpen(requests: readonly FeedRequest[], sources: readonly SourceWater[], dischargeCostPerL: number, solver: LinearSolver): Outcome<readonly Feed[]> {
  if (requests.length === 0) return accepted([]);
  const question: BlendQuestion = { requests, sources, dischargeCostPerL, around: requests.map(({ card }) => targetComposition(card)), without: requests.map(() => new Set<string>()) };
  const together = solveFeeds(question, solver);
  if (!together.ok) return together;
  const feeds = [...together.value];
  for (const [b, feed] of feeds.entries()) {
    const corrected = correctFeed(question, feeds, feed, b, solver);
    if (!corrected.ok) return corrected;
    feeds[b] = corrected.value;
  }
  return accepted(feeds);
}

function solveFeeds(question: BlendQuestion, solver: LinearSolver): Outcome<readonly Feed[]> {
  const narrowed = buildProblem(question, NARROWING);
  const answer = solveBlend(narrowed, solver, buildProblem(question, 0));
  return answer.ok ? accepted(question.requests.map((_, b) => readFeed(question, narrowed, answer.value, b))) : answer;
}

/**
 * Mixes one basin again, with what the others leave of each source, until speciation agrees with its conductivity and pH
 * and it does not take acid and base at once.
 */
function correctFeed(question: BlendQuestion, feeds: readonly Feed[], first: Feed, b: number, solver: LinearSolver): Outcome<Feed> {
  let feed = first;
  let around = question.around[b]!;
  const without = new Set(question.without[b]!);
  for (let round = 1; round <= ROUNDS; round++) {
    const needless = needlessOpposite(feed);
    if (needless !== undefined) for (const from of question.sources) { if (sourceRole(from) === needless) without.add(from.source.id); }
    else if (!feed.violations.some(({ limit }) => isAboutWater(limit))) return accepted(feed);
    else around = feed.after.mmolPerL;
    const left = question.sources.map((source) => ({ ...source, availableL: source.availableL - drawnByOthers(feeds, b, source) }));
    const again = solveFeeds({ ...question, requests: [feed.request], sources: left, around: [around], without: [without] }, solver);
    if (!again.ok) return again;
    feed = { ...again.value[0]!, draws: again.value[0]!.draws.map(({ from, litres }) => ({ litres, from: question.sources.find(({ source }) => source.id === from.source.id)! })) };
  }
  return accepted(feed);
}

const drawnByOthers = (feeds: readonly Feed[], b: number, { source }: SourceWater): number =>
  feeds.reduce((sum, feed, other) => sum + (other === b ? 0 : feed.draws.find(({ from }) => from.source.id === source.id)?.litres ?? 0), 0);

/** Acid and base in the same filling only undo each other: the kind of which there is less is the needless one. */
function needlessOpposite(feed: Feed): 'acid' | 'base' | undefined {
  const drawn = (role: SourceRole) => feed.draws.some(({ from }) => sourceRole(from) === role);
  return drawn('acid') && drawn('base') ? (netAlkalinityMmol(feed) < 0 ? 'base' : 'acid') : undefined;
}

/** The litres that were approved, up to what is a hard limit now, beside the bound and the reasons of the best mix. */
function fixFeed(best: Feed, sources: readonly SourceWater[], dischargeCostPerL: number): Feed {
  const { request } = best;
  const { drainL, drawL } = request.fixed!;
  const problem = buildProblem({ requests: [request], sources, dischargeCostPerL, around: [targetComposition(request.card)], without: [new Set()] }, 0);
  return { ...best, ...assembleFeed(request, sources, problem, 0, sources.map(({ source }) => Math.min(drawL[source.id] ?? 0, source.perBasinMaxL ?? Infinity)), Math.min(drainL, request.present.volumeL)) };
}

interface BlendQuestion {
  readonly requests: readonly FeedRequest[];
  readonly sources: readonly SourceWater[];
  readonly dischargeCostPerL: number;
  /** Composition around which conductivity and pH are linearised, for each request. */
  readonly around: readonly Composition[];
  readonly without: readonly ReadonlySet<string>[];
}

/** Alkalinity that acid and base of a feed bring together, mmol. */
const netAlkalinityMmol = (feed: Feed): number =>
  feed.draws.reduce((sum, { from, litres }) => sum + (['acid', 'base'].includes(sourceRole(from)) ? litres * (from.mmolPerL.HCO3 ?? 0) : 0), 0);

function buildProblem({ requests, sources, dischargeCostPerL, around, without }: BlendQuestion, narrowing: number): BlendProblem {
  const roundingL = narrowing > 0 ? requests.length / 2 : 0;
  return {
    dischargeCostPerL,
    sources: sources.map(({ source, mmolPerL, availableL, costPerL, cautions }): BlendSource => ({
      ...(isWater({ source, cautions }) ? {} : { dilutedToShare: (1 - LEAST_WATER_SHARE) * (1 - narrowing) }),
      id: source.id, mmolPerL: mmolPerL as Record<string, number>, costPerL,
      availableL: Math.max(0, availableL - roundingL * stepOf(source.kind)),
      ...(source.perBasinMaxL === undefined ? {} : { perBasinMaxL: floorTo(source.perBasinMaxL, stepOf(source.kind)) }),
      ...(source.pumpMinimumL > 0 ? { minimumDoseL: source.pumpMinimumL + stepOf(source.kind) } : {}),
    })),
    basins: requests.map((request, b): BlendBasin => ({
      id: request.basin.id, volumeL: request.present.volumeL, mmolPerL: request.present.mmolPerL as Record<string, number>,
      volumeBandL: narrowedVolume(volumeBand(request), narrowing > 0 ? roundingOf(sources) : 0), without: without[b]!,
      limits: [
        ...componentLimits(request.card, narrowing, request.uptake), conductivityLimit(request.card, around[b]!, narrowing), ...acidityLimits(request.card, around[b]!, narrowing),
      ],
    })),
  };
}

/** Full, but not heavier than a vehicle may carry. */
export function volumeBand({ basin: { type }, maximumLoadKg }: Pick<FeedRequest, 'basin' | 'maximumLoadKg'>): [number, number] {
  const most = Math.min(basinFullL(type), Math.max(0, maximumLoadKg - type.emptyKg - type.rafts * type.raftKg));
  return [Math.min(most, Math.max(FILLED_SHARE * most, Math.min(most, basinLeastL(type)))), most];
}

/** Most that rounding a drain and every draw can add to a basin, L. */
const roundingOf = (sources: readonly SourceWater[]): number => sources.reduce((sum, { source }) => sum + stepOf(source.kind) / 2, WATER_STEP_L / 2);

/** A full basin is a hard limit: rounded litres stay below it. */
const narrowedVolume = ([least, most]: readonly [number, number], roundingL: number): [number, number] => {
  const below = Math.max(0, most - roundingL);
  return [Math.min(least, below), below];
};

const stepOf = (kind: string): number => (kind === 'fresh' || kind === 'return' ? WATER_STEP_L : DOSE_STEP_L);
const floorTo = (litres: number, step: number): number => Number((Math.floor(litres / step + 1e-9) * step).toFixed(3));
const roundTo = (litres: number, step: number): number => Number((Math.round(litres / step) * step).toFixed(3));

function readFeed(question: BlendQuestion, problem: BlendProblem, answer: BlendAnswer, b: number): Feed {
  const request = question.requests[b]!;
  const blend = answer.basins[b]!;
  const drainL = Math.min(request.present.volumeL, roundTo(blend.drainL, WATER_STEP_L));
  const drawL = dilutedOrNone(request.present.volumeL - drainL, blend.drawL.map((litres, s) => roundDraw(litres, question.sources[s]!)), question.sources);
  const drawn = new Set(question.sources.flatMap(({ source }, s) => (drawL[s]! > 0 ? [source.id] : [])));
  const feed = assembleFeed(request, question.sources, problem, b, drawL, drainL);
  return {
    ...feed,
    // Rounded litres may cost less than the exact ones.
    costLowerBound: Math.min(feed.cost, Math.max(0, blend.lowerBound)),
    binding: answer.binding.filter((is) => is.basin === request.basin.id || (is.basin === undefined && drawn.has(is.limit))),
  };
}

/** Concentrates only where there is water for them. */
function dilutedOrNone(keptL: number, drawL: readonly number[], sources: readonly SourceWater[]): readonly number[] {
  const dosedL = drawL.reduce((sum, litres, s) => sum + (isWater(sources[s]!) ? 0 : litres), 0);
  const volumeL = drawL.reduce((sum, litres) => sum + litres, keptL);
  if (volumeL - dosedL >= LEAST_WATER_SHARE * volumeL) return drawL;
  return drawL.map((litres, s) => (isWater(sources[s]!) ? litres : 0));
}

/** To the meter's step, never above the hard limit of the source and never above zero but below the pump's least dose. */
function roundDraw(litres: number, { source }: SourceWater): number {
  const step = stepOf(source.kind);
  const rounded = Math.min(roundTo(litres, step), floorTo(source.perBasinMaxL ?? Infinity, step));
  return rounded < Math.max(source.pumpMinimumL, step / 2) ? 0 : rounded;
}

function assembleFeed(request: FeedRequest, sources: readonly SourceWater[], problem: BlendProblem, b: number, drawL: readonly number[], drainL: number): Omit<Feed, 'costLowerBound' | 'binding'> {
  const mixed = mixBasin(problem, problem.basins[b]!, drawL, drainL);
  const mmolPerL = mixed.mmolPerL as Composition;
  const after: MixedWater = { volumeL: mixed.volumeL, mmolPerL, ...waterFigures(mmolPerL) };
  return {
    request, drainL, after,
    draws: drawL.flatMap((litres, s) => (litres > 0 ? [{ from: sources[s]!, litres }] : [])),
    cost: drawL.reduce((sum, litres, s) => sum + litres * sources[s]!.costPerL, drainL * problem.dischargeCostPerL),
    violations: feedViolations(request, after, volumeBand(request)),
  };
}
