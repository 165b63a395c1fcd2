import { useMemo, useState } from 'react';
import type { PlanSheet, StopOutcomeView } from '../../desk/contract.ts';
import { useNarrow } from '../parts/useNarrow.ts';
import { clockTime } from '../words/times.ts';
import { drawAcross, drawDown, type TimelineFrame } from './timelineFrame.ts';
import { TimelineBars } from './TimelineBars.tsx';
import { layTimeline } from './timelineLayout.ts';

interface Props { readonly sheet: PlanSheet; readonly outcomes: Readonly<Record<string, StopOutcomeView>>; readonly nowAt: string }

/** Stations and vehicles over the day. Runs from left to right on a desk, from top to bottom on a phone. */
export function TimelineFigure({ sheet, outcomes, nowAt }: Props) {
  const narrow = useNarrow();
  const [marked, mark] = useState<string>();
  const layout = useMemo(() => layTimeline(sheet, outcomes), [sheet, outcomes]);
  const frame = useMemo(() => (narrow ? drawDown(layout) : drawAcross(layout)), [layout, narrow]);
  const clock = (at: string) => clockTime(at, sheet.timeZone);
  const nowS = (Date.parse(nowAt) - Date.parse(sheet.timeline.startAt)) / 1000;
  return (
    <figure className="timeline">
      <div className={narrow ? '' : 'timeline-scroll'} tabIndex={narrow ? undefined : 0} role={narrow ? undefined : 'group'} aria-label={narrow ? undefined : 'Timeline, scrolls sideways'}>
        <svg viewBox={`0 0 ${frame.width} ${frame.height}`} width={frame.width} role="img" aria-label={`Timeline of ${layout.lanes.length} stations and vehicles from ${clock(sheet.timeline.startAt)} to ${clock(sheet.timeline.finishAt)}. The list of visits below says the same in words.`}>
          <HourLines frame={frame} lengthS={layout.lengthS} startAt={sheet.timeline.startAt} zone={sheet.timeZone} />
          <LaneTitles frame={frame} />
          <TimelineBars frame={frame} marked={marked} mark={mark} />
          <MomentLine frame={frame} atS={layout.boundS} className="bound" words={`no plan can finish before ${clock(sheet.timeline.boundAt)}`} row={0} />
          <MomentLine frame={frame} atS={layout.finishS} className="finish" words={`last basin back ${clock(sheet.timeline.finishAt)}`} row={1} />
          {nowS > 0 && nowS < layout.lengthS && <MomentLine frame={frame} atS={nowS} className="now" words={`now ${clock(nowAt)}`} row={2} />}
        </svg>
      </div>
      <figcaption>
        <p>Each bar is a basin at a station, or a vehicle carrying it; its number stands in it. Thin lines are empty travel. <b>Heavy outline</b>: must go today. <b>Struck</b>: done. <b>Crossed</b>: failed. Times are planned, not measured; clock of {sheet.timeZone}.</p>
        <p>What binds: {sheet.timeline.binds} The last basin is at most {Math.ceil(sheet.timeline.gapPct * 10) / 10}&#8239;% later than the proven bound.</p>
      </figcaption>
    </figure>
  );
}

function HourLines({ frame, lengthS, startAt, zone }: { frame: TimelineFrame; lengthS: number; startAt: string; zone: string }) {
  const firstS = (3600 - (Math.floor(Date.parse(startAt) / 1000) % 3600)) % 3600;
  const hours = Array.from({ length: Math.floor((lengthS - firstS) / 3600) + 1 }, (_, hour) => firstS + hour * 3600);
  return (
    <g className="hours">
      {hours.map((atS) => {
        const line = frame.lineAt(atS);
        return <g key={atS}><line {...line.ends} /><text x={line.label.x} y={line.label.y} textAnchor={line.label.anchor}>{clockTime(new Date(Date.parse(startAt) + atS * 1000).toISOString(), zone)}</text></g>;
      })}
    </g>
  );
}

function LaneTitles({ frame }: { frame: TimelineFrame }) {
  return (
    <g className="lanes">
      {frame.lanes.map((lane) => (
        <g key={lane.id}>
          <rect x={lane.box.x} y={lane.box.y} width={lane.box.width} height={lane.box.height} className={lane.kind} />
          <text x={lane.title.x} y={lane.title.y} textAnchor={lane.title.anchor} transform={lane.title.turnDeg ? `rotate(${lane.title.turnDeg} ${lane.title.x} ${lane.title.y})` : undefined} className="lane-title">{lane.words}</text>
          <text x={lane.note.x} y={lane.note.y} textAnchor={lane.note.anchor} className="lane-note">{lane.noteWords}</text>
        </g>
      ))}
    </g>
  );
}

function MomentLine({ frame, atS, className, words, row }: { frame: TimelineFrame; atS: number; className: string; words: string; row: number }) {
  const moment = frame.momentAt(atS, row);
  return <g className={`moment ${className}`}><line {...moment.ends} /><text x={moment.label.x} y={moment.label.y} textAnchor={moment.label.anchor}>{words}</text></g>;
}
