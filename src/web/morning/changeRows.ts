import type { PlanChanges, PlanSheet } from '../../desk/contract.ts';

export interface ChangeRow {
  readonly visit: string;
  readonly basin: string;
  /** Start of its first stop as people were told; absent for a new visit. */
  readonly toldAt?: string;
  /** Start of its first stop now; absent for a dropped visit. */
  readonly newAt?: string;
  readonly why: string;
}

/** Told and new time of every visit that a newer plan changes, in the order of the day. */
export function changeRows(changes: PlanChanges, told: PlanSheet, next: PlanSheet): ChangeRow[] {
  const visitIn = (sheet: PlanSheet, id: string) => sheet.visits.find(({ visit }) => visit === id);
  const basinOf = (id: string) => (visitIn(next, id) ?? visitIn(told, id))?.basin ?? id;
  const startOf = (key: 'toldAt' | 'newAt', sheet: PlanSheet, id: string) => { const at = visitIn(sheet, id)?.stops[0]?.startAt; return at === undefined ? {} : { [key]: at }; };
  const rows: ChangeRow[] = [
    ...changes.moved.map(({ visit, fromAt, toAt }) => ({ visit, basin: basinOf(visit), toldAt: fromAt, newAt: toAt, why: shiftWords(Date.parse(toAt) - Date.parse(fromAt)) })),
    ...changes.added.map((visit) => ({ visit, basin: basinOf(visit), ...startOf('newAt', next, visit), why: `new: ${visitIn(next, visit)?.reason ?? ''}` })),
    ...changes.dropped.map((visit) => ({ visit, basin: basinOf(visit), ...startOf('toldAt', told, visit), why: `dropped: ${next.leftOut.find((out) => out.visit === visit)?.reason ?? 'not in the newer plan'}` })),
  ];
  const orderOf = ({ toldAt, newAt, visit }: ChangeRow): string => `${newAt ?? toldAt ?? ''} ${visit}`;
  return rows.sort((a, b) => (orderOf(a) < orderOf(b) ? -1 : 1));
}

function shiftWords(ms: number): string {
  const minutes = Math.round(Math.abs(ms) / 60_000);
  return `${minutes} minute${minutes === 1 ? '' : 's'} ${ms < 0 ? 'earlier' : 'later'}`;
}
