import { useId, useState } from 'react';
import type { SheetsAnswer } from '../../desk/contract.ts';
import type { RecipeAsked } from '../ask/questions.ts';

interface Props { readonly choices: SheetsAnswer['choices']; readonly asked: RecipeAsked; readonly ask: (asked: RecipeAsked) => void }

/** For which crop, with which water, how strong, how much. */
export function RecipeForm({ choices, asked, ask }: Props) {
  const [draft, write] = useState(asked);
  return (
    <form className="recipe-form no-print" onSubmit={(event) => { event.preventDefault(); ask({ ...draft, moves: {} }); }}>
      <Choice label="Crop" value={draft.crop} options={choices.crops} write={(crop) => write({ ...draft, crop })} />
      <Choice label="Table of the crop card" value={draft.table} options={[{ id: 'target', title: 'target around the roots' }, { id: 'feed', title: 'feed for what the crop took' }]} write={(table) => write({ ...draft, table: table === 'feed' ? 'feed' : 'target' })} />
      <Choice label="Water" value={draft.water} options={choices.waters} write={(water) => write({ ...draft, water })} />
      <Amount label="Litres of feed from one litre" value={draft.factor} least={10} most={300} write={(factor) => write({ ...draft, factor })} />
      <Amount label="Litres in each tank" value={draft.tankL} least={5} most={10_000} write={(tankL) => write({ ...draft, tankL })} />
      <button type="submit" className="main">Work out the recipe</button>
    </form>
  );
}

function Choice({ label, value, options, write }: { readonly label: string; readonly value: string; readonly options: readonly { readonly id: string; readonly title: string }[]; readonly write: (id: string) => void }) {
  const field = useId();
  return <div><label htmlFor={field}>{label}</label><select id={field} value={value} onChange={(event) => write(event.target.value)}>{options.map(({ id, title }) => <option key={id} value={id}>{title}</option>)}</select></div>;
}

function Amount({ label, value, least, most, write }: { readonly label: string; readonly value: number; readonly least: number; readonly most: number; readonly write: (value: number) => void }) {
  const [text, setText] = useState(String(value));
  const field = useId();
  return <div><label htmlFor={field}>{label}</label><input id={field} type="number" inputMode="decimal" required min={least} max={most} step="any" value={text} onChange={(event) => { setText(event.target.value); if (event.target.value !== '') write(Number(event.target.value)); }} /></div>;
}
