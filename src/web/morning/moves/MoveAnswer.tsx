import { useEffect, useRef } from 'react';
import { useTitleOf } from '../../ask/useTitleOf.ts';
import { Status } from '../../parts/Sign.tsx';
import { Trouble } from '../../parts/Trouble.tsx';
import { count } from '../../words/figures.ts';
import { clockTime } from '../../words/times.ts';
import type { StopMove } from './stopMove.ts';
import type { StopMoves } from './useStopMoves.ts';

/** What comes of a move, in words, and the two ways on: keep it there and plan the rest around it, or put it back. */
export function MoveAnswer({ moves, takesFocus }: { readonly moves: StopMoves; readonly takesFocus: boolean }) {
  const { move, tried, kept, plan, keep, cancel } = moves;
  const first = useRef<HTMLButtonElement>(null);
  useEffect(() => { if (takesFocus && tried.data) first.current?.focus(); }, [takesFocus, tried.data]);
  if (move === undefined) return null;
  return (
    <div className="move-answer no-print" role="status" onKeyDown={(event) => { if (event.key === 'Escape') cancel(); }}>
      <p><b><MoveWords move={move} startAt={plan.sheet.timeline.startAt} zone={plan.sheet.timeZone} /></b></p>
      {tried.isIdle && <p className="soft">Let go of it, or press Enter, to try it. Escape puts it back.</p>}
      {tried.isPending && <p className="soft">Trying it …</p>}
      {tried.error && <Trouble error={tried.error} />}
      {tried.data && (
        <>
          {tried.data.breaks.length === 0
            ? <p><Status shape="tick">Nothing breaks.</Status> It can be done there while everything else stays as planned.</p>
            : <><p><Status shape="cross">{count(tried.data.breaks.length, 'thing')} would break</Status> if everything else stayed as planned:</p><ul className="breaks">{tried.data.breaks.map(({ sentence }) => <li key={sentence}>{sentence}</li>)}</ul></>}
          {tried.data.follows.length > 0 && <p className="soft">{tried.data.follows.join(' ')}</p>}
          <p className="soft small">Nothing is changed yet. Checked in {tried.data.tookMs} ms by the rules that every plan has to pass.</p>
        </>
      )}
      {(tried.data ?? tried.error) && (
        <div className="stop-buttons">
          {tried.data && <button ref={first} type="button" className="main" disabled={kept.isPending || tried.data.impossible.length > 0} onClick={keep}>{tried.data.impossible.length > 0 ? 'It cannot be kept there' : 'Keep it there and plan the rest around it'}</button>}
          <button type="button" onClick={cancel}>Put it back</button>
        </div>
      )}
      {kept.error && <Trouble error={kept.error} />}
    </div>
  );
}

function MoveWords({ move: { basin, station, startS, planned }, startAt, zone }: { readonly move: StopMove; readonly startAt: string; readonly zone: string }) {
  const titleOf = useTitleOf();
  const clock = (s: number) => clockTime(new Date(Date.parse(startAt) + s * 1000).toISOString(), zone);
  const from = station === planned.station ? clock(planned.startS) : `${titleOf(planned.station)}, ${clock(planned.startS)}`;
  return <>Basin {basin} at {titleOf(station)} from {clock(startS)} instead of {from}.</>;
}
