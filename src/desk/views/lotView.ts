import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { MorningPlan } from '../../planning/morningPlan.ts';
import type { LotAnswer, LotsAnswer, OrderFix } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { refuse } from '../http/answers.ts';
import { decisionViews } from './decisionViews.ts';

/** All lots, what is off target, what to look at next, and the season. */
export function lotsView({ greenhouse, morning, nowAt }: DeskParts): LotsAnswer {
  const state = greenhouse.state();
  const plan = morning.newest();
  const actions = plan?.actions;
  return {
    date: plan?.date ?? nowAt().slice(0, 10), currency: state.file?.prices.currency ?? '', ...(actions === undefined ? {} : { sentence: actions.sentence }),
    lots: (plan?.lots ?? []).map((lot) => ({
      lot: lot.lot, crop: lot.crop, cropTitle: titleOf(state, lot.crop), stageTitle: stageOf(state, lot.crop, lot.stage), plants: lot.plants, basins: lot.basins.length,
      ...(lot.readyDate === undefined ? {} : { readyDate: lot.readyDate }),
      ...withWords('offTarget', actions?.lots.find((each) => each.lot === lot.lot)?.sentence), ...withWords('decided', state.decisions.findLast((each) => each.lot === lot.lot)?.title),
    })),
    notWorkedOut: actions?.notWorkedOut ?? [], looks: actions?.looks ?? [], bayLights: (actions?.bayLights ?? []).map(({ sentence }) => sentence), season: plan?.season ?? [],
    cards: Object.values(state.crops).map(({ id, title }) => ({ id, title })),
  };
}

const withWords = <K extends string>(key: K, words: string | undefined): Partial<Record<K, string>> => (words === undefined ? {} : { [key]: words } as Record<K, string>);
const titleOf = (state: GreenhouseState, crop: string): string => state.crops[crop]?.title ?? crop;
const stageOf = (state: GreenhouseState, crop: string, stage: string): string => state.crops[crop]?.stages.find(({ id }) => id === stage)?.title ?? stage;

/** One lot. Refused where no plan knows it. */
export function lotView({ greenhouse, morning }: DeskParts, id: string): LotAnswer {
  const state = greenhouse.state();
  const plan = morning.newest();
  const lot = plan?.lots.find((each) => each.lot === id);
  const card = state.crops[lot?.crop ?? ''];
  if (plan === undefined || lot === undefined || card === undefined) throw refuse('reference-unknown', 'address.lot', plan === undefined ? 'No plan has been computed yet: lots are shown once there is one.' : `No lot "${id}" stands in a basin.`, id);
  const actions = plan.actions?.lots.find((each) => each.lot === id);
  return {
    date: plan.date, planId: plan.planId, currency: state.file?.prices.currency ?? '', lot, cropTitle: card.title, stageTitle: stageOf(state, card.id, lot.stage),
    readyFreshG: card.harvest.readyFreshG, readyShare: card.harvest.readyShare, latestFreshG: card.harvest.latestFreshG,
    ...(actions === undefined ? {} : { actions }), orders: plan.orders.filter(({ status, lots }) => status !== 'delivered' && lots.some((each) => each.lot === id)),
    decisions: decisionViews(state, plan, id),
  };
}

/** What was worked out that makes a line at risk surer, the most sure first; key: order/line. */
export function orderFixes(plan: MorningPlan | undefined, currency: string): Record<string, OrderFix[]> {
  const fixes: Record<string, OrderFix[]> = {};
  for (const { lot, candidates } of plan?.actions?.lots ?? []) {
    for (const { title, orders, meanGain } of candidates) {
      for (const { order, line, chance, chanceWithNothingDone } of orders) {
        if (chance > chanceWithNothingDone) (fixes[`${order}/${line}`] ??= []).push({ lot, title, chance, chanceWithNothingDone, meanGain, currency });
      }
    }
  }
  const MOST = 2;
  return Object.fromEntries(Object.entries(fixes).map(([key, all]) => [key, all.sort((a, b) => b.meanGain - a.meanGain || b.chance - a.chance).slice(0, MOST)]));
}
