import type { PlanParts } from '../planParts.ts';
import type { ActionPlan } from '../actions/lotActions.ts';
import { addDays } from '../day/shiftDay.ts';
import { lotsWithoutCard } from '../lots/lotViews.ts';
import type { FeedTicket, MorningPlan, Risk, TankOutlook } from '../morningPlan.ts';
import { countOf, someOf } from '../words/plainWords.ts';
import type { SolutionFlag } from '../water/solutionEstimate.ts';

export interface RiskQuestion extends Omit<PlanParts, 'climates' | 'solver' | 'settings'> {
  readonly leftOut: MorningPlan['leftOut'];
  readonly feeds: readonly FeedTicket[];
  readonly tanks: readonly TankOutlook[];
}

const SEVERITIES: readonly Risk['severity'][] = ['act today', 'watch', 'know'];
const FLAG_DAYS = 2;
const ORDER_DAYS = 3;
/** A salt limit is told so many days ahead. */
const SALT_DAYS = 28;

/** What may go wrong, worst first: each in one sentence, with what could be done. */
export function findRisks(question: RiskQuestion): Risk[] {
  return [...failureRisks(question), ...leftOutRisks(question), ...placeRisks(question), ...orderRisks(question), ...feedRisks(question), ...returnRisks(question), ...waterRisks(question), ...tankRisks(question), ...lotRisks(question), ...sourceRisks(question)]
    .map((risk, i) => ({ risk, i })).sort((a, b) => SEVERITIES.indexOf(a.risk.severity) - SEVERITIES.indexOf(b.risk.severity) || a.i - b.i).map(({ risk }) => risk);
}

/** A stop that failed: what happens to its basin now. */
function failureRisks({ decided, leftOut }: RiskQuestion): Risk[] {
  return (decided.soFar?.failures ?? []).map(({ visit, stop, outcome }): Risk => {
    const again = decided.drafts.find(({ view }) => view.basin.id === visit.basin);
    const isOut = again !== undefined && leftOut.some((out) => out.visit === again.visit);
    const next = again === undefined ? `nothing more is planned for it today: bring it back to ${visit.fromBerth}` : isOut ? 'it does not fit into the rest of the shift' : 'it is planned again';
    return {
      code: 'stop-failed', severity: again === undefined || isOut ? 'act today' : 'watch', subject: visit.basin,
      sentence: `${visit.basin}: ${stop.kind} at ${stop.station} failed (${outcome.reason ?? 'no reason given'}); ${next}.`,
      ...(again === undefined || isOut ? { proposal: 'See to the station or do it by hand.' } : {}),
    };
  });
}

const leftOutRisks = ({ leftOut }: RiskQuestion): Risk[] => leftOut.filter(({ must }) => must).map(({ basin, what, reason }) => ({
  code: 'visit-left-out', severity: 'act today' as const, subject: basin, sentence: `${basin}: "${what}" is needed today and is left out: ${reason}.`, proposal: 'Lengthen the shift, drop a visit that can wait, or do it by hand.',
}));

const placeRisks = ({ decided }: RiskQuestion): Risk[] => decided.found.withoutPlace.map(({ basin, lot, reason }) => ({
  code: 'no-place', severity: 'act today' as const, subject: basin ?? lot, sentence: `${basin === undefined ? `Seedlings of ${lot} should leave their trays` : `${lot} in ${basin} should move on`} today but cannot: ${reason}.`, proposal: 'Wash or free a basin of that bay, or harvest earlier.',
}));

function orderRisks({ decided, day }: RiskQuestion): Risk[] {
  return decided.orders.filter(({ status, due }) => (status === 'at risk' || status === 'short') && due <= addDays(day.date, ORDER_DAYS)).map((order) => ({
    code: 'order-short', severity: order.due <= addDays(day.date, 1) ? 'act today' as const : 'watch' as const, subject: `${order.order}/${order.line}`, sentence: order.sentence,
    ...orderProposal(decided.actions, `${order.order}/${order.line}`),
  }));
}

/** The lot with which most is gained for the line; where nothing helps, what is left to do. */
function orderProposal({ lots }: ActionPlan, key: string): Pick<Risk, 'proposal' | 'lot'> {
  const helping = lots.flatMap(({ lot, candidates }) => candidates.filter(({ orders, meanGain }) => meanGain > 0 && orders.some((each) => `${each.order}/${each.line}` === key && each.chance > each.chanceWithNothingDone)).map(({ title, meanGain }) => ({ lot, title, meanGain })));
  const best = helping.sort((a, b) => b.meanGain - a.meanGain || (a.lot < b.lot ? -1 : 1))[0];
  const nearest = lots.find(({ candidates }) => candidates.some(({ orders }) => orders.some((each) => `${each.order}/${each.line}` === key)))?.lot;
  const proposal = 'Tell the customer, offer another crop, or move units from an order that can wait.';
  if (best !== undefined) return { proposal: `${best.title} of ${best.lot} would make it surer. Or: ${proposal[0]!.toLowerCase()}${proposal.slice(1)}`, lot: best.lot };
  return { proposal, ...(nearest === undefined ? {} : { lot: nearest }) };
}

const feedRisks = ({ feeds }: RiskQuestion): Risk[] => feeds.filter(({ status }) => status === 'nearest possible').map(({ basin, violations }) => ({
  code: 'feed-outside-bands', severity: 'act today' as const, subject: basin, sentence: `No mix of what is at hand brings ${basin} within its bands: ${violations[0] ?? ''}`, proposal: 'Look at the tanks and stocks, or loosen the band that is named.',
}));

/** What the permit does not allow, though nothing else is left. */
const returnRisks = ({ decided }: RiskQuestion): Risk[] => decided.returned.routes.flatMap(({ basin, litres, violation }) => (violation === undefined ? [] : [{
  code: 'discharge-beyond-permit', severity: 'act today' as const, subject: basin, sentence: `${basin}: ${Math.round(litres)} L are to be drained, but ${violation}`, proposal: 'Empty or free a return tank first; discharging it needs the authority.',
}]));

/** Doubtful readings of the last days, the latest of each quantity: alike ones of several basins are told together. */
function waterRisks({ basins, day }: RiskQuestion): Risk[] {
  const since = new Date(day.atMs - FLAG_DAYS * 86_400_000).toISOString();
  const flagged = basins.flatMap(({ basin, water }) => {
    const flags = water.known ? water.solution.flags : water.flags;
    const latest = new Map(flags.filter(({ at }) => at >= since).map((flag) => [flag.quantity, flag]));
    return [...latest.values()].map((flag) => ({ basin: basin.id, flag }));
  });
  const byCause = new Map<string, { basin: string; flag: SolutionFlag }[]>();
  for (const entry of flagged) byCause.set(entry.flag.likelyCause, [...(byCause.get(entry.flag.likelyCause) ?? []), entry]);
  const doubts = [...byCause].flatMap(([cause, entries]): Risk[] => (entries.length <= 2 ? entries.map(({ basin, flag }) => ({
    code: `${flag.quantity}-doubtful`, severity: 'watch' as const, subject: basin, sentence: `${basin}: ${flag.sentence}`, proposal: `Likeliest: ${cause}.`,
  })) : [{ code: `${entries[0]!.flag.quantity}-doubtful`, severity: 'watch', subject: entries[0]!.basin, sentence: `${countOf(entries.length, 'basin')} (${someOf(entries.map(({ basin }) => basin))}) have readings that filling and transpiration do not explain.`, proposal: `Likeliest: ${cause}.` }]));
  const unknown = basins.filter(({ basin, water }) => basin.planting !== undefined && !water.known).map(({ basin }) => basin.id);
  return [...doubts, ...(unknown.length === 0 ? [] : [{
    code: 'water-unknown', severity: 'act today' as const, subject: unknown[0]!, sentence: `Nobody knows what is in ${countOf(unknown.length, 'planted basin')} (${someOf(unknown)}): no filling, level or conductivity is recorded.`, proposal: 'Measure level, conductivity and pH there this morning.',
  }])];
}

/** What does not fit in a tank, and salts that come near their limit. */
function tankRisks({ tanks, day }: RiskQuestion): Risk[] {
  const since = new Date(day.atMs - FLAG_DAYS * 86_400_000).toISOString();
  return tanks.flatMap(({ source, title, flags, projections }): Risk[] => [
    ...flags.filter(({ at }) => at >= since).slice(-1).map(({ sentence, likelyCause }): Risk => ({ code: 'tank-doubtful', severity: 'watch', subject: source, sentence: `${title}: ${sentence}`, proposal: `Likeliest: ${likelyCause}.` })),
    ...projections.filter(({ dischargeBy }) => dischargeBy !== undefined && dischargeBy <= addDays(day.date, SALT_DAYS)).map(({ dischargeBy, sentence }): Risk => ({
      code: 'tank-salt', severity: dischargeBy! <= day.date ? 'act today' : 'watch', subject: source, sentence, proposal: 'Discharge a part and make it up with water that brings less, or feed it to the crop that bears more.',
    })),
  ]);
}

function lotRisks({ lots, state }: RiskQuestion): Risk[] {
  const alarms = lots.flatMap(({ view, forecast, refusals }): Risk[] => [
    ...(forecast?.alarms ?? []).filter(({ name }) => name !== 'outside-valid-range').map(({ name, sentence }) => ({ code: name as string, severity: 'watch' as const, subject: view.lot, sentence: `${view.lot}: ${sentence}`, proposal: 'Look at the plants: light, roots, tip-burn, water.', lot: view.lot })),
    ...(forecast === undefined ? [{ code: 'no-forecast', severity: 'watch' as const, subject: view.lot, sentence: `${view.lot} cannot be forecast: ${refusals[0]?.message ?? 'unknown reason'}` }] : []),
  ]);
  const nameless = lotsWithoutCard(state).map(({ lot, crop }): Risk => ({ code: 'no-crop-card', severity: 'act today', subject: lot, sentence: `${lot} grows ${crop}, which no crop card describes: nothing is planned for it.`, proposal: `Add crops/${crop}.yaml.` }));
  return [...alarms, ...nameless];
}

/** A tank whose contents are known says itself what would do. */
const sourceRisks = ({ decided }: RiskQuestion): Risk[] => decided.sources.unusable.map(({ source, reason, water }) => ({
  code: water === undefined ? 'source-unusable' : 'return-tank-not-fit', severity: water === undefined ? 'know' as const : 'watch' as const, subject: source.id,
  sentence: `${source.title} is not used: ${reason}`, ...(water === undefined ? { proposal: 'Record an analysis or say what it is made of.' } : {}),
}));
