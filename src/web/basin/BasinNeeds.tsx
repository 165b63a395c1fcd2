import { Link } from '@tanstack/react-router';
import type { BasinAnswer } from '../../desk/contract.ts';
import { NEWEST_SCAN } from '../imaging/scanSearch.ts';
import { Section } from '../parts/Section.tsx';
import { Status, type SignShape } from '../parts/Sign.tsx';
import { Why } from '../parts/Why.tsx';
import { KIND_WORDS, URGENCY_WORDS } from '../words/kinds.ts';
import { asSentence } from '../words/figures.ts';
import { clockTime, shortDate } from '../words/times.ts';

const SHAPES: Readonly<Record<keyof typeof URGENCY_WORDS, SignShape>> = { must: 'flag', should: 'diamond', may: 'ring' };

/** What the basin needs and when it travels today. */
export function BasinNeeds({ basin, zone }: { readonly basin: BasinAnswer; readonly zone: string }) {
  return (
    <Section title="Needs and visits">
      {basin.needs.length === 0 && <p>No station needs to see this basin.</p>}
      <ul className="needs">
        {basin.needs.map((need) => (
          <li key={need.kind}>
            <Status shape={SHAPES[need.urgency]}>{KIND_WORDS[need.kind].work}</Status>
            <span>{asSentence(need.reason)} {asSentence(`${URGENCY_WORDS[need.urgency]}${need.dueDate ? `; a must from ${shortDate(need.dueDate)}` : ''}`)} <Why source={need.why} of={`why basin ${basin.outlook.basin} needs ${KIND_WORDS[need.kind].work.toLowerCase()}`} />{need.kind === 'imaging' && <> <Link to="/imaging/$basin" params={{ basin: basin.outlook.basin }} search={NEWEST_SCAN} preload={false}>What scans showed</Link></>}</span>
          </li>
        ))}
      </ul>
      {basin.visits.map((visit) => (
        <p key={visit.visit}>Travels at <b>{clockTime(visit.leavesBerthAt, zone)}</b>, back at {clockTime(visit.backAt, zone)}: {visit.stops.map((stop) => `${stop.kind} ${clockTime(stop.startAt, zone)}–${clockTime(stop.endAt, zone)}`).join(', ')}.</p>
      ))}
      {basin.visits.length === 0 && <p className="soft">It does not travel today.</p>}
    </Section>
  );
}
