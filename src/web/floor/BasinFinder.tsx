import { useId } from 'react';
import type { FloorAnswer } from '../../desk/contract.ts';

/** Finds a basin by its number. */
export function BasinFinder({ floor, pick }: { readonly floor: FloorAnswer; readonly pick: (basin: string) => void }) {
  const id = useId();
  const find = (typed: string) => {
    const wanted = typed.trim().toUpperCase();
    const found = floor.basins.find((is) => is.basin.toUpperCase() === wanted);
    if (found) pick(found.basin);
  };
  return (
    <div className="finder">
      <label htmlFor={id}>Basin number</label>
      <input id={id} list={`${id}-all`} autoComplete="off" placeholder={floor.basins[0]?.basin} onChange={(event) => find(event.target.value)} />
      <datalist id={`${id}-all`}>{floor.basins.map((is) => <option key={is.basin} value={is.basin} />)}</datalist>
    </div>
  );
}
