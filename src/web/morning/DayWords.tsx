import type { PlanSheet } from '../../desk/contract.ts';
import { count } from '../words/figures.ts';
import { clockTime } from '../words/times.ts';

/** The sentence that sums the day up, and the counts behind it. */
export function DayWords({ sheet }: { readonly sheet: PlanSheet }) {
  const { counts } = sheet;
  const clock = (at: string) => clockTime(at, sheet.timeZone);
  return (
    <div className="day-words">
      <h1 className="only-read">This morning</h1>
      <p className="sentence">{sheet.sentence}</p>
      <p className="soft">
        Shift {clock(sheet.shift.startAt)} to {clock(sheet.shift.endAt)} · {count(counts.visits, 'visit')} with {count(counts.stops, 'stop')}, {counts.mustVisits} must go today · {count(counts.planted, 'basin')} of {counts.basins} hold plants
      </p>
      <p className="stop-note"><b>To stop something, stop it there.</b> This page advises and moves nothing: every vehicle and every station has its own stop, one action away, and it never waits for a plan.</p>
    </div>
  );
}
