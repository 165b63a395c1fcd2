import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useEffect, useRef, type FormEvent } from 'react';
import type { AcceptedAnswer, MarkStopRequest, PlannedStop } from '../../desk/contract.ts';
import { tellDesk } from '../ask/askDesk.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { usePerson } from '../shell/WhoAmI.tsx';
import { actualFields, readMark } from './readMark.ts';

interface Props {
  readonly result: 'done' | 'failed';
  readonly stop: PlannedStop;
  readonly visit: string;
  readonly planId: string;
  readonly where: string;
  readonly close: () => void;
}

/** A second step before a stop is written to the journal, where nothing can be taken back: what was different, or what went wrong. */
export function StopForm({ result, stop, visit, planId, where, close }: Props) {
  const person = usePerson();
  const cache = useQueryClient();
  const first = useRef<HTMLButtonElement>(null);
  const mark = useMutation({
    mutationFn: (request: MarkStopRequest) => tellDesk<AcceptedAnswer>(`/api/stops/${[planId, visit, String(stop.stop)].map(encodeURIComponent).join('/')}`, request),
    onSuccess: async () => { await cache.invalidateQueries(); close(); },
  });
  useEffect(() => first.current?.focus(), []);
  const send = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    if (person) mark.mutate(readMark(result, person.id, new FormData(event.currentTarget)));
  };
  return (
    <form className="stop-form" onSubmit={send} aria-label={`${where}: ${result}`}>
      {result === 'failed'
        ? <label>What went wrong<input name="reason" required minLength={3} maxLength={500} autoComplete="off" /></label>
        : actualFields(stop.kind).map((field) => <label key={field.name}>{field.label}<input name={field.name} type="number" inputMode="decimal" min={0} step={field.step} placeholder="as planned" autoComplete="off" /></label>)}
      {!person && <p role="alert">Say who you are at the top of the page first.</p>}
      {person && !person.mayMark && <p role="alert">{person.name} may read this; operators, shift leads and growers mark stops.</p>}
      <div className="stop-buttons">
        <button ref={first} type="submit" className="main" disabled={!person?.mayMark || mark.isPending}>{result === 'done' ? 'Record as done' : 'Record as failed'}</button>
        <button type="button" onClick={close}>Cancel</button>
      </div>
      {mark.error && <Trouble error={mark.error} />}
    </form>
  );
}
