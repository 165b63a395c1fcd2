import { useQuery } from '@tanstack/react-query';
import { useState, type FormEvent } from 'react';
import type { SowingAnswer, SowingChangesAnswer } from '../../desk/contract.ts';
import { askDesk } from '../ask/askDesk.ts';
import { Asked } from '../parts/Asked.tsx';

const USUAL_LEAD_DAYS = 56;
const inDaysFrom = (date: string, days: number) => new Date(Date.parse(`${date}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);

/** Asks the desk what an order more, or a lot that fails, would change. */
export function WhatIf({ crops, lots, from }: Pick<SowingAnswer, 'crops' | 'lots'> & { readonly from: string }) {
  const [asked, ask] = useState<string>();
  const query = useQuery({ queryKey: ['sowing-if', asked], queryFn: () => askDesk<SowingChangesAnswer>(asked!), enabled: asked !== undefined });
  const submit = (path: string) => (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    ask(`${path}?${new URLSearchParams([...new FormData(event.currentTarget)].map(([key, value]) => [key, String(value)]))}`);
  };
  return (
    <>
      <form className="what-if" onSubmit={submit('/api/sowing/with-order')}>
        <label>Crop <select name="crop">{crops.map(({ id, title }) => <option key={id} value={id}>{title}</option>)}</select></label>
        <label>Units <input name="units" type="number" min="1" step="1" defaultValue="200" required /></label>
        <label>Due <input name="due" type="date" min={from} defaultValue={inDaysFrom(from, USUAL_LEAD_DAYS)} required /></label>
        <button type="submit">If this were ordered</button>
      </form>
      {lots.length > 0 && (
        <form className="what-if" onSubmit={submit('/api/sowing/without-lot')}>
          <label>Lot <select name="lot">{lots.map((lot) => <option key={lot} value={lot}>{lot}</option>)}</select></label>
          <button type="submit">If this lot failed</button>
        </form>
      )}
      {asked !== undefined && <div className="what-if-answer" role="status"><Asked query={query} what="what would change; the plan is worked out again">{(changes) => <ul className="plain">{changes.sentences.map((sentence) => <li key={sentence}>{sentence}</li>)}</ul>}</Asked></div>}
    </>
  );
}
