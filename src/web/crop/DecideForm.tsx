import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useEffect, useRef, type FormEvent } from 'react';
import type { AcceptedAnswer, ActionCandidate, DecideRequest, LotAnswer } from '../../desk/contract.ts';
import { tellDesk } from '../ask/askDesk.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { usePerson } from '../shell/WhoAmI.tsx';

/** The second step before a decision goes to the journal: why. What a plan can do of it, later plans do. */
export function DecideForm({ answer, candidate, close }: { readonly answer: LotAnswer; readonly candidate: ActionCandidate; readonly close: () => void }) {
  const person = usePerson();
  const cache = useQueryClient();
  const first = useRef<HTMLInputElement>(null);
  const { lot } = answer.lot;
  const decide = useMutation({
    mutationFn: (request: DecideRequest) => tellDesk<AcceptedAnswer>(`/api/lots/${encodeURIComponent(lot)}/decide`, request),
    onSuccess: async () => { await cache.invalidateQueries(); close(); },
  });
  useEffect(() => first.current?.focus(), []);
  const send = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    if (person && answer.planId !== undefined) decide.mutate({ planId: answer.planId, action: candidate.action, by: person.id, why: String(new FormData(event.currentTarget).get('why')) });
  };
  return (
    <form className="decide-form" onSubmit={send} aria-label={`Decide on lot ${lot}: ${candidate.title}`}>
      <label>Why<input ref={first} name="why" required minLength={3} maxLength={500} autoComplete="off" /></label>
      {!person && <p role="alert">Say who you are at the top of the page first.</p>}
      {person && !person.mayApprove && <p role="alert">{person.name} may read this; a grower or a shift lead decides.</p>}
      <p className="soft small">{effectWords(candidate)}</p>
      <div className="stop-buttons">
        <button type="submit" className="main" disabled={!person?.mayApprove || decide.isPending}>{decide.isPending ? 'Writing to the journal …' : 'Record the decision'}</button>
        <button type="button" onClick={close}>Cancel</button>
      </div>
      {decide.error && <Trouble error={decide.error} />}
    </form>
  );
}

/** What the plan does of it by itself, and what people have to do. */
function effectWords({ order }: ActionCandidate): string {
  switch (order.do) {
    case 'nothing': return 'It is written down that this lot was looked at and left as it is.';
    case 'light': return 'Set the lamps on the climate computer yourself; forecasts count with the new light from tomorrow on.';
    case 'move': return 'The next plan takes its basins past the imaging station to free berths of that bay.';
    case 'cut': return 'The plan of that day has its harvest as a must.';
    case 'hold': return 'Plans do not cut it for its weight before that day.';
    case 'thin': return 'Take the plants out yourself and record the lot anew: no visit is planned for it.';
    case 'move-apart': return 'Tomorrow\u2019s plan moves its plants on.';
    case 'feed': return 'The feed stays as the recipe has it until its targets are changed on the crop card: this is written down as what was decided.';
    case 'discard': return 'The next plan clears its basins; no order counts on it any more. This cannot be taken back once they are cleared.';
  }
}
