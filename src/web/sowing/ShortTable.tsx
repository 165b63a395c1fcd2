import type { SowingPlan } from '../../desk/contract.ts';
import { bare } from '../words/figures.ts';
import { dayMonth } from '../words/times.ts';

/** Units that stay short, crop by week; weeks without any are left out. */
export function ShortTable({ plan }: { readonly plan: SowingPlan }) {
  const weeks = (plan.crops[0]?.weeks ?? []).map(({ from }, i) => ({ from, cells: plan.crops.map((crop) => crop.weeks[i]!) })).filter(({ cells }) => cells.some(({ shortUnits }) => shortUnits > 0));
  if (weeks.length === 0) return <p>Everything known and expected is covered.</p>;
  return (
    <div className="wide-table">
      <table>
        <thead><tr><th scope="col">Week from</th>{plan.crops.map(({ crop, title }) => <th key={crop} scope="col">{title}</th>)}</tr></thead>
        <tbody>{weeks.map(({ from, cells }) => (
          <tr key={from}><th scope="row">{dayMonth(from)}</th>{cells.map((cell, i) => <td key={plan.crops[i]!.crop} className="figures">{cell.shortUnits === 0 ? '–' : `${bare(cell.shortUnits)} of ${bare(cell.orderedUnits + cell.expectedUnits)}`}</td>)}</tr>
        ))}</tbody>
      </table>
    </div>
  );
}
