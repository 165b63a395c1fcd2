import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { OrdersAnswer } from '../../desk/contract.ts';
import { ordersQuestion } from '../ask/questions.ts';
import { Asked } from '../parts/Asked.tsx';
import { Folds } from '../parts/Folds.tsx';
import { dayNote, daysOfOrders, ordersSentence } from './daysOfOrders.ts';
import { OrderRow } from './OrderRow.tsx';
import { inDays, longDate } from '../words/times.ts';
import './orders.css';

/** What was promised to whom, and how likely it is that it leaves complete and on the day. */
export function OrdersPage() {
  const query = useQuery(ordersQuestion);
  return <Asked query={query} what="the orders">{(answer) => <Orders answer={answer} />}</Asked>;
}

function Orders({ answer }: { readonly answer: OrdersAnswer }) {
  const [onlyWeak, showOnlyWeak] = useState(false);
  const days = daysOfOrders(answer.orders, onlyWeak);
  const groups = days.map((day, place) => ({ key: day.due, title: longDate(day.due), note: dayNote(day.orders, inDays(answer.date, day.due)), items: day.orders, open: onlyWeak || place < 2 }));
  return (
    <>
      <h1>Orders</h1>
      <p className="sentence">{ordersSentence(answer.orders)}</p>
      <div className="choices no-print"><button type="button" aria-pressed={onlyWeak} onClick={() => showOnlyWeak(!onlyWeak)}>Only what may fall short</button></div>
      {days.length === 0 && <p>{answer.orders.length === 0 ? 'No orders are open.' : 'No order is expected to fall short.'}</p>}
      <h2 className="only-read">By day</h2>
      <Folds groups={groups} many="days">{(orders) => <ul className="orders">{orders.map((order) => <OrderRow key={`${order.order}/${order.line}`} order={order} fixes={answer.fixes[`${order.order}/${order.line}`] ?? []} cropTitle={answer.cropTitles[order.crop] ?? order.crop} />)}</ul>}</Folds>
    </>
  );
}
