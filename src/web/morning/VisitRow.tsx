import { Link } from '@tanstack/react-router';
import type { PlannedStop, SheetVisit, StopOutcomeView } from '../../desk/contract.ts';
import { useTitleOf } from '../ask/useTitleOf.ts';
import { NEWEST_SCAN } from '../imaging/scanSearch.ts';
import { BasinLink } from '../parts/BasinLink.tsx';
import { Status } from '../parts/Sign.tsx';
import { asSentence, fixed, withUnit } from '../words/figures.ts';
import { URGENCY_WORDS } from '../words/kinds.ts';
import { clockTime } from '../words/times.ts';
import { StopRow } from './StopRow.tsx';


interface Props {
  readonly visit: SheetVisit;
  readonly planId: string;
  readonly outcomes: Readonly<Record<string, StopOutcomeView>>;
  readonly markable: boolean;
  readonly zone: string;
  readonly station: string | undefined;
}

/** One round trip of a basin: when it leaves, what for and why, and each of its stops with what became of it. */
export function VisitRow({ visit, planId, outcomes, markable, zone, station }: Props) {
  const titleOf = useTitleOf();
  const outcomeOf = (stop: PlannedStop) => outcomes[`${visit.visit}/${stop.stop}`] ?? plannedOutcome(stop);
  const before = (place: number) => (place === 0 ? 'none' : outcomeOf(visit.stops[place - 1]!)?.result);
  const clock = (at: string) => clockTime(at, zone);
  return (
    <li className={`visit ${visit.urgency}`} id={`visit-${visit.visit}`}>
      <div className="visit-time"><b>{clock(visit.leavesBerthAt)}</b><span className="soft"> to {clock(visit.backAt)}</span></div>
      <div className="visit-basin"><BasinLink basin={visit.basin} /></div>
      <div className="visit-why">
        <p className="visit-what">{visit.what}{visit.urgency === 'must' && <Status shape="flag">{URGENCY_WORDS.must}</Status>}</p>
        <p>{asSentence(visit.reason)}</p>
        <p className="soft small">{wayWords(visit, titleOf)}{visit.feedTicket && <> · <a href={`#${CSS.escape(`ticket-${visit.feedTicket}`)}`}>feed ticket</a></>}{visit.stops.some(({ kind }) => kind === 'imaging') && <> · <Link to="/imaging/$basin" params={{ basin: visit.basin }} search={NEWEST_SCAN} preload={false}>scans</Link></>}</p>
      </div>
      <ol className="stops">
        {visit.stops.map((stop, place) => (
          <StopRow key={stop.stop} stop={stop} visit={visit} planId={planId} title={titleOf(stop.station)} zone={zone}
            outcome={outcomeOf(stop)} before={before(place)} markable={markable} quiet={station !== undefined && stop.station !== station} />
        ))}
      </ol>
    </li>
  );
}

/** A result that the plan itself carries: the stop was over when it was computed. */
function plannedOutcome(stop: PlannedStop): StopOutcomeView | undefined {
  return stop.result && { result: stop.result, at: stop.endAt, by: '' };
}

function wayWords(visit: SheetVisit, titleOf: (id: string) => string): string {
  const vehicles = [...new Set(visit.trips.map((trip) => titleOf(trip.vehicle)))].join(', ');
  const way = visit.fromBerth === visit.toBerth ? `berth ${visit.fromBerth} and back` : `berth ${visit.fromBerth} to ${visit.toBerth}`;
  const weight = visit.weightKg > 0 ? ` · ${withUnit(fixed(visit.weightKg, 0), 'kg')}` : '';
  return `${way}${vehicles ? ` · ${vehicles}` : ''}${weight}`;
}
