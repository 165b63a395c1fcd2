import type { ReturnPlan } from '../../desk/contract.ts';
import { BasinLink } from '../parts/BasinLink.tsx';
import { Section } from '../parts/Section.tsx';
import { Status } from '../parts/Sign.tsx';
import { Why } from '../parts/Why.tsx';
import { asSentence, count, litres } from '../words/figures.ts';

/** Where the solution goes that leaves basins today, and why there. */
export function Returns({ returns }: { readonly returns: ReturnPlan }) {
  const { routes } = returns;
  return (
    <Section title="Where drained solution goes" aside={<>{count(routes.length, 'batch', 'batches')} <Why source={returns.why} of="where drained solution goes" /></>}>
      <p>{returns.sentence}</p>
      {routes.length > 0 && (
        <ul className="returns">
          {routes.map((route) => (
            <li key={route.visit + route.basin}>
              <BasinLink basin={route.basin} />
              <span className="figures">{litres(route.litres)}</span>
              <Status shape={route.to === undefined ? 'cross' : 'tick'}>{route.to === undefined ? 'to discharge' : `into ${route.title}`}</Status>
              <span>{asSentence(route.reason)}{route.violation === undefined ? '' : ` ${asSentence(route.violation)}`}</span>
            </li>
          ))}
        </ul>
      )}
    </Section>
  );
}
