import type { FeedTicket, MorningPlan, PlannedVisit } from '../../planning/morningPlan.ts';
import { printColumns } from './columns.ts';
import { wrapWords } from './wrapWords.ts';

const WIDTH = 110;

/** The plan of a shift on paper: what the day is about, what is at risk, the timetable, the feeds, what stays undone. */
export function planSheet(plan: MorningPlan): string {
  const clock = clockIn(plan.timeZone);
  return [
    `${plan.name}: plan of ${plan.date}   (${plan.planId}, journal entry ${plan.upToSequence})`,
    wrapWords(plan.sentence, WIDTH),
    section('At risk', plan.risks.map((risk) => wrapWords(`[${risk.severity}] ${risk.sentence}${risk.proposal === undefined ? '' : ` ${risk.proposal}`}`, WIDTH, '  '))),
    section(`Timetable  (finish ${clock(plan.timeline.finishAt)}; no plan of these visits ends before ${clock(plan.timeline.boundAt)}; gap ${plan.timeline.gapPct.toFixed(1)} %; binds: ${plan.timeline.binds})`, [timetable(plan, clock)]),
    section('What one more would be worth', (plan.timeline.worth ?? []).map((each) => wrapWords(each, WIDTH, '  '))),
    section('Feed tickets', plan.feeds.map(feedLines)),
    section('Where drained solution goes', returnLines(plan)),
    section('Left out today', plan.leftOut.map((each) => wrapWords(`${each.basin} ${each.what}${each.must ? ' (must)' : ''}: ${each.reason}`, WIDTH, '  '))),
    section('Orders of the next days at risk', orderLines(plan)),
    section('The two weeks ahead', weekLines(plan)),
    section('The day', [accountLine(plan)]),
    section('Cautions', plan.cautions.map((each) => wrapWords(`${each.subject}: ${each.text}`, WIDTH, '  '))),
  ].filter((part) => part !== '').join('\n\n');
}

type Clock = (at: string) => string;

function clockIn(timeZone: string): Clock {
  const format = new Intl.DateTimeFormat('en-GB', { timeZone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
  return (at) => format.format(new Date(at));
}

const section = (title: string, lines: readonly string[]): string => (lines.length === 0 ? '' : `${title.toUpperCase()}\n${lines.join('\n')}`);

function timetable(plan: MorningPlan, clock: Clock): string {
  const visits = [...plan.visits].sort((a, b) => (a.leavesBerthAt < b.leavesBerthAt ? -1 : a.leavesBerthAt > b.leavesBerthAt ? 1 : a.visit < b.visit ? -1 : 1));
  return printColumns(
    [{ title: 'leaves' }, { title: 'back' }, { title: 'basin' }, { title: 'urgency' }, { title: 'vehicle' }, { title: 'from' }, { title: 'stations' }, { title: 'to' }, { title: 'kg', right: true }, { title: 'why' }],
    visits.map((visit) => visitCells(visit, clock)), '  ');
}

function visitCells(visit: PlannedVisit, clock: Clock): string[] {
  const stations = visit.stops.map((stop) => `${stop.station} ${clock(stop.startAt)}-${clock(stop.endAt)}`).join(', ');
  const vehicles = [...new Set(visit.trips.map((trip) => trip.vehicle))].join(', ');
  return [clock(visit.leavesBerthAt), clock(visit.backAt), visit.basin, visit.urgency, vehicles, visit.fromBerth, stations, visit.toBerth, visit.weightKg.toFixed(0), visit.reason];
}

function feedLines(ticket: FeedTicket): string {
  const draws = ticket.draws.map((draw) => {
    const grams = Object.entries(draw.grams).map(([product, g]) => `${g.toFixed(1)} g ${product}`).join(', ');
    return `    ${draw.title.padEnd(28)} ${litres(draw.litres).padStart(9)} L${grams === '' ? '' : `  = ${grams}`}`;
  });
  const drained = ticket.drainL > 0 ? [`    drain first                  ${litres(ticket.drainL).padStart(9)} L`] : [];
  const after = `${litres(ticket.after.volumeL)} L, ${ticket.after.ecMsPerCm25.toFixed(2)} mS/cm at 25 C`;
  const trouble = ticket.violations.map((violation) => wrapWords(`Outside its band: ${violation}`, WIDTH, '    '));
  return [`  ${ticket.ticket}  basin ${ticket.basin}, ${ticket.crop}: ${ticket.status}; afterwards ${after}`, ...drained, ...draws, ...trouble,
    ...ticket.steps.map((step, i) => wrapWords(`${i + 1}. ${step}`, WIDTH, '      '))].join('\n');
}

const litres = (volumeL: number): string => (volumeL >= 20 ? volumeL.toFixed(0) : volumeL.toFixed(2));

function returnLines({ returns }: MorningPlan): string[] {
  if (returns === undefined || returns.routes.length === 0) return [];
  const lines = returns.routes.map(({ basin, litres: volumeL, title, reason, violation }) => `${basin} ${litres(volumeL)} L to ${title}: ${reason}.${violation === undefined ? '' : ` Not permitted: ${violation}`}`);
  return [returns.sentence, ...lines].map((line) => wrapWords(line, WIDTH, '  '));
}

function orderLines(plan: MorningPlan): string[] {
  const wanting = plan.orders.filter((order) => order.status === 'at risk' || order.status === 'short');
  const shown = wanting.slice(0, 15).map((order) => wrapWords(`${order.due} ${order.order}/${order.line} ${order.sentence}`, WIDTH, '  '));
  return wanting.length > 15 ? [...shown, `  and ${wanting.length - 15} more; see the desk`] : shown;
}

/** The sum, and the first days that are too full. */
function weekLines({ week }: MorningPlan): string[] {
  return week === undefined ? [] : [week.sentence, ...week.overruns.slice(0, 2).map(({ sentence }) => sentence)].map((line) => wrapWords(line, WIDTH, '  '));
}

function accountLine({ account }: MorningPlan): string {
  const waters = Object.entries(account.waterL).map(([source, volumeL]) => `${volumeL.toFixed(0)} L ${source}`).join(', ');
  return wrapWords(`Water ${waters || 'none'}; discharged ${account.dischargedL.toFixed(0)} L; lamps ${account.lampKWh.toFixed(0)} kWh; vehicles ${(account.vehicleLoadedM + account.vehicleEmptyM).toFixed(0)} m, ${account.vehicleLoadedM.toFixed(0)} m of it loaded; feeds ${account.feedCost.toFixed(2)} ${account.currency}; ${account.kgCo2e.toFixed(1)} kg CO2e.`, WIDTH, '  ');
}
