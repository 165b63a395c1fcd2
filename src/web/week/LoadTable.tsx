import type { WeekView } from '../../desk/contract.ts';
import { fixed } from '../words/figures.ts';
import { shortDate } from '../words/times.ts';

/** The figures of the pictures: hours asked for of those that the shift has. */
export function LoadTable({ week }: { readonly week: WeekView }) {
  const hours = (minutes: number) => fixed(minutes / 60, 1);
  return (
    <div className="load-table" tabIndex={0} role="region" aria-label="Hours by day">
      <table>
        <thead><tr><th scope="col">Day</th>{week.resources.map(({ id, title }) => <th key={id} scope="col">{title}</th>)}</tr></thead>
        <tbody>{week.dates.map((date, i) => (
          <tr key={date}><th scope="row">{shortDate(date)}</th>{week.resources.map(({ id, loadMin, capacityMin }) => {
            const isOver = loadMin[i]! > capacityMin[i]!;
            return <td key={id} className="figures">{isOver ? <b>{hours(loadMin[i]!)} of {hours(capacityMin[i]!)}, over</b> : `${hours(loadMin[i]!)} of ${hours(capacityMin[i]!)}`}</td>;
          })}</tr>
        ))}</tbody>
      </table>
    </div>
  );
}
