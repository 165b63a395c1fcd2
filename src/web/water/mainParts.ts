import type { ComponentName, TankView } from '../../desk/contract.ts';
import { plain } from '../words/figures.ts';

/** The three components of which a water holds most, with their amounts: "NO₃ 8.1, K 4.1, Ca 2.3 mmol/L". */
export function mainParts(mmolPerL: NonNullable<TankView['mmolPerL']>, components: readonly ComponentName[]): string {
  const held = components.flatMap((component) => {
    const value = mmolPerL[component.id as keyof typeof mmolPerL] ?? 0;
    return value > 0 && component.id !== 'HCO3' ? [{ label: component.label, value }] : [];
  });
  const most = held.sort((a, b) => b.value - a.value).slice(0, 3);
  return most.length === 0 ? 'Nothing was found in it.' : `Mostly ${most.map(({ label, value }) => `${label} ${plain(value)}`).join(', ')} mmol/L.`;
}
