import type { Composition } from '../../science/chemistry/composition.ts';
import type { FeedTicket, SolutionView } from '../morningPlan.ts';
import { shown } from '../words/plainWords.ts';
import type { BindingLimit, Violation } from './blendProblem.ts';
import type { DrainRoute } from './returned/routeReturns.ts';
import type { Feed } from './feed.ts';
import { componentBands, targetComposition } from './feedLimits.ts';
import { feedSteps } from './feedSteps.ts';

/** Numbers as people read them: four significant digits, and nothing that is not there. */
export const roundComposition = (composition: Composition): Composition =>
  Object.fromEntries(Object.entries(composition).filter(([, value]) => value !== undefined).map(([name, value]) => [name, roundTo(value, 4)])) as Composition;

export const roundTo = (value: number, digits: number): number => (value === 0 ? 0 : Number(value.toPrecision(digits)));

export function solutionView(water: { readonly volumeL: number; readonly mmolPerL: Composition; readonly ecMsPerCm25: number; readonly pH?: number }, basis: string): SolutionView {
  return {
    volumeL: Math.round(water.volumeL * 10) / 10, mmolPerL: roundComposition(water.mmolPerL), ecMsPerCm25: roundTo(water.ecMsPerCm25, 4),
    ...(water.pH === undefined ? {} : { pH: Math.round(water.pH * 100) / 100 }), basis,
  };
}

/** A feed as the ticket that a person works from: litres and grams, what it makes of the water, and the safe order of work. */
export function feedTicket(feed: Feed, names: { readonly ticket: string; readonly visit: string; readonly currency: string; readonly before: SolutionView }, route: DrainRoute | undefined): FeedTicket {
  const { request, after } = feed;
  return {
    ticket: names.ticket, basin: request.basin.id, visit: names.visit, crop: request.card.id,
    before: names.before,
    drainL: feed.drainL,
    draws: feed.draws.map(({ from, litres }) => ({
      source: from.source.id, title: from.source.title, kind: from.source.kind, litres,
      grams: Object.fromEntries(Object.entries(from.gramsPerL).map(([product, gramsPerL]) => [product, roundTo(gramsPerL * litres, 4)])),
    })),
    addedL: Math.round(feed.draws.reduce((sum, { litres }) => sum + litres, 0) * 1000) / 1000,
    after: solutionView(after, 'mass balance of what is left and what is added; conductivity and pH by full speciation, pH at the carbon dioxide of a basin (10^-2.7 atm)'),
    targetMmolPerL: roundComposition(targetComposition(request.card)),
    bandMmolPerL: Object.fromEntries(Object.entries(componentBands(request.card)).map(([name, [low, high]]) => [name, [roundTo(low, 6), roundTo(high, 6)] as const])),
    cost: Math.round(feed.cost * 1e4) / 1e4, costLowerBound: Math.round(Math.max(0, feed.costLowerBound) * 1e4) / 1e4,
    status: feed.violations.length === 0 ? 'within bands' : 'nearest possible',
    binding: feed.binding.map((limit) => bindingWords(limit, names.currency)), violations: feed.violations.map(violationWords),
    steps: feedSteps(feed, route), why: 'feed',
  };
}

/** Enough digits to tell a value from its limit. */
const significant = (value: number): string => String(roundTo(value, 4));

/** What a tenth more room at a limit would save. */
export function bindingWords({ limit, side, at, unit, worthPerUnit }: BindingLimit, currency: string): string {
  const saved = `${shown(worthPerUnit * Math.max(0.1 * Math.abs(at), 1e-6), 4)} ${currency}`;
  if (side === 'available') return `All ${shown(at, 0)} L of ${limit} are used today; a litre more would save ${shown(worthPerUnit, 4)} ${currency}.`;
  return `${limit} stands at its ${side === 'low' ? 'lowest' : 'highest'}, ${significant(at)} ${unit}; a tenth more room would save ${saved}.`;
}

export const violationWords = ({ limit, side, allowed, reached, unit }: Violation): string =>
  `${limit} comes to ${significant(reached)} ${unit}, ${side === 'low' ? 'below' : 'above'} ${significant(allowed)} ${unit}; nothing at hand brings it closer without missing something else by more.`;
