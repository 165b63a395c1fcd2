import { useMemo, useState } from 'react';
import type { PlanSheet, StopOutcomeView } from '../../desk/contract.ts';
import { useTitleOf } from '../ask/useTitleOf.ts';
import { useNarrow } from '../parts/useNarrow.ts';
import { fixed, withUnit, asSentence } from '../words/figures.ts';
import { clockTime } from '../words/times.ts';
import { HourChoice } from './HourChoice.tsx';
import { lateWords } from './lateWords.ts';
import { MoveAnswer } from './moves/MoveAnswer.tsx';
import { MoveGhost } from './moves/MoveGhost.tsx';
import { useBarHands } from './moves/useBarHands.ts';
import { useStopMoves } from './moves/useStopMoves.ts';
import { TimelineBars } from './TimelineBars.tsx';
import { drawAcross, drawDown, type TimelineFrame } from './timelineFrame.ts';
import { layTimeline, sliceTimeline } from './timelineLayout.ts';

interface Props { readonly sheet: PlanSheet; readonly outcomes: Readonly<Record<string, StopOutcomeView>>; readonly nowAt: string }

const HOUR_S = 3600;

/** Stations and vehicles over the day, or over one hour of it. Runs from left to right on a desk, from top to bottom on a phone. */
export function TimelineFigure({ sheet, outcomes, nowAt }: Props) {
  const narrow = useNarrow();
  const [hour, showHour] = useState<number>();
  const { startAt, finishAt, boundAt, gapPct, binds, worth = [] } = sheet.timeline;
  const whole = useMemo(() => layTimeline(sheet, outcomes), [sheet, outcomes]);
  const fromS = hour ?? 0;
  const layout = useMemo(() => (hour === undefined ? whole : sliceTimeline(whole, hour, hour + HOUR_S)), [whole, hour]);
  const frame = useMemo(() => (narrow ? drawDown(layout) : drawAcross(layout)), [layout, narrow]);
  const moves = useStopMoves();
  const hands = useBarHands(moves, frame, fromS);
  const breaks = moves?.tried.data?.breaks;
  const pointedAt = useMemo(() => new Set(breaks?.flatMap(({ visits }) => visits)), [breaks]);
  const titleOf = useTitleOf();
  const late = lateWords(sheet, outcomes, nowAt, titleOf);
  const clock = (at: string) => clockTime(at, sheet.timeZone);
  const clockOf = (s: number) => clock(new Date(Date.parse(startAt) + (fromS + s) * 1000).toISOString());
  const moments = [
    { name: 'bound', atS: layout.boundS, words: `no plan can finish before ${clock(boundAt)}` },
    { name: 'finish', atS: layout.finishS, words: `last basin back ${clock(finishAt)}` },
    { name: 'now', atS: (Date.parse(nowAt) - Date.parse(startAt)) / 1000 - fromS, words: `now ${clock(nowAt)}` },
  ];
  return (
    <figure className="timeline">
      <HourChoice startAt={startAt} lengthS={whole.lengthS} zone={sheet.timeZone} hour={hour} show={showHour} />
      <div className={narrow ? '' : 'timeline-scroll'} tabIndex={narrow ? undefined : 0} role={narrow ? undefined : 'group'} aria-label={narrow ? undefined : 'Timeline, scrolls sideways'}>
        <svg viewBox={`0 0 ${frame.width} ${frame.height}`} width={frame.width} role={hands ? 'group' : 'img'} aria-label={`Timeline of ${layout.lanes.length} stations and vehicles from ${clockOf(0)} to ${clockOf(layout.lengthS)}. The list of visits below says the same in words.`}>
          <TimeLines frame={frame} lengthS={layout.lengthS} startMs={Date.parse(startAt) + fromS * 1000} clockOf={clockOf} />
          <LaneTitles frame={frame} />
          <TimelineBars frame={frame} hands={hands} pointedAt={pointedAt} />
          {moments.map((moment, row) => moment.atS >= 0 && moment.atS <= layout.lengthS && <MomentLine key={moment.name} frame={frame} atS={moment.atS} className={moment.name} words={moment.words} row={row} />)}
          {moves?.move && <MoveGhost move={moves.move} frame={frame} fromS={fromS} words={clockOf(moves.move.startS - fromS)} />}
        </svg>
      </div>
      {moves && <MoveAnswer moves={moves} takesFocus={true} />}
      <figcaption>
        <p>Each bar is a basin at a station, or a vehicle carrying it; its number stands in it where there is room, and in every bar when one hour is shown. Thin lines are empty travel. <b>Heavy outline</b>: must go today. <b>Struck</b>: done. <b>Crossed</b>: failed. Times are planned, not measured; clock of {sheet.timeZone}.</p>
        {hands && !narrow && <p className="no-print">Drag a stop to another time or station of its kind, and the desk says what breaks. With keys: Tab to a stop, arrows move it by a minute (five with Shift), Enter tries it, Escape puts it back, Page Down goes to the next stop.</p>}
        {late.length > 0 && <p className="late"><b>Late:</b> {late.join(' ')}</p>}
        <p>What binds the day: {asSentence(binds).toLowerCase()} The last basin is back at most {withUnit(fixed(gapPct, gapPct < 10 ? 1 : 0), '%')} later than the proven bound.</p>
        {worth.length > 0 && <p className="worth">What one more would be worth: {worth.join(' ')}</p>}
      </figcaption>
    </figure>
  );
}

export function TimeLines({ frame, lengthS, startMs, clockOf }: { readonly frame: TimelineFrame; readonly lengthS: number; readonly startMs: number; readonly clockOf: (s: number) => string }) {
  const stepS = lengthS > HOUR_S ? HOUR_S : 600;
  const firstS = (stepS - (Math.floor(startMs / 1000) % stepS)) % stepS;
  const moments = Array.from({ length: Math.max(0, Math.floor((lengthS - firstS) / stepS) + 1) }, (_, number) => firstS + number * stepS);
  return (
    <g className="hours">
      {moments.map((atS) => {
        const line = frame.lineAt(atS);
        return <g key={atS}><line {...line.ends} /><text x={line.label.x} y={line.label.y} textAnchor={line.label.anchor}>{clockOf(atS)}</text></g>;
      })}
    </g>
  );
}

export function LaneTitles({ frame }: { readonly frame: TimelineFrame }) {
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

export function MomentLine({ frame, atS, className, words, row }: { readonly frame: TimelineFrame; readonly atS: number; readonly className: string; readonly words: string; readonly row: number }) {
  const moment = frame.momentAt(atS, row);
  return <g className={`moment ${className}`}><line {...moment.ends} /><text x={moment.label.x} y={moment.label.y} textAnchor={moment.label.anchor}>{words}</text></g>;
}
