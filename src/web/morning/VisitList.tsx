import { useState } from 'react';
import type { PlanSheet, SheetVisit, StopOutcomeView } from '../../desk/contract.ts';
import { Hours } from '../parts/Hours.tsx';
import { Section } from '../parts/Section.tsx';
import { beginsAt, isOpen, listVisits, type VisitChoice } from './listVisits.ts';
import { VisitRow } from './VisitRow.tsx';

interface Props { readonly sheet: PlanSheet; readonly outcomes: Readonly<Record<string, StopOutcomeView>>; readonly markable: boolean; readonly nowAt: string }

/** Every visit in the order in which it happens; a station picks the ones that come to it. */
export function VisitList({ sheet, outcomes, markable, nowAt }: Props) {
  const [choice, choose] = useState<VisitChoice>({ station: undefined, open: false });
  const rows = listVisits(sheet.visits, outcomes, choice);
  const toggle = (station: string) => choose({ ...choice, station: choice.station === station ? undefined : station });
  return (
    <Section title="Visits" aside={`${rows.length} of ${sheet.visits.length}, by time`}>
      <div className="choices no-print" role="group" aria-label="Which visits">
        <button type="button" aria-pressed={choice.station === undefined} onClick={() => choose({ ...choice, station: undefined })}>Whole floor</button>
        {sheet.timeline.stations.map((is) => <button key={is.id} type="button" aria-pressed={choice.station === is.id} onClick={() => toggle(is.id)}>{is.title}</button>)}
        {markable && <button type="button" aria-pressed={choice.open} onClick={() => choose({ ...choice, open: !choice.open })}>Only what is still to do</button>}
      </div>
      {rows.length === 0 && <p>No visit {choice.open ? 'is still to do' : 'is planned'} here.</p>}
      <Hours items={rows} beginsAt={(visit) => beginsAt(visit, choice.station)} nowAt={nowAt} zone={sheet.timeZone} one="visit" note={(visits) => hourNote(visits, outcomes)}>
        {(visits) => (
          <ol className="visits">
            {visits.map((visit) => <VisitRow key={visit.visit} visit={visit} planId={sheet.planId} outcomes={outcomes} markable={markable} zone={sheet.timeZone} station={choice.station} />)}
          </ol>
        )}
      </Hours>
    </Section>
  );
}

function hourNote(visits: readonly SheetVisit[], outcomes: Props['outcomes']): string {
  const must = visits.filter((visit) => visit.urgency === 'must').length;
  const finished = visits.filter((visit) => !isOpen(visit, outcomes)).length;
  return [...(must ? [`${must} must go today`] : []), ...(finished ? [`${finished} finished`] : [])].join(', ');
}
