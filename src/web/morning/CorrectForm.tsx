import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { FormEvent } from 'react';
import type { AcceptedAnswer, CorrectStopRequest } from '../../desk/contract.ts';
import { tellDesk } from '../ask/askDesk.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { usePerson } from '../shell/WhoAmI.tsx';

interface Props { readonly outcome: 'done' | 'failed'; readonly stop: number; readonly visit: string; readonly planId: string; readonly where: string; readonly close: () => void }

const WORDS = { open: 'It is not done yet', done: 'It was done as planned', failed: 'It failed' } as const;

/** A stop was marked wrongly: what is true instead, and why. The wrong mark stays in the journal with the correction beside it. */
export function CorrectForm({ outcome, stop, visit, planId, where, close }: Props) {
  const person = usePerson();
  const cache = useQueryClient();
  const correct = useMutation({
    mutationFn: (request: CorrectStopRequest) => tellDesk<AcceptedAnswer>(`/api/stops/${[planId, visit, String(stop)].map(encodeURIComponent).join('/')}/correct`, request),
    onSuccess: async () => { await cache.invalidateQueries(); close(); },
  });
  const send = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    if (person) correct.mutate({ by: person.id, now: String(form.get('now')) as CorrectStopRequest['now'], reason: String(form.get('reason')) });
  };
  return (
    <form className="stop-form" onSubmit={send} aria-label={`${where}: correct what is marked`}>
      <label>What is true<select name="now">{(['open', 'done', 'failed'] as const).filter((now) => now !== outcome).map((now) => <option key={now} value={now}>{WORDS[now]}</option>)}</select></label>
      <label>Why it was marked wrongly<input name="reason" required minLength={3} maxLength={500} autoComplete="off" /></label>
      <div className="stop-buttons">
        <button type="submit" className="main" disabled={correct.isPending}>Record the correction</button>
        <button type="button" onClick={close}>Cancel</button>
      </div>
      {correct.error && <Trouble error={correct.error} />}
    </form>
  );
}
