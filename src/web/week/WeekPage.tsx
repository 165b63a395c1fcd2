import { useQuery } from '@tanstack/react-query';
import type { WeekView } from '../../desk/contract.ts';
import { weekQuestion } from '../ask/questions.ts';
import { Asked } from '../parts/Asked.tsx';
import { Folds } from '../parts/Folds.tsx';
import { Section } from '../parts/Section.tsx';
import { count } from '../words/figures.ts';
import { longDate } from '../words/times.ts';
import { LoadFigure } from './LoadFigure.tsx';
import { LoadTable } from './LoadTable.tsx';
import { MovedVisits } from './MovedVisits.tsx';
import './week.css';

/** What the next two weeks ask of stations, crew and vehicles, where that is too much, and which visits could move. */
export function WeekPage() {
  const query = useQuery(weekQuestion);
  return <Asked query={query} what="the two weeks ahead">{({ week }) => (week === undefined ? <><h1>The two weeks ahead</h1><p>No plan has been computed yet.</p></> : <WeekSheet week={week} />)}</Asked>;
}

function WeekSheet({ week }: { readonly week: WeekView }) {
  const moved = week.dates.map((date) => ({ date, visits: week.visits.filter((visit) => visit.date === date && visit.to !== undefined) })).filter(({ visits }) => visits.length > 0);
  const groups = moved.map(({ date, visits }, place) => ({ key: date, title: longDate(date), note: `${count(visits.length, 'visit')} could move`, items: visits, open: place < 1 }));
  return (
    <>
      <h1>The two weeks ahead</h1>
      <p className="sentence">{week.sentence}</p>
      {week.overruns.length > 0 && <Section title="Where it overruns"><ul className="plain">{week.overruns.map(({ date, resource, sentence }) => <li key={`${date} ${resource}`}>{sentence}</li>)}</ul></Section>}
      <Section title="Loads by day" aside="solid: within the shift; hatched with a mark: over it; stepped line: what the shift has; short line: after the moves">
        <div className="loads">{week.resources.map((resource) => <LoadFigure key={resource.id} resource={resource} dates={week.dates} />)}</div>
      </Section>
      {groups.length > 0 && <Section title="What could move" aside="within the days that each visit allows"><Folds groups={groups} many="days">{(visits) => <MovedVisits visits={visits} />}</Folds></Section>}
      <Section title="The same in figures" aside="hours asked for, of hours in the shift"><LoadTable week={week} /></Section>
      <Section title="What this assumes">{week.notes.map((note) => <p key={note}>{note}</p>)}</Section>
    </>
  );
}
