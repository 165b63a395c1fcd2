import { useState } from 'react';
import type { PlannedStop, SheetVisit, StopOutcomeView } from '../../desk/contract.ts';
import { useNameOf, usePerson } from '../shell/WhoAmI.tsx';
import { Status } from '../parts/Sign.tsx';
import { clockTime } from '../words/times.ts';
import { MoveForm } from './moves/MoveForm.tsx';
import { useMayMove } from './moves/useMayMove.ts';
import { CorrectForm } from './CorrectForm.tsx';
import { StopForm } from './StopForm.tsx';

interface Props {
  readonly stop: PlannedStop;
  readonly visit: SheetVisit;
  readonly planId: string;
  readonly title: string;
  readonly zone: string;
  readonly outcome: StopOutcomeView | undefined;
  readonly markable: boolean;
  /** What became of the stop before it; undefined where that is not marked yet, 'none' for the first stop. */
  readonly before: 'none' | 'done' | 'failed' | undefined;
  /** Another station was chosen: this stop is shown for its time only. */
  readonly quiet: boolean;
}

/** One stop: when and where, and either what became of it or the two buttons that say so. */
export function StopRow({ stop, visit, planId, title, zone, outcome, markable, before, quiet }: Props) {
  const [form, openForm] = useState<'done' | 'failed' | 'move' | 'correct'>();
  const nameOf = useNameOf();
  const mayMove = useMayMove();
  const mayCorrect = usePerson()?.mayMark === true;
  const where = `${title} of basin ${visit.basin}`;
  return (
    <li className={`stop${quiet ? ' quiet' : ''}`}>
      <p className="stop-words"><span className="figures">{clockTime(stop.startAt, zone)}–{clockTime(stop.endAt, zone)}</span> {title}</p>
      {outcome && <p className="stop-result"><Status shape={outcome.result === 'done' ? 'tick' : 'cross'}>{outcome.result}</Status> <span className="soft small">{outcomeWords(outcome, nameOf, zone)}</span></p>}
      {!outcome && !quiet && !form && (
        <div className="stop-buttons no-print">
          {markable && (before === 'none' || before === 'done') && <button type="button" onClick={() => openForm('done')} aria-label={`${where}: done`}>Done</button>}
          {markable && before !== undefined && <button type="button" onClick={() => openForm('failed')} aria-label={`${where}: failed`}>Failed</button>}
          {mayMove && <button type="button" onClick={() => openForm('move')} aria-label={`${where}: move`}>Move</button>}
        </div>
      )}
      {!outcome && form === 'move' && <MoveForm stop={stop} visit={visit} close={() => openForm(undefined)} />}
      {outcome && outcome.by !== '' && markable && mayCorrect && !quiet && form !== 'correct' && <div className="stop-buttons no-print"><button type="button" onClick={() => openForm('correct')} aria-label={`${where}: correct what is marked`}>Correct</button></div>}
      {outcome && form === 'correct' && <CorrectForm outcome={outcome.result} stop={stop.stop} visit={visit.visit} planId={planId} where={where} close={() => openForm(undefined)} />}
      {!outcome && form && form !== 'move' && form !== 'correct' && <StopForm result={form} stop={stop} visit={visit.visit} planId={planId} where={where} close={() => openForm(undefined)} />}
    </li>
  );
}

const outcomeWords = (outcome: StopOutcomeView, nameOf: (id: string) => string, zone: string): string =>
  [outcome.by && `${nameOf(outcome.by)}, ${clockTime(outcome.at, zone)}`, outcome.reason].filter(Boolean).join(': ');
