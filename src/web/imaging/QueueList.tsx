import { Link } from '@tanstack/react-router';
import type { ScanJob, ScanJobState } from '../../desk/contract.ts';
import { Section } from '../parts/Section.tsx';
import { Status, type SignShape } from '../parts/Sign.tsx';
import { count, fixed, percent, withUnit } from '../words/figures.ts';
import { dateTime } from '../words/times.ts';
import { NEWEST_SCAN } from './scanSearch.ts';

const STATES: Readonly<Record<ScanJobState, { readonly shape: SignShape; readonly word: string }>> = {
  running: { shape: 'half', word: 'measuring' }, queued: { shape: 'ring', word: 'waiting' }, refused: { shape: 'cross', word: 'refused' }, done: { shape: 'tick', word: 'measured' },
};
const SHOWN = 12;

/** Clouds on their way, and what became of the last ones: what is worked on first, then what waits, then the newest of the rest. */
export function QueueList({ queue, zone }: { readonly queue: readonly ScanJob[]; readonly zone: string }) {
  const waiting = queue.filter(({ state }) => state === 'queued' || state === 'running').length;
  const order = (job: ScanJob): number => ['running', 'queued', 'refused', 'done'].indexOf(job.state);
  const sorted = [...queue].sort((a, b) => order(a) - order(b) || (b.endedAt ?? b.arrivedAt).localeCompare(a.endedAt ?? a.arrivedAt));
  return (
    <Section title="Clouds" aside={waiting === 0 ? 'none waits' : `${count(waiting, 'cloud')} on the way`}>
      {queue.length === 0 && <p>No cloud came within the last day.</p>}
      <ul className="scan-queue">
        {sorted.slice(0, SHOWN).map((job) => (
          <li key={job.scan}>
            <Status shape={STATES[job.state].shape}>{STATES[job.state].word}</Status>
            <div>
              <p><b>{job.file}</b> <span className="soft">{withUnit(fixed(job.bytes / 1e6, 1), 'MB')}, came {dateTime(job.arrivedAt, zone)}</span>{job.state === 'done' && job.basin && <> <Link to="/imaging/$basin" params={{ basin: job.basin }} search={{ ...NEWEST_SCAN, scan: job.scan }}>Basin {job.basin}</Link></>}</p>
              {job.state === 'running' && <p>{job.step ?? 'measuring'}, {percent(job.share)}<span className="progress" role="progressbar" aria-label={`Measuring ${job.file}`} aria-valuenow={Math.round(100 * job.share)} aria-valuemin={0} aria-valuemax={100}><span style={{ width: `${100 * job.share}%` }} /></span></p>}
              {job.refusals && job.refusals.length > 0 && <ul>{job.refusals.map((is) => <li key={is.path + is.message}>{is.message}</li>)}</ul>}
            </div>
          </li>
        ))}
      </ul>
      {sorted.length > SHOWN && <p className="soft">And {sorted.length - SHOWN} more.</p>}
    </Section>
  );
}
