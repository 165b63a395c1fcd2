import { addDays, daysBetween, localDate, type ShiftDay } from '../day/shiftDay.ts';
import type { BasinView } from './basinView.ts';
import type { NeedDraft } from './needDraft.ts';

/** A basin that goes out anyway is imaged when its turn comes within so many days. */
const SOON_DAYS = 2;

/**
 * Imaging by its interval: the shorter of the greenhouse's and the crop's, counted from the last image or from when the plants
 * came. Where a scan is worth more than it costs before a decision (`worthKnowing` says so), it rides along, or goes out sooner.
 */
export function imagingNeed(view: BasinView, greenhouseEveryDays: number, day: ShiftDay, worthKnowing?: string): NeedDraft | undefined {
  const due = dueNeed(view, greenhouseEveryDays, day);
  if (worthKnowing === undefined || view.basin.planting === undefined) return due;
  if (due === undefined) return { basin: view.basin.id, kind: 'imaging', why: 'actions', urgency: 'may', reason: worthKnowing };
  return due.urgency === 'may' ? { ...due, urgency: 'should', reason: `${due.reason}; ${worthKnowing}` } : due;
}

function dueNeed(view: BasinView, greenhouseEveryDays: number, day: ShiftDay): NeedDraft | undefined {
  const { card, basin } = view;
  if (card === undefined || basin.planting === undefined) return undefined;
  const everyDays = Math.min(greenhouseEveryDays, card.handling.imagingEveryDays);
  const imaged = basin.imagedAt === undefined ? undefined : localDate(Date.parse(basin.imagedAt), day.timeZone);
  const since = imaged === undefined || imaged < basin.planting.placed ? basin.planting.placed : imaged;
  const dueDate = addDays(since, everyDays);
  const left = daysBetween(day.date, dueDate);
  if (left > SOON_DAYS) return undefined;
  const seen = since === imaged ? `last imaged ${since}` : `not imaged since the plants came on ${since}`;
  return {
    basin: basin.id, kind: 'imaging', why: 'imaging-interval', dueDate,
    // Late by two whole intervals it becomes a must; until then it waits for room on the floor.
    urgency: left <= -2 * everyDays ? 'must' : left <= 0 ? 'should' : 'may',
    reason: `${seen}, every ${everyDays} days: due ${dueDate}${left < 0 ? `, ${-left} ${left === -1 ? 'day' : 'days'} late` : ''}`,
  };
}
