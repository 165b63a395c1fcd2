import type { PlanSheet } from '../../desk/contract.ts';
import { BasinLink } from '../parts/BasinLink.tsx';
import { Section } from '../parts/Section.tsx';
import { Status } from '../parts/Sign.tsx';
import { asSentence } from '../words/figures.ts';

/** What does not fit into the day, and why. */
export function LeftOut({ leftOut }: { readonly leftOut: PlanSheet['leftOut'] }) {
  return (
    <Section title="Left out" aside="what does not fit into this shift, and why">
      {leftOut.length === 0 ? <p>Nothing: every visit that was asked for is in the plan.</p> : (
        <ul className="left-out">
          {leftOut.map((is) => (
            <li key={is.visit}>
              <BasinLink basin={is.basin} />
              <span>{is.must ? <Status shape="flag">must go today</Status> : <Status shape="ring">can wait</Status>}</span>
              <span>{asSentence(`${is.what}: ${is.reason}`)}</span>
            </li>
          ))}
        </ul>
      )}
    </Section>
  );
}
