import type { ShopPlan } from '../../planning/jobShop/shopPlan.ts';
import { printColumns } from './columns.ts';

/** A job shop's plan on a page: how long, how good, then what happens where and who carries what. */
export function shopSheet({ makespan, lowerBound, proven, operations, moves }: ShopPlan, seconds: number): string {
  const verdict = proven ? 'No plan is shorter (proven).' : `No plan ends before ${lowerBound}; this one is at most ${percent(makespan, lowerBound)} % longer than the shortest.`;
  return [`Ends at ${makespan}. ${verdict} Found in ${seconds} s.`, '', operationTable(operations), ...(moves.length === 0 ? [] : ['', moveTable(moves)])].join('\n');
}

const percent = (makespan: number, lowerBound: number): string => (lowerBound > 0 ? ((100 * (makespan - lowerBound)) / lowerBound).toFixed(1) : '100');

function operationTable(operations: ShopPlan['operations']): string {
  const rows = [...operations].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : a.start - b.start));
  return printColumns([{ title: 'at' }, { title: 'job' }, { title: 'operation', right: true }, { title: 'start', right: true }, { title: 'end', right: true }],
    rows.map((o) => [o.at, o.job, String(o.index), String(o.start), String(o.end)]));
}

function moveTable(moves: ShopPlan['moves']): string {
  const rows = [...moves].sort((a, b) => a.vehicle - b.vehicle || a.depart - b.depart);
  return printColumns([{ title: 'vehicle', right: true }, { title: 'job' }, { title: 'from' }, { title: 'to' }, { title: 'depart', right: true }, { title: 'arrive', right: true }],
    rows.map((m) => [String(m.vehicle), m.job, m.from, m.to, String(m.depart), String(m.arrive)]));
}
