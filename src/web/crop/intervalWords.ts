import { fixed, withUnit } from '../words/figures.ts';

/** A number with its sign, a true minus for those below nought. */
export const signed = (value: number, decimals: number): string => `${value > 0 ? '+' : value < 0 ? '\u2212' : ''}${fixed(Math.abs(value), decimals)}`;

/** "−4.20 to +11.00 GBP"; one figure where both ends are the same. */
export function interval({ low, high }: { readonly low: number; readonly high: number }, decimals: number, unit: string): string {
  return withUnit(low === high ? signed(low, decimals) : `${signed(low, decimals)} to ${signed(high, decimals)}`, unit);
}
