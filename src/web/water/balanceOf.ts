import type { AccountFlow, ComponentName, WaterAccount } from '../../desk/contract.ts';
import type { AmountKind } from './amounts.ts';

/** What a band of the balance is, which decides how it is drawn. */
export type BandKind = 'in' | 'reused' | 'crops' | 'returned' | 'discharged' | 'unexplained' | 'store';

export interface BalancePart { readonly key: string; readonly title: string; readonly kind: BandKind; readonly amount: number }

/** Water or one component: what came into the basins, what left them, and what moved without touching them. */
export interface Balance {
  readonly amountKind: AmountKind;
  readonly ins: readonly BalancePart[];
  readonly outs: readonly BalancePart[];
  readonly beside: readonly { readonly key: string; readonly words: string; readonly amount: number }[];
  /** In all basins at both ends; absent for a plan. */
  readonly basins?: { readonly start: number; readonly end: number };
}

const BASINS = 'basins';

/** The balance of water (component absent) or of one component, over the days before or for today's plan. */
export function balanceOf(account: WaterAccount, period: 'past' | 'today', component: ComponentName | undefined): Balance {
  const of = (litres: number, mmol: AccountFlow['mmol']) => (component === undefined ? litres : ((mmol[component.id as keyof AccountFlow['mmol']] ?? 0) * component.gPerMol) / 1000);
  const flows = (period === 'past' ? account.flows : account.today).map((flow) => forwards({ from: flow.from, to: flow.to, amount: of(flow.litres, flow.mmol) })).filter(({ amount }) => amount > 0);
  const stock = period === 'past' ? account.contents.find(({ place }) => place === BASINS) : undefined;
  const basins = stock && { start: of(stock.startL, stock.startMmol), end: of(stock.endL, stock.endMmol) };
  const title = (place: string) => account.titles[place] ?? PLACE_WORDS[place] ?? place.replace(/^tank:/, '');
  const ins = gather(flows.filter(({ to }) => to === BASINS).map(({ from, amount }) => ({ place: from, amount })), 'in', title);
  const outs = gather(flows.filter(({ from }) => from === BASINS).map(({ to, amount }) => ({ place: to, amount })), 'out', title);
  const sides = withStore(ins, outs, period);
  return {
    amountKind: component === undefined ? 'water' : 'mass', ...sides, ...(basins ? { basins } : {}),
    beside: flows.filter(({ from, to }) => from !== BASINS && to !== BASINS).map(({ from, to, amount }) => ({ key: `${from} ${to}`, words: `${title(from)} → ${title(to)}`, amount })),
  };
}

const PLACE_WORDS: Readonly<Record<string, string>> = { basins: 'basins', crops: 'crops', discharge: 'discharged', found: 'first seen without a record', unexplained: 'unexplained' };

interface Move { readonly from: string; readonly to: string; readonly amount: number }
const forwards = (move: Move): Move => (move.amount < 0 ? { from: move.to, to: move.from, amount: -move.amount } : move);

const sum = (parts: readonly BalancePart[]): number => parts.reduce((total, { amount }) => total + amount, 0);

/** One part a place, the largest first; what nobody can explain comes last. */
function gather(moves: readonly { readonly place: string; readonly amount: number }[], side: 'in' | 'out', title: (place: string) => string): BalancePart[] {
  const byPlace = new Map<string, number>();
  for (const { place, amount } of moves) byPlace.set(place, (byPlace.get(place) ?? 0) + amount);
  const parts = [...byPlace].map(([place, amount]): BalancePart => ({ key: `${side} ${place}`, title: `${place.startsWith('tank:') && side === 'out' ? 'back into ' : ''}${title(place)}`, kind: kindOf(place, side), amount }));
  const last = ({ kind }: BalancePart) => (kind === 'unexplained' ? 1 : 0);
  return parts.sort((a, b) => last(a) - last(b) || b.amount - a.amount);
}

function kindOf(place: string, side: 'in' | 'out'): BandKind {
  if (place === 'crops' || place === 'unexplained') return place;
  if (place === 'discharge') return 'discharged';
  if (place === 'found') return 'unexplained';
  if (side === 'out') return 'returned';
  return 'in';
}

/** What the basins hold more (or less) at the end stands on the side where it closes the balance; whether the books close is the account's to say. */
function withStore(ins: readonly BalancePart[], outs: readonly BalancePart[], period: 'past' | 'today'): Pick<Balance, 'ins' | 'outs'> {
  const change = sum(ins) - sum(outs);
  if (Math.abs(change) <= 1e-9 * (sum(ins) + sum(outs))) return { ins, outs };
  const planned = period === 'today' ? ', as planned' : '';
  const part: BalancePart = { key: 'store', kind: 'store', amount: Math.abs(change), title: change > 0 ? `stays in the basins${planned}` : `from what was in the basins${planned}` };
  return change > 0 ? { ins, outs: [...outs, part] } : { ins: [...ins, part], outs };
}
