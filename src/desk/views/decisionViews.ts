import { orderKey } from '../../greenhouse/evolve.ts';
import type { DecidedAction, GreenhouseState } from '../../greenhouse/state.ts';
import type { MorningPlan } from '../../planning/morningPlan.ts';
import type { DecisionView } from '../contract.ts';

/** Decisions on a lot, newest first: what was expected, and what has come of it so far. */
export function decisionViews(state: GreenhouseState, plan: MorningPlan, lot: string): DecisionView[] {
  const all = state.decisions.filter((each) => each.lot === lot);
  return all.map((decided, i): DecisionView => ({
    at: decided.at, by: state.file?.people.find(({ id }) => id === decided.by)?.name ?? decided.by, title: decided.title, why: decided.why, holds: i === all.length - 1,
    expected: expectedWords(decided, state.file?.prices.currency ?? ''), since: sinceWords(decided, state, plan),
  })).reverse();
}

const percent = (share: number): string => `${Math.round(100 * share)} %`;

function expectedWords({ expected: { gain, chanceBetter, readyDate, orders } }: DecidedAction, currency: string): string[] {
  return [
    `gain ${gain.middle} ${currency} against doing nothing (nine times in ten ${gain.low} to ${gain.high}); better in ${percent(chanceBetter)} of futures`,
    ...(readyDate === undefined ? [] : [`ready ${readyDate.likely} (${readyDate.early} to ${readyDate.late})`]),
    ...orders.map(({ order, line, chance }) => `order ${order}, line ${line}: ${percent(chance)}`),
  ];
}

/** The same figures now: readiness by today's forecast, lines delivered or their chance. */
function sinceWords({ lot, expected }: DecidedAction, state: GreenhouseState, plan: MorningPlan): string[] {
  const now = plan.lots.find((each) => each.lot === lot)?.readyDate;
  return [
    ...(expected.readyDate === undefined ? [] : [now === undefined ? 'no ready date is forecast now' : `ready ${now.likely} by the forecast of ${plan.date} (${now.early} to ${now.late})`]),
    ...expected.orders.map((expectedLine) => {
      const line = state.orders[orderKey(expectedLine)];
      const outlook = plan.orders.find(({ order, line: number }) => order === expectedLine.order && number === expectedLine.line);
      const words = `order ${expectedLine.order}, line ${expectedLine.line}`;
      if (line === undefined) return `${words}: withdrawn`;
      const delivered = state.delivered[orderKey(expectedLine)] ?? 0;
      if (delivered >= line.units) return `${words}: delivered`;
      return line.due < plan.date ? `${words}: ${delivered} of ${line.units} delivered by its day` : `${words}: ${percent(outlook?.chance ?? 0)} now`;
    }),
  ];
}
