import { plain, withUnit } from '../words/figures.ts';

/** What a balance counts: litres of water, or grams of a component. */
export type AmountKind = 'water' | 'mass';

/** An amount in the unit in which it is easiest read: L or m³, mg, g or kg. */
export function amountWords(amount: number, kind: AmountKind): string {
  const size = Math.abs(amount);
  if (kind === 'water') return size >= 1000 ? withUnit(plain(amount / 1000), 'm³') : withUnit(plain(amount), 'L');
  if (size >= 1000) return withUnit(plain(amount / 1000), 'kg');
  return size < 1 && size > 0 ? withUnit(plain(amount * 1000), 'mg') : withUnit(plain(amount), 'g');
}

/** Grams as they are weighed out: kilograms from 1 kg on, four figures. */
export function weighedWords(grams: number): string {
  if (grams >= 1000) return withUnit(plain(grams / 1000, 4), 'kg');
  return withUnit(plain(grams, grams < 1 ? 3 : 4), 'g');
}

/** Millilitres as they are measured out: litres from 1 L on. */
export const measuredWords = (millilitres: number): string => (millilitres >= 1000 ? withUnit(plain(millilitres / 1000, 4), 'L') : withUnit(plain(millilitres), 'mL'));
