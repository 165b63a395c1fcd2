import { useState } from 'react';
import type { PlannedStop, SheetVisit, StopOutcomeView } from '../../desk/contract.ts';
import { Status } from '../parts/Sign.tsx';
import { clockTime } from '../words/times.ts';
import { StopForm } from './StopForm.tsx';

interface Props {
  readonly stop: PlannedStop;
  readonly visit: SheetVisit;
  readonly planId: string;
  readonly title: string;
  readonly zone: string;
  readonly outcome: StopOutcomeView | undefined;
  readonly markable: boolean;
  /** Another station was chosen: this stop is shown for its time only. */
  readonly quiet: boolean;
}

/** One stop: when and where, and either what became of it or the two buttons that say so. */
export function StopRow({ stop, visit, planId, title, zone, outcome, markable, quiet }: Props) {
  const [form, openForm] = useState<'done' | 'failed'>();
  const where = `${title} of basin ${visit.basin}`;
  return (
    <li className={`stop${quiet ? ' quiet' : ''}`}>
      <p className="stop-words"><span className="figures">{clockTime(stop.startAt, zone)}–{clockTime(stop.endAt, zone)}</span> {title}</p>
      {outcome && <p className="stop-result"><Status shape={outcome.result === 'done' ? 'tick' : 'cross'}>{outcome.result}</Status> <span className="soft small">{outcomeWords(outcome, zone)}</span></p>}
      {!outcome && markable && !quiet && !form && (
        <div className="stop-buttons no-print">
          <button type="button" onClick={() => openForm('done')} aria-label={`${where}: done`}>Done</button>
          <button type="button" onClick={() => openForm('failed')} aria-label={`${where}: failed`}>Failed</button>
        </div>
      )}
      {!outcome && form && <StopForm result={form} stop={stop} visit={visit.visit} planId={planId} where={where} close={() => openForm(undefined)} />}
    </li>
  );
}

const outcomeWords = (outcome: StopOutcomeView, zone: string): string =>
  [outcome.by && `${outcome.by}, ${clockTime(outcome.at, zone)}`, outcome.reason].filter(Boolean).join(': ');
