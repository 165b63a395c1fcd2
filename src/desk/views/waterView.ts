import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { MorningPlan, TankOutlook } from '../../planning/morningPlan.ts';
import { judgeTreatment } from '../../planning/water/returned/judgeTreatment.ts';
import type { TankView, WaterAnswer, WaterFeed } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { componentNames } from './componentNames.ts';
import { waterSentence } from './waterSentence.ts';

const READINGS_DAYS = 30;
const DAY_MS = 86_400_000;

/** Tanks, feeds and the balance of water as the newest plan has them. */
export async function waterView(desk: DeskParts): Promise<WaterAnswer> {
  const state = desk.greenhouse.state();
  const plan = desk.morning.newest();
  const base = { date: plan?.date ?? desk.nowAt().slice(0, 10), currency: state.file?.prices.currency ?? '', components: componentNames, why: plan?.account.why ?? 'account' };
  if (plan === undefined) return { ...base, sentence: 'No plan has been computed yet.', tanks: [], feeds: [] };
  const tanks = await Promise.all((plan.tanks ?? []).map((tank) => tankView(desk, state, plan, tank)));
  return {
    ...base, tanks, feeds: waterFeeds(state, plan), sentence: waterSentence(plan.feeds.length, { ...plan.account, ...leavingToday(plan) }, watchedSources(state, tanks)),
    ...(plan.returns === undefined ? {} : { returns: plan.returns }),
    ...(plan.waterAccount === undefined ? {} : { account: plan.waterAccount }),
  };
}

/** What leaves the basins today, washes included, where the plan has its flows. */
function leavingToday({ waterAccount }: MorningPlan): { dischargedL?: number; returnedL?: number } {
  if (waterAccount === undefined) return {};
  const litres = (goes: (to: string) => boolean) => waterAccount.today.filter(({ from, to }) => from === 'basins' && goes(to)).reduce((sum, flow) => sum + flow.litres, 0);
  return { dischargedL: litres((to) => to === 'discharge'), returnedL: litres((to) => to.startsWith('tank:')) };
}

/** Every source of the greenhouse with what is projected of it. */
const watchedSources = (state: GreenhouseState, tanks: readonly TankOutlook[]) =>
  (state.file?.sources ?? []).map(({ id, title, kind }) => ({ source: id, title, kind, projections: tanks.find(({ source }) => source === id)?.projections ?? [] }));

async function tankView(desk: DeskParts, state: GreenhouseState, plan: MorningPlan, tank: TankOutlook): Promise<TankView> {
  const source = state.file?.sources.find(({ id }) => id === tank.source);
  const pH = await lastPH(desk, state, tank.source);
  const treatment = source === undefined ? undefined : judgeTreatment(source, state.analyses.filter(({ place }) => place === `tank:${tank.source}`), Date.parse(plan.at));
  return {
    ...tank, drawnTodayL: plan.account.waterL[tank.source] ?? 0,
    putInTodayL: (plan.waterAccount?.today ?? []).filter(({ to }) => to === `tank:${tank.source}`).reduce((sum, { litres }) => sum + litres, 0),
    ...(pH === undefined ? {} : { pH }), ...(treatment === undefined || treatment.basis === '' ? {} : { treatment: { words: treatment.basis, held: treatment.isHeld } }), ...(source?.perBasinMaxL === undefined ? {} : { perBasinMaxL: source.perBasinMaxL }),
    ...(source?.products === undefined ? {} : { gramsPerL: Object.entries(source.products).map(([product, gramsPerL]) => ({ product, title: state.products[product]?.title ?? product, gramsPerL })) }),
  };
}

/** Whichever measured last: a laboratory, or a probe within the last month. */
async function lastPH(desk: DeskParts, state: GreenhouseState, source: string): Promise<TankView['pH']> {
  const nowAt = desk.nowAt();
  const place = `tank:${source}`;
  const analysed = state.analyses.flatMap(({ place: of, pH, at, analysis }) => (of === place && pH !== undefined && Date.parse(at) <= Date.parse(nowAt) ? [{ value: pH, at, basis: `analysis ${analysis}` }] : []));
  const readings = await desk.greenhouse.readings(place, new Date(Date.parse(nowAt) - READINGS_DAYS * DAY_MS).toISOString(), nowAt);
  const probed = readings.flatMap(({ quantity, value, at, instrument }) => (quantity === 'pH' ? [{ value, at, basis: instrument ?? 'probe' }] : []));
  return [...analysed, ...probed].reduce<TankView['pH']>((latest, each) => (latest === undefined || Date.parse(each.at) >= Date.parse(latest.at) ? each : latest), undefined);
}

/** Nearest-possible ones first, then in the order of filling. */
function waterFeeds(state: GreenhouseState, plan: MorningPlan): WaterFeed[] {
  const startOf = new Map(plan.visits.flatMap(({ feedTicket, stops }) => stops.flatMap(({ kind, startAt }) => (kind === 'filling' && feedTicket !== undefined ? [[feedTicket, startAt] as const] : []))));
  const rank = ({ status, ticket }: { status: string; ticket: string }) => `${status === 'within bands' ? 1 : 0} ${startOf.get(ticket) ?? '~'}`;
  return [...plan.feeds].sort((a, b) => (rank(a) < rank(b) ? -1 : 1)).map(({ steps: _steps, targetMmolPerL: _target, bandMmolPerL: _band, visit: _visit, ...feed }) => {
    const startAt = startOf.get(feed.ticket);
    return { ...feed, cropTitle: state.crops[feed.crop]?.title ?? feed.crop, ...(startAt === undefined ? {} : { startAt }) };
  });
}
