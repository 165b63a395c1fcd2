import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useEffect, useRef, type FormEvent } from 'react';
import type { AcceptedAnswer, Sowing, SownRequest } from '../../desk/contract.ts';
import { tellDesk } from '../ask/askDesk.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { usePerson } from '../shell/WhoAmI.tsx';
import { lotCode } from './lotCode.ts';

/** The second step before a sowing goes to the journal: the lot's code, and what was really sown. */
export function SownForm({ sowing, today, close }: { readonly sowing: Sowing; readonly today: string; readonly close: () => void }) {
  const person = usePerson();
  const cache = useQueryClient();
  const first = useRef<HTMLInputElement>(null);
  const record = useMutation({
    mutationFn: (request: SownRequest) => tellDesk<AcceptedAnswer>('/api/sowing/lots', request),
    onSuccess: async () => { await cache.invalidateQueries(); close(); },
  });
  useEffect(() => first.current?.focus(), []);
  const send = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget), words = (name: string) => String(form.get(name));
    if (person) record.mutate({ lot: words('lot'), crop: sowing.crop, sown: words('sown'), seeds: Number(words('seeds')), plants: Number(words('plants')), by: person.id });
  };
  return (
    <form className="sown-form" onSubmit={send} aria-label={`${sowing.cropTitle}: sown`}>
      <label>Lot<input ref={first} name="lot" required maxLength={48} defaultValue={lotCode(sowing.cropTitle, today)} autoComplete="off" /></label>
      <label>Sown<input name="sown" type="date" required max={today} defaultValue={today} /></label>
      <label>Seeds<input name="seeds" type="number" inputMode="numeric" required min={1} step={1} defaultValue={sowing.seeds} /></label>
      <label>For plants<input name="plants" type="number" inputMode="numeric" required min={1} step={1} defaultValue={sowing.plants} /></label>
      {!person && <p role="alert">Say who you are at the top of the page first.</p>}
      {person && !person.mayMark && <p role="alert">{person.name} may read this; operators, shift leads and growers record what was sown.</p>}
      <div className="stop-buttons">
        <button type="submit" className="main" disabled={!person?.mayMark || record.isPending}>{record.isPending ? 'Writing to the journal …' : 'Record as sown'}</button>
        <button type="button" onClick={close}>Cancel</button>
      </div>
      {record.error && <Trouble error={record.error} />}
    </form>
  );
}
