import type { DecisionView } from '../../desk/contract.ts';
import { Section } from '../parts/Section.tsx';
import { dateTime } from '../words/times.ts';

/** What was decided on the lot, what was expected then, and what has come of it. */
export function Decisions({ decisions, zone }: { readonly decisions: readonly DecisionView[]; readonly zone: string }) {
  if (decisions.length === 0) return null;
  return (
    <Section title="Decisions" aside="newest first; the last one holds">
      <ul className="decisions">
        {decisions.map((decision) => (
          <li key={decision.at}>
            <p><b>{decision.title}</b>{decision.holds ? '' : ' (replaced)'}<br /><span className="soft">{decision.by}, {dateTime(decision.at, zone)}</span></p>
            <p>Because: {decision.why}</p>
            <div><p className="soft small">Expected then</p><ul className="plain">{decision.expected.map((words) => <li key={words}>{words}</li>)}</ul></div>
            <div><p className="soft small">So far</p>{decision.since.length === 0 ? <p>nothing to compare yet</p> : <ul className="plain">{decision.since.map((words) => <li key={words}>{words}</li>)}</ul>}</div>
          </li>
        ))}
      </ul>
    </Section>
  );
}
