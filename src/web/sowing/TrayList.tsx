import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState, type FormEvent } from 'react';
import type { AcceptedAnswer, TrayView, WithdrawRequest } from '../../desk/contract.ts';
import { tellDesk } from '../ask/askDesk.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { usePerson } from '../shell/WhoAmI.tsx';
import { bare } from '../words/figures.ts';
import { shortDate } from '../words/times.ts';

/** What was sown and waits in its trays; the morning plan of the day on which it is due sets it into basins. */
export function TrayList({ trays, today }: { readonly trays: readonly TrayView[]; readonly today: string }) {
  if (trays.length === 0) return <p>Nothing is in trays. What is recorded as sown above stands here until the plan has set it into basins.</p>;
  return <ul className="sowings">{trays.map((tray) => <Tray key={tray.lot} tray={tray} today={today} />)}</ul>;
}

function Tray({ tray: { lot, cropTitle, sown, seeds, plants, due }, today }: { readonly tray: TrayView; readonly today: string }) {
  const [open, setOpen] = useState(false);
  return (
    <li className="sowing">
      <p><b>{lot}</b><br /><span className="soft">{cropTitle}</span></p>
      <p>sown {shortDate(sown)}<br /><span className="soft"><span className="figures">{bare(seeds)}</span> seeds for <span className="figures">{bare(plants)}</span> plants</span></p>
      <p>{due <= today ? <b>due in basins {due === today ? 'today' : `since ${shortDate(due)}`}</b> : <>due in basins {shortDate(due)}</>}</p>
      <div className="sowing-do no-print">{open ? <NothingForm lot={lot} close={() => setOpen(false)} /> : <button type="button" aria-label={`${lot}: came to nothing`} onClick={() => setOpen(true)}>Came to nothing</button>}</div>
    </li>
  );
}

function NothingForm({ lot, close }: { readonly lot: string; readonly close: () => void }) {
  const person = usePerson();
  const cache = useQueryClient();
  const withdraw = useMutation({
    mutationFn: (request: WithdrawRequest) => tellDesk<AcceptedAnswer>(`/api/sowing/lots/${encodeURIComponent(lot)}/withdraw`, request),
    onSuccess: async () => { await cache.invalidateQueries(); close(); },
  });
  const send = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    if (person) withdraw.mutate({ reason: String(new FormData(event.currentTarget).get('reason')), by: person.id });
  };
  return (
    <form className="sown-form" onSubmit={send} aria-label={`${lot}: came to nothing`}>
      <label>What became of it<input name="reason" required minLength={3} maxLength={500} autoComplete="off" autoFocus /></label>
      {!person && <p role="alert">Say who you are at the top of the page first.</p>}
      {person && !person.mayMark && <p role="alert">{person.name} may read this; operators, shift leads and growers record what became of it.</p>}
      <div className="stop-buttons">
        <button type="submit" className="main" disabled={!person?.mayMark || withdraw.isPending}>Record</button>
        <button type="button" onClick={close}>Cancel</button>
      </div>
      {withdraw.error && <Trouble error={withdraw.error} />}
    </form>
  );
}
