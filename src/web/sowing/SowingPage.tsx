import { useQuery } from '@tanstack/react-query';
import type { SowingAnswer } from '../../desk/contract.ts';
import { sowingQuestion } from '../ask/questions.ts';
import { Asked } from '../parts/Asked.tsx';
import { Folds } from '../parts/Folds.tsx';
import { Section } from '../parts/Section.tsx';
import { fixed, percent, withUnit } from '../words/figures.ts';
import { CapacityFigure } from './CapacityFigure.tsx';
import { ShortTable } from './ShortTable.tsx';
import { SowingRow } from './SowingRow.tsx';
import { TrayList } from './TrayList.tsx';
import { weekNote, weeksOfSowings } from './weeksOfSowings.ts';
import { WhatIf } from './WhatIf.tsx';
import { dayMonth, daysBetween } from '../words/times.ts';
import './sowing.css';

/** What to sow in the weeks ahead, what binds, what more would be worth, and what an order more or a lot less would change. */
export function SowingPage() {
  const query = useQuery(sowingQuestion);
  return <Asked query={query} what="the sowing plan; it is worked out when first asked for, which takes some seconds">{(answer) => <SowingSheet answer={answer} />}</Asked>;
}

/** A sowing is recorded in the week in which it is due. */
const RECORDED_DAYS = 7;

function SowingSheet({ answer: { plan, crops, lots, trays } }: { readonly answer: SowingAnswer }) {
  const weeks = weeksOfSowings(plan.sowings, plan.date);
  const groups = weeks.map((week, place) => ({ key: week.from, title: `Week from ${dayMonth(week.from)}`, note: weekNote(week.sowings), items: week.sowings, open: place < 1 }));
  return (
    <>
      <h1>Sowing</h1>
      <p className="sentence">{plan.sentence}</p>
      <Section title="To sow" aside={`${plan.weeks} weeks; ready plants are held back as a buffer, so that orders are served with a chance of ${percent(plan.serviceLevel)} although lots may be late`}>
        {groups.length === 0 ? <p>Nothing needs to be sown.</p> : <Folds groups={groups} many="weeks">{(sowings) => <ul className="sowings">{sowings.map((sowing) => <SowingRow key={`${sowing.sowDate} ${sowing.crop} ${sowing.harvestFrom}`} sowing={sowing} today={daysBetween(plan.date, sowing.sowDate) < RECORDED_DAYS ? plan.date : undefined} />)}</ul>}</Folds>}
      </Section>
      <Section title="In trays" aside="sown and not in basins yet; the plan counts them and does not sow them again"><TrayList trays={trays} today={plan.date} /></Section>
      <Section title="Basins by week" aside="hatched: lots that stand; solid: lots to be sown; the line: what may be planned with">
        <div className="capacities">{plan.capacity.map((place) => <CapacityFigure key={place.place} place={place} />)}</div>
      </Section>
      <Section title="Not covered" aside="units of orders known and expected that no lot is likely to give, after what stands and what can still be sown"><ShortTable plan={plan} /></Section>
      <Section title="What more would be worth" aside="the plan solved again with it, in parts of basins">
        <ul className="plain">{plan.worth.map(({ title, sentence }) => <li key={title}>{sentence}</li>)}</ul>
      </Section>
      <Section title="What would change" aside="nothing of this is recorded"><WhatIf crops={crops} lots={lots} from={plan.date} /></Section>
      <Section title="How sure this is the best">
        <p>The plan costs {withUnit(fixed(plan.proof.cost, 0), plan.currency)} from today on, shortage counted; no plan under the same assumptions costs less than {withUnit(fixed(plan.proof.bound, 0), plan.currency)}: the gap is {withUnit(fixed(plan.proof.gapPct, 2), '%')} ({plan.proof.solver}).</p>
        {plan.notes.map((note) => <p key={note}>{note}</p>)}
      </Section>
    </>
  );
}
