import { count } from '../words/figures.ts';
import { clockTime } from '../words/times.ts';
import type { ChangeRow } from './changeRows.ts';

/** More than so many changes are folded away until somebody asks for them. */
const MOST_OPEN = 6;

/** Before and after of a re-plan, side by side. */
export function ChangeTable({ rows, zone }: { readonly rows: readonly ChangeRow[]; readonly zone: string }) {
  if (rows.length === 0) return null;
  const clock = (at: string | undefined) => (at === undefined ? 'none' : clockTime(at, zone));
  return (
    <details className="changes" open={rows.length <= MOST_OPEN}>
      <summary>{count(rows.length, 'visit')} changed against what people were told</summary>
      <table>
        <thead><tr><th scope="col">Basin</th><th scope="col">Told</th><th scope="col">New</th><th scope="col">Why</th></tr></thead>
        <tbody>{rows.map((row) => <tr key={row.visit}><th scope="row">{row.basin}</th><td>{clock(row.toldAt)}</td><td>{clock(row.newAt)}</td><td>{row.why}</td></tr>)}</tbody>
      </table>
    </details>
  );
}
