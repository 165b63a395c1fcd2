import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { OrderOutlook } from '../morningPlan.ts';
import { countOf } from '../words/plainWords.ts';
import type { LotSupply } from './lotSupply.ts';

/** One plain sentence on an order line: how sure it is, from which lots, or what is short and why. */
export function describeOrder(order: Omit<OrderOutlook, 'sentence'>, card: CropCard | undefined, lots: readonly LotSupply[]): string {
  const what = `${countOf(order.units, order.unit)} of ${card?.title ?? order.crop} for ${order.customer} on ${order.due}`;
  if (card === undefined) return `${what}: no crop card describes ${order.crop}, so nothing can be said.`;
  if (order.status === 'delivered') return `${what}: delivered.`;
  const from = order.lots.length === 0 ? 'no lot' : order.lots.map(({ lot, units }) => `${countOf(units, order.unit)} from ${lot}`).join(', ');
  if (order.status === 'likely') return `${what}: ${percent(order.chance)} sure, ${from}.`;
  const next = lots.find((lot) => !order.lots.some((is) => is.lot === lot.lot) && lot.unitsOn(order.due, -1) < 1);
  const because = order.lots.length === 0 ? 'no lot is ready by then' : `${from} and earlier orders take the rest`;
  return `${what}: ${percent(order.chance)} sure, about ${countOf(order.expectedShortUnits, order.unit)} short; ${because}${next === undefined ? '' : `; ${next.lot} follows`}.`;
}

/** A hundred futures cannot tell certainty from near certainty: never "100 %" or "0 %". */
const percent = (share: number): string => (share > 0.99 ? 'over 99 %' : share < 0.01 ? 'under 1 %' : `${Math.round(share * 100)} %`);
