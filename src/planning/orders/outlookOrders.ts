import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { OrderLine } from '../../greenhouse/schema/tableRows.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { OrderOutlook } from '../morningPlan.ts';
import { describeOrder } from './orderWords.ts';
import type { LotSupply } from './lotSupply.ts';

/** An order line with what is still to be delivered. */
export interface OpenLine {
  readonly key: string;
  readonly line: OrderLine;
  readonly card: CropCard;
  readonly openUnits: number;
  /** The day on which it leaves: its due day, or today where that has passed. */
  readonly leaves: string;
}

/** Lines in the order in which they are served: by due day, then by order and line. `promised` units are cut for them today already. */
export function openLines(state: GreenhouseState, date: string, promised: ReadonlyMap<string, number> = new Map()): OpenLine[] {
  return Object.entries(state.orders).flatMap(([key, line]): OpenLine[] => {
    const card = state.crops[line.crop];
    const openUnits = line.units - (state.delivered[key] ?? 0) - (promised.get(key) ?? 0);
    return card === undefined || openUnits <= 1e-9 ? [] : [{ key, line, card, openUnits, leaves: line.due < date ? date : line.due }];
  }).sort((a, b) => compare(a.leaves, b.leaves) || compare(a.line.order, b.line.order) || a.line.line - b.line.line);
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

export interface Allocation {
  /** Units that each line gets. */
  readonly units: ReadonlyMap<string, number>;
  /** Line key -> lot -> units. */
  readonly byLot: ReadonlyMap<string, ReadonlyMap<string, number>>;
}

/** One future: each line is served from the oldest lots of its crop that are ready on the day it leaves. */
export function allocateMember(lines: readonly OpenLine[], supplyByCrop: ReadonlyMap<string, readonly LotSupply[]>, member: number): Allocation {
  const taken = new Map<string, number>();
  const units = new Map<string, number>();
  const byLot = new Map<string, Map<string, number>>();
  for (const { key, card, openUnits, leaves } of lines) {
    let open = openUnits;
    const from = new Map<string, number>();
    for (const lot of supplyByCrop.get(card.id) ?? []) {
      if (open <= 1e-9) break;
      const left = wholeUnits(lot.unitsOn(leaves, member), card) - (taken.get(lot.lot) ?? 0);
      const give = Math.min(open, left);
      if (give <= 0) continue;
      taken.set(lot.lot, (taken.get(lot.lot) ?? 0) + give);
      from.set(lot.lot, give);
      open -= give;
    }
    units.set(key, openUnits - open);
    byLot.set(key, from);
  }
  return { units, byLot };
}

export const wholeUnits = (units: number, card: CropCard): number => (card.soldBy === 'kg' ? Math.floor(units * 10 + 1e-9) / 10 : Math.floor(units + 1e-9));

/**
 * For each order line the chance that it is filled in full on its day, over futures in which every lot follows one
 * quantile of its own forecast. Lines that compete for the same lots are served in order of due day, so that a chance
 * already counts what earlier lines take.
 */
export function outlookOrders(state: GreenhouseState, date: string, supplies: readonly LotSupply[], members: number, why: string): OrderOutlook[] {
  const supplyByCrop = groupByCrop(supplies);
  const lines = openLines(state, date);
  const filled = new Map<string, number>();
  const short = new Map<string, number>();
  for (let member = 0; member < members; member++) {
    const { units } = allocateMember(lines, supplyByCrop, member);
    for (const { key, openUnits } of lines) {
      const missing = openUnits - units.get(key)!;
      short.set(key, (short.get(key) ?? 0) + missing / members);
      if (missing <= 1e-9) filled.set(key, (filled.get(key) ?? 0) + 1 / members);
    }
  }
  const middle = allocateMember(lines, supplyByCrop, -1);
  const open = new Map(lines.map((line) => [line.key, line]));
  return Object.entries(state.orders).sort(([, a], [, b]) => compare(a.due, b.due) || compare(a.order, b.order) || a.line - b.line)
    .map(([key, line]) => outlookLine(line, state, open.get(key), { chance: filled.get(key) ?? 0, short: short.get(key) ?? 0, lots: middle.byLot.get(key) }, supplyByCrop.get(line.crop) ?? [], why));
}

export function groupByCrop(supplies: readonly LotSupply[]): Map<string, LotSupply[]> {
  const groups = new Map<string, LotSupply[]>();
  for (const supply of [...supplies].sort((a, b) => compare(a.sown, b.sown) || compare(a.lot, b.lot))) groups.set(supply.crop, [...(groups.get(supply.crop) ?? []), supply]);
  return groups;
}

interface Odds { readonly chance: number; readonly short: number; readonly lots: ReadonlyMap<string, number> | undefined }

function outlookLine(line: OrderLine, state: GreenhouseState, open: OpenLine | undefined, odds: Odds, lots: readonly LotSupply[], why: string): OrderOutlook {
  const card = state.crops[line.crop];
  const isDelivered = open === undefined && card !== undefined;
  const chance = isDelivered ? 1 : Math.min(1, Math.round(odds.chance * 1000) / 1000);
  const status = isDelivered ? 'delivered' as const : chance >= 0.8 ? 'likely' as const : chance >= 0.3 ? 'at risk' as const : 'short' as const;
  const outlook = {
    order: line.order, line: line.line, customer: line.customer, crop: line.crop, units: line.units, unit: card?.soldBy ?? 'unit', due: line.due,
    chance, expectedShortUnits: isDelivered ? 0 : Math.round((card === undefined ? line.units : odds.short) * 10) / 10, status,
    lots: [...(odds.lots ?? [])].map(([lot, units]) => ({ lot, units })), why,
  };
  return { ...outlook, sentence: describeOrder(outlook, card, lots) };
}
