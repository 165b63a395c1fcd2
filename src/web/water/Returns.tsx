import { useState } from 'react';
import type { ReturnPlan } from '../../desk/contract.ts';
import { BasinLink } from '../parts/BasinLink.tsx';
import { Section } from '../parts/Section.tsx';
import { Status } from '../parts/Sign.tsx';
import { usePrinting } from '../parts/usePrinting.ts';
import { Why } from '../parts/Why.tsx';
import { asSentence, count, litres } from '../words/figures.ts';

const AT_FIRST = 8;

/** Where the solution goes that leaves basins today, and why there. */
export function Returns({ returns }: { readonly returns: ReturnPlan }) {
  const [all, showAll] = useState(false);
  const printing = usePrinting();
  const { routes } = returns;
  const some = all || printing ? routes : routes.slice(0, AT_FIRST);
  return (
    <Section title="Where drained solution goes" aside={<>{count(routes.length, 'batch', 'batches')} <Why source={returns.why} of="where drained solution goes" /></>}>
      <p>{returns.sentence}</p>
      {routes.length > 0 && (
        <ul className="returns">
          {some.map((route) => (
            <li key={route.visit + route.basin}>
              <BasinLink basin={route.basin} />
              <span className="figures">{litres(route.litres)}</span>
              <Status shape={route.to === undefined ? 'cross' : 'tick'}>{route.to === undefined ? 'to discharge' : `into ${route.title}`}</Status>
              <span>{asSentence(route.reason)}{route.violation === undefined ? '' : ` ${asSentence(route.violation)}`}</span>
            </li>
          ))}
        </ul>
      )}
      {some.length < routes.length && <div className="choices no-print"><button type="button" onClick={() => showAll(true)}>Show all {count(routes.length, 'batch', 'batches')}</button></div>}
    </Section>
  );
}
