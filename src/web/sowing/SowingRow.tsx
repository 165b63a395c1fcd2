import { useState } from 'react';
import type { Sowing } from '../../desk/contract.ts';
import { bare, count, unitWord } from '../words/figures.ts';
import { dayMonth, shortDate } from '../words/times.ts';
import { SownForm } from './SownForm.tsx';

/** One line of the sow list: what, how much, where it goes, when it is cut and for whom. `today`: where it may be recorded as sown. */
export function SowingRow({ sowing, today }: { readonly sowing: Sowing; readonly today: string | undefined }) {
  const [open, setOpen] = useState(false);
  const orders = [...new Set(sowing.orders.map(({ order, line }) => `${order}/${line}`))];
  return (
    <li className="sowing">
      <p className="sowing-what"><b>{sowing.cropTitle}</b><br /><span className="soft">sow {shortDate(sowing.sowDate)}</span></p>
      <p className="sowing-seeds"><b className="figures">{count(sowing.trays, 'tray')}</b><br /><span className="soft"><span className="figures">{bare(sowing.seeds)}</span> seeds for <span className="figures">{bare(sowing.plants)}</span> plants</span></p>
      <p className="sowing-basins">{sowing.basins.map(({ stage, basins, from }) => <span key={stage}><b className="figures">{basins}</b> {stage.toLowerCase()} <span className="soft">from {dayMonth(from)}</span></span>)}</p>
      <p className="sowing-for">Cut {dayMonth(sowing.harvestFrom)} to {dayMonth(sowing.harvestTo)}: <b className="figures">{bare(sowing.sureUnits)}</b> {unitWord(sowing.unit, sowing.sureUnits)} sure, <span className="figures">{bare(sowing.meanUnits)}</span> expected
        {orders.length > 0 && <>; for {orders.slice(0, 4).join(', ')}{orders.length > 4 && ` and ${orders.length - 4} more`}</>}
        {sowing.forExpectedUnits > 0 && <>; <span className="figures">{bare(sowing.forExpectedUnits)}</span> for orders still to come</>}.</p>
      {today !== undefined && <div className="sowing-do no-print">{open ? <SownForm sowing={sowing} today={today} close={() => setOpen(false)} /> : <button type="button" aria-label={`${sowing.cropTitle}, ${shortDate(sowing.sowDate)}: sown`} onClick={() => setOpen(true)}>Sown</button>}</div>}
    </li>
  );
}
