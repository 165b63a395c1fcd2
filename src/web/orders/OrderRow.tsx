import type { OrderOutlook } from '../../desk/contract.ts';
import { Status, type SignShape } from '../parts/Sign.tsx';
import { Why } from '../parts/Why.tsx';
import { bare, chance, plain, unitWord } from '../words/figures.ts';

const SHAPES: Readonly<Record<OrderOutlook['status'], SignShape>> = { delivered: 'tick', likely: 'dot', 'at risk': 'diamond', short: 'flag' };

/** One order line: what, for whom, the chance that it is filled, and why. */
export function OrderRow({ order, cropTitle }: { readonly order: OrderOutlook; readonly cropTitle: string }) {
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
      <p className="order-why">{order.sentence} {order.expectedShortUnits > 0.5 && order.status !== 'delivered' && <>Short on average: <b className="figures">{plain(order.expectedShortUnits)}</b> {unitWord(order.unit, order.expectedShortUnits)}. </>}<Why source={order.why} of={`the chance of order ${order.order}, line ${order.line}`} /></p>
    </li>
  );
}

/** Heads and bunches are counted; kilograms are not. */
const unitWords = ({ unit, units }: OrderOutlook): string => unitWord(unit, units) + (unit === 'kg' ? '' : ' of');
