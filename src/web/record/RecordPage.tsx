import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { ChainCheck, JournalAnswer } from '../../desk/contract.ts';
import { journalQuestion, planQuestion } from '../ask/questions.ts';
import { Asked } from '../parts/Asked.tsx';
import { Section } from '../parts/Section.tsx';
import { Status } from '../parts/Sign.tsx';
import { dateTime } from '../words/times.ts';
import './record.css';

/** The end of the journal, and whether its chain holds. */
export function RecordPage() {
  const [before, goBefore] = useState<number>();
  const query = useQuery(journalQuestion(before));
  const { data: plan } = useQuery(planQuestion);
  return (
    <>
      <h1>Record</h1>
      <p>Everything that happened, as it was written. Nothing here is ever changed or deleted; a correction is an entry of its own that names what it corrects.</p>
      <Asked query={query} what="the journal">
        {(journal) => <Journal journal={journal} zone={plan?.greenhouse.timeZone ?? 'UTC'} older={() => goBefore(journal.lines.at(-1)?.sequence)} newest={before === undefined ? undefined : () => goBefore(undefined)} />}
      </Asked>
    </>
  );
}

function Journal({ journal, zone, older, newest }: { readonly journal: JournalAnswer; readonly zone: string; readonly older: () => void; readonly newest: (() => void) | undefined }) {
  const last = journal.lines.at(-1)?.sequence ?? 1;
  return (
    <>
      <ChainWords chain={journal.chain} />
      <Section title="Journal" aside={`${journal.total} entries, newest first`}>
        {journal.lines.length === 0 && <p>Nothing was written yet.</p>}
        <ol className="journal">
          {journal.lines.map((line) => (
            <li key={line.id}>
              <span className="figures entry">{line.sequence}</span>
              <span className="figures soft">{dateTime(line.happenedAt, zone)}</span>
              <span>{line.sentence}{line.corrects && <> Corrects {entryWords(line.corrects, journal.lines)}.</>} <span className="soft small">by {line.recordedBy}</span></span>
              <code title={line.hash}>{line.hash.slice(0, 8)}</code>
            </li>
          ))}
        </ol>
        <div className="choices no-print">
          {newest && <button type="button" onClick={newest}>Newest</button>}
          {last > 1 && journal.lines.length > 0 && <button type="button" onClick={older}>Older entries</button>}
        </div>
      </Section>
    </>
  );
}

/** The number of the entry where it is on the page, else its id. */
function entryWords(id: string, lines: JournalAnswer['lines']): string {
  const entry = lines.find((line) => line.id === id);
  return entry === undefined ? `the older entry ${id}` : `entry ${entry.sequence}`;
}

function ChainWords({ chain }: { readonly chain: ChainCheck }) {
  if (chain.holds) return <p><Status shape="tick">The chain holds</Status> Each of {chain.events} entries carries the hash of the one before; the last is <code>{chain.lastHash.slice(0, 16)}</code>.</p>;
  return <div className="notice" role="alert"><p><Status shape="flag">The chain is broken</Status> at entry {chain.brokenAt}: {chain.because}. Entries from there on may have been altered outside this program; keep a copy of the folder as it is.</p></div>;
}
