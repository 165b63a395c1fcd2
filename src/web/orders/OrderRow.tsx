import type { OrderFix, OrderOutlook } from '../../desk/contract.ts';
import { Link } from '@tanstack/react-router';
import { Status, type SignShape } from '../parts/Sign.tsx';
import { Why } from '../parts/Why.tsx';
import { LotLink } from '../crop/LotLink.tsx';
import { signed } from '../crop/intervalWords.ts';
import { bare, chance, fixed, unitWord, withUnit } from '../words/figures.ts';

const SHAPES: Readonly<Record<OrderOutlook['status'], SignShape>> = { delivered: 'tick', likely: 'dot', 'at risk': 'diamond', short: 'flag' };

/** One order line: what, for whom, the chance that it is filled, and why. */
export function OrderRow({ order, cropTitle, fixes }: { readonly order: OrderOutlook; readonly cropTitle: string; readonly fixes: readonly OrderFix[] }) {
  return (
    <li className="order">
      <p className="order-what"><b className="figures">{bare(order.units)}</b> {unitWords(order)} {cropTitle.toLowerCase()}<br /><span className="soft">{order.customer} · order {order.order}, line {order.line}</span></p>
      <p className="order-status"><Status shape={SHAPES[order.status]}>{order.status}</Status></p>
      <div className="order-chance">
        {order.status === 'delivered' ? <p className="soft">delivered</p> : (
          <>
            <p><span className="figures">{chance(order.chance)}</span> <span className="soft small">to be complete</span></p>
            <span className="chance-bar" aria-hidden="true"><span style={{ width: `${order.chance * 100}%` }} /></span>
          </>
        )}
      </div>
      <div className="order-why"><p>{order.status === 'likely' && order.lots.length > 0 ? <>{fromLots(order)} </> : order.sentence} {order.expectedShortUnits > 0.5 && order.status !== 'delivered' && <>Short on average: <b className="figures">{fixed(order.expectedShortUnits, 1)}</b> {unitWord(order.unit, order.expectedShortUnits)}. </>}<Why source={order.why} of={`the chance of order ${order.order}, line ${order.line}`} /></p>{(order.status === 'at risk' || order.status === 'short') && <Fixes fixes={fixes} />}</div>
    </li>
  );
}

/** Of a line that is likely the row says everything else already. */
const fromLots = ({ lots, unit }: OrderOutlook) => lots.map(({ lot, units }, i) => <span key={lot}>{i > 0 && ', '}<span className="figures">{bare(units)}</span> {unitWord(unit, units)} from <LotLink lot={lot} /></span>);

/** What was worked out that makes the line surer; a line that nothing on the floor helps is a question of sowing. */
function Fixes({ fixes }: { readonly fixes: readonly OrderFix[] }) {
  if (fixes.length === 0) return <p className="soft">Nothing that was worked out with a lot on the floor makes it surer: tell the customer, or see <Link to="/sowing">what is sown</Link> for later ones.</p>;
  return <ul className="order-fixes">{fixes.map((fix) => <li key={`${fix.lot} ${fix.title}`}>{fix.title} of <LotLink lot={fix.lot} />: {chance(fix.chance)} instead of {chance(fix.chanceWithNothingDone)}, expected gain in all {withUnit(signed(fix.meanGain, 2), fix.currency)}</li>)}</ul>;
}

/** Heads and bunches are counted; kilograms are not. */
const unitWords = ({ unit, units }: OrderOutlook): string => unitWord(unit, units) + (unit === 'kg' ? '' : ' of');
