import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { SowingQuestion } from './sowingQuestion.ts';

/** What is wanted of a crop in a block. */
export interface SowingNeed { readonly orderedUnits: number; readonly expectedUnits: number }

/** Keys of lines that come on top of what is expected begin with this. */
export const EXTRA = 'extra ';

/** Block by block: known orders, and beyond the order book what they leave of those expected. */
export function sowingNeeds({ calendar, lines, expected }: SowingQuestion, card: CropCard): SowingNeed[] {
  const own = lines.filter(({ line }) => line.crop === card.id);
  return calendar.blocks.map(({ fromDay, toDay }) => {
    const dates = Array.from({ length: toDay - fromDay + 1 }, (_, i) => calendar.dateOf(fromDay + i));
    const known = (among: readonly string[], withExtra: boolean) => own.filter(({ key, leaves }) => among.includes(leaves) && (withExtra || !key.startsWith(EXTRA))).reduce((sum, { openUnits }) => sum + openUnits, 0);
    const open = dates.filter((date) => date >= expected.fromDate);
    return { orderedUnits: known(dates, true), expectedUnits: open.length === 0 ? 0 : Math.max(0, expected.units(card.id, open) - known(open, false)) };
  });
}

export const wantedUnits = ({ orderedUnits, expectedUnits }: SowingNeed): number => orderedUnits + expectedUnits;
