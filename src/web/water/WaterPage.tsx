import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import type { WaterAnswer } from '../../desk/contract.ts';
import { planQuestion, waterQuestion } from '../ask/questions.ts';
import { Asked } from '../parts/Asked.tsx';
import { Section } from '../parts/Section.tsx';
import { Why } from '../parts/Why.tsx';
import { BalanceFigure } from './BalanceFigure.tsx';
import { SaltCharts } from './SaltCharts.tsx';
import { Returns } from './Returns.tsx';
import { Tanks } from './Tanks.tsx';
import { WaterFeeds } from './WaterFeeds.tsx';
import './water.css';

/** Water: what is in the tanks, what goes into the basins today, where it went, and where salt is heading. */
export function WaterPage() {
  const query = useQuery(waterQuestion);
  const { data: plan } = useQuery(planQuestion);
  return <Asked query={query} what="the water">{(water) => <Water water={water} zone={plan?.greenhouse.timeZone ?? 'UTC'} />}</Asked>;
}

function Water({ water, zone }: { readonly water: WaterAnswer; readonly zone: string }) {
  return (
    <>
      <h1 className="only-read">Water</h1>
      <p className="sentence">{water.sentence} <Why source={water.why} of="water today" /></p>
      <p className="choices no-print">
        <Link to="/water/sheets" search={{ tank: undefined }} className="button">Mixing sheets of the tanks</Link>
        <Link to="/water/recipe" className="button">Concentrates for a crop</Link>
      </p>
      <Tanks water={water} zone={zone} />
      <Section title="Where water and nutrients go" aside={water.account === undefined ? 'not computed yet' : <>in, through the basins, out <Why source={water.account.why} of="the balance of water and nutrients" /></>}>
        {water.account === undefined ? <p>No balance has been computed yet.</p> : <BalanceFigure account={water.account} components={water.components} />}
      </Section>
      <SaltCharts tanks={water.tanks} components={water.components} date={water.date} />
      <WaterFeeds water={water} zone={zone} />
      {water.returns && <Returns returns={water.returns} />}
    </>
  );
}
