import type { JournalLine } from '../../desk/contract.ts';
import { Section } from '../parts/Section.tsx';
import { dateTime } from '../words/times.ts';

/** What the journal says of this basin, newest first. */
export function BasinHistory({ history, zone }: { readonly history: readonly JournalLine[]; readonly zone: string }) {
  return (
    <Section title="History" aside="from the journal, newest first">
      {history.length === 0 ? <p>The journal says nothing of this basin yet.</p> : (
        <ul className="history">
          {history.map((line) => <li key={line.id}><span className="figures soft">{dateTime(line.happenedAt, zone)}</span><span>{line.sentence}</span><span className="soft small figures">entry {line.sequence}</span></li>)}
        </ul>
      )}
    </Section>
  );
}
