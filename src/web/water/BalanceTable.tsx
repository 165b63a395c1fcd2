import type { ComponentName, WaterAccount } from '../../desk/contract.ts';
import { plain } from '../words/figures.ts';
import { balanceOf, type Balance, type BalancePart } from './balanceOf.ts';

interface Column { readonly component: ComponentName | undefined; readonly balance: Balance }

interface Props { readonly account: WaterAccount; readonly period: 'past' | 'today'; readonly components: readonly ComponentName[] }

/** Water and every component, from where and to where, in litres and grams. */
export function BalanceTable({ account, period, components }: Props) {
  const columns: readonly Column[] = [undefined, ...components.filter(({ id }) => id !== 'HCO3' && id !== 'Si')].map((component) => ({ component, balance: balanceOf(account, period, component) }));
  const rows = (side: 'ins' | 'outs') => [...new Map(columns.flatMap(({ balance }) => balance[side].map((part) => [part.key, part] as const))).values()];
  return (
    <div className="wide">
      <table className="balance-table">
        <caption className="only-read">Balance of water and of every component</caption>
        <thead><tr><th scope="col">Into and out of the basins</th>{columns.map(({ component }) => <th key={component?.id ?? 'water'} scope="col" className="number">{component?.label ?? 'Water'}<br />{component ? 'g' : 'L'}</th>)}</tr></thead>
        <tbody>
          {rows('ins').map((row) => <Row key={row.key} row={row} side="ins" columns={columns} />)}
          <tr className="sum"><th scope="row">together</th>{columns.map(({ component, balance }) => <td key={component?.id ?? 'water'} className="number">{plain(balance.ins.reduce((sum, { amount }) => sum + amount, 0))}</td>)}</tr>
          {rows('outs').map((row) => <Row key={row.key} row={row} side="outs" columns={columns} />)}
          <tr className="sum"><th scope="row">together</th>{columns.map(({ component, balance }) => <td key={component?.id ?? 'water'} className="number">{plain(balance.outs.reduce((sum, { amount }) => sum + amount, 0))}</td>)}</tr>
        </tbody>
      </table>
    </div>
  );
}

function Row({ row, side, columns }: { readonly row: BalancePart; readonly side: 'ins' | 'outs'; readonly columns: readonly Column[] }) {
  return (
    <tr>
      <th scope="row">{side === 'ins' ? 'in: ' : 'out: '}{row.title}</th>
      {columns.map(({ component, balance }) => { const amount = balance[side].find(({ key }) => key === row.key)?.amount; return <td key={component?.id ?? 'water'} className="number">{amount === undefined ? '–' : plain(amount)}</td>; })}
    </tr>
  );
}
