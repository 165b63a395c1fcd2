import type { ShiftDay } from '../day/shiftDay.ts';
import type { BasinView } from './basinView.ts';
import type { NeedDraft } from './needDraft.ts';

/** A basin that was emptied of its crop is washed before anything else is planted in it. */
export function washingNeed(view: BasinView, day: ShiftDay): NeedDraft | undefined {
  if (!view.basin.needsWash || view.basin.planting !== undefined) return undefined;
  return { basin: view.basin.id, kind: 'washing', urgency: 'should', reason: 'its crop was taken out and it has not been washed since', dueDate: day.date, why: 'washing-rule' };
}
