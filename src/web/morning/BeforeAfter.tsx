import { useMemo } from 'react';
import type { PlanChanges, PlanSheet, StopOutcomeView } from '../../desk/contract.ts';
import { useNarrow } from '../parts/useNarrow.ts';
import { count } from '../words/figures.ts';
import { clockTime } from '../words/times.ts';
import { TimelineBars } from './TimelineBars.tsx';
import { ACROSS, drawAcross, drawDown } from './timelineFrame.ts';
import { layTimeline } from './timelineLayout.ts';
import { LaneTitles, TimeLines } from './TimelineFigure.tsx';

interface Props { readonly before: PlanSheet; readonly after: PlanSheet; readonly outcomes: Readonly<Record<string, StopOutcomeView>>; readonly changes: PlanChanges }

/** The day as people were told and as the newer plan has it, side by side on the same clock; what changes has a heavy outline. */
export function BeforeAfter({ before, after, outcomes, changes }: Props) {
  const changed = useMemo(() => new Set([...changes.added, ...changes.dropped, ...changes.moved.map(({ visit }) => visit)]), [changes]);
  if (changed.size === 0) return null;
  return (
    <details className="before-after no-print">
      <summary>Before and after, side by side: {count(changed.size, 'visit')} outlined</summary>
      <div>
        <HalfTimeline title="As people were told" sheet={before} outcomes={outcomes} changed={changed} other={after} />
        <HalfTimeline title="The newer plan" sheet={after} outcomes={outcomes} changed={changed} other={before} />
      </div>
    </details>
  );
}

function HalfTimeline({ title, sheet, outcomes, changed, other }: { readonly title: string; readonly sheet: PlanSheet; readonly outcomes: Props['outcomes']; readonly changed: ReadonlySet<string>; readonly other: PlanSheet }) {
  const narrow = useNarrow();
  const layout = useMemo(() => {
    const [own, theirs] = [sheet, other].map((each) => layTimeline(each, outcomes));
    return { ...own!, lengthS: Math.max(own!.lengthS, theirs!.lengthS) };
  }, [sheet, other, outcomes]);
  const frame = useMemo(() => (narrow ? drawDown(layout) : drawAcross(layout, ACROSS.half)), [layout, narrow]);
  const { startAt, finishAt } = sheet.timeline;
  const clockOf = (s: number) => clockTime(new Date(Date.parse(startAt) + s * 1000).toISOString(), sheet.timeZone);
  return (
    <figure>
      <figcaption><b>{title}.</b> Last basin back {clockTime(finishAt, sheet.timeZone)}.</figcaption>
      <svg viewBox={`0 0 ${frame.width} ${frame.height}`} width={frame.width} role="img" aria-label={`${title}: timeline of ${layout.lanes.length} stations and vehicles. The table of changes says the same in words.`}>
        <TimeLines frame={frame} lengthS={layout.lengthS} startMs={Date.parse(startAt)} clockOf={clockOf} />
        <LaneTitles frame={frame} />
        <TimelineBars frame={frame} hands={undefined} pointedAt={changed} />
      </svg>
    </figure>
  );
}
