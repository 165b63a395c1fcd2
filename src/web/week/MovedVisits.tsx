import type { WeekVisit } from '../../desk/contract.ts';
import { BasinLink } from '../parts/BasinLink.tsx';
import { KIND_WORDS } from '../words/kinds.ts';
import { shortDate } from '../words/times.ts';

/** Visits that levelling would move on one day: from when to when, and the days between which they may be. */
export function MovedVisits({ visits }: { readonly visits: readonly WeekVisit[] }) {
  return (
    <ul className="plain">{visits.map((visit, i) => (
      <li key={`${visit.basin} ${i}`}><BasinLink basin={visit.basin} /> {visit.kinds.map((kind) => KIND_WORDS[kind].work).join(', ')}: to <b>{shortDate(visit.to!)}</b> <span className="soft">(may be {visit.earliest === visit.latest ? `on ${shortDate(visit.earliest)}` : `from ${shortDate(visit.earliest)} to ${shortDate(visit.latest)}`}; {visit.why})</span></li>
    ))}</ul>
  );
}
