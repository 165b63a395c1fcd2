import { useState } from 'react';
import type { ComponentName, WaterAccount } from '../../desk/contract.ts';
import { useNarrow } from '../parts/useNarrow.ts';
import { shortDate } from '../words/times.ts';
import { balanceOf } from './balanceOf.ts';
import { BalanceDrawing } from './BalanceDrawing.tsx';
import { BalanceTable } from './BalanceTable.tsx';
import { amountWords } from './amounts.ts';

interface Props { readonly account: WaterAccount; readonly components: readonly ComponentName[] }

/** The balance of water or of one nutrient as bands, for the days before or for today, with the same figures as a table. */
export function BalanceFigure({ account, components }: Props) {
  const [shown, show] = useState<string>();
  const [period, setPeriod] = useState<'past' | 'today'>('today');
  const [asTable, setAsTable] = useState(false);
  const narrow = useNarrow();
  const component = components.find(({ id }) => id === shown);
  const balance = balanceOf(account, period, component);
  const what = component === undefined ? 'water' : component.name;
  return (
    <>
      <div className="choices no-print" role="group" aria-label="Over which days">
        <button type="button" aria-pressed={period === 'today'} onClick={() => setPeriod('today')}>Today, as planned</button>
        <button type="button" aria-pressed={period === 'past'} onClick={() => setPeriod('past')}>{shortDate(account.from.slice(0, 10))} to {shortDate(account.to.slice(0, 10))}</button>
      </div>
      <div className="choices components no-print" role="group" aria-label="Water or a component">
        <button type="button" aria-pressed={component === undefined} onClick={() => show(undefined)}>Water</button>
        {components.filter(({ id }) => id !== 'HCO3' && id !== 'Si').map((each) => <button key={each.id} type="button" aria-pressed={shown === each.id} aria-label={each.name} onClick={() => show(each.id)}>{each.label}</button>)}
      </div>
      {period === 'past' && <p>{account.sentence}</p>}
      <figure className="balance">
        <figcaption className="balance-title"><b>{what[0]!.toUpperCase() + what.slice(1)}{component ? `, weighed as ${component.element}` : ''}</b>, {period === 'past' ? `${shortDate(account.from.slice(0, 10))} to ${shortDate(account.to.slice(0, 10))}` : 'today as planned'}</figcaption>
        <BalanceDrawing balance={balance} what={what} narrow={narrow} />
        <figcaption className="soft small">
          Thickness is amount. Left: into the basins; right: out of them. Lines slope for what was returned, cross for what was discharged; a broken edge is what nobody can explain.
          {balance.basins && ` In all basins: ${amountWords(balance.basins.start, balance.amountKind)} at the start, ${amountWords(balance.basins.end, balance.amountKind)} at the end.`}
          {' '}The books close to {closeWords(account.closesWithin)} of what there is.
        </figcaption>
      </figure>
      {balance.beside.length > 0 && <p className="small">Without touching a basin: {balance.beside.map(({ words, amount }) => `${words} ${amountWords(amount, balance.amountKind)}`).join('; ')}.</p>}
      <div className="choices no-print"><button type="button" className="toggle" aria-expanded={asTable} onClick={() => setAsTable(!asTable)}>{asTable ? 'Hide the table' : 'The same as a table'}</button></div>
      {asTable && <BalanceTable account={account} period={period} components={components} />}
    </>
  );
}

const closeWords = (share: number): string => (share < 1e-9 ? 'the last digit' : `${Number((100 * share).toPrecision(2))} %`);
