import { useEffect, useState, type FormEvent } from 'react';
import type { PlannedStop, SheetVisit } from '../../../desk/contract.ts';
import { useTitleOf } from '../../ask/useTitleOf.ts';
import { clockTime } from '../../words/times.ts';
import { MoveAnswer } from './MoveAnswer.tsx';
import { stationsLike, type StopMove } from './stopMove.ts';
import { useStopMoves } from './useStopMoves.ts';

/** Moves a stop by writing where and when: for a phone, and for whoever would rather write than drag. */
export function MoveForm({ stop, visit, close }: { readonly stop: PlannedStop; readonly visit: SheetVisit; readonly close: () => void }) {
  const moves = useStopMoves();
  const titleOf = useTitleOf();
  const [asked, setAsked] = useState(false);
  const isPutBack = asked && moves?.move === undefined;
  useEffect(() => { if (isPutBack) close(); }, [isPutBack, close]);
  if (moves === undefined) return null;
  const { sheet } = moves.plan;
  const clock = clockTime(stop.startAt, sheet.timeZone);
  const send = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    setAsked(true);
    moves.tryIt(moveTo(stop, visit, sheet.timeline.startAt, minutesOf(String(form.get('time'))) - minutesOf(clock), String(form.get('station') ?? stop.station)));
  };
  const change = () => { setAsked(false); moves.cancel(); };
  const stations = stationsLike(sheet, stop.station);
  return (
    <form className="stop-form" onSubmit={send} aria-label={`Move basin ${visit.basin} at ${titleOf(stop.station)}`}>
      <label>Begins at<input name="time" type="time" required defaultValue={clock} onChange={change} /></label>
      {stations.length > 1 && <label>At<select name="station" defaultValue={stop.station} onChange={change}>{stations.map((id) => <option key={id} value={id}>{titleOf(id)}</option>)}</select></label>}
      {moves.move === undefined && <div className="stop-buttons"><button type="submit" className="main">Try it</button><button type="button" onClick={close}>Cancel</button></div>}
      <MoveAnswer moves={moves} takesFocus={false} />
    </form>
  );
}

const minutesOf = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));

function moveTo(stop: PlannedStop, visit: SheetVisit, zeroAt: string, byMinutes: number, station: string): StopMove {
  const seconds = (at: string) => (Date.parse(at) - Date.parse(zeroAt)) / 1000;
  const plannedS = seconds(stop.startAt);
  const startS = byMinutes === 0 ? plannedS : Math.floor(plannedS / 60) * 60 + byMinutes * 60;
  return { visit: visit.visit, basin: visit.basin, stop: stop.stop, station, startS, lengthS: seconds(stop.endAt) - plannedS, planned: { station: stop.station, startS: plannedS, track: 0 } };
}
