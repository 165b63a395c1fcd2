import { useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { PlanAnswer } from '../../desk/contract.ts';
import { planQuestion } from '../ask/questions.ts';
import { useTitleOf } from '../ask/useTitleOf.ts';
import { lateWords } from '../morning/lateWords.ts';
import { TimelineBars } from '../morning/TimelineBars.tsx';
import { LaneTitles, MomentLine, TimeLines } from '../morning/TimelineFigure.tsx';
import { ACROSS, drawAcross, drawDown } from '../morning/timelineFrame.ts';
import { layTimeline, sliceTimeline } from '../morning/timelineLayout.ts';
import { Asked } from '../parts/Asked.tsx';
import { useNarrow } from '../parts/useNarrow.ts';
import { asSentence, fixed, withUnit } from '../words/figures.ts';
import { clockTime, longDate } from '../words/times.ts';
import { nextWays } from './nextWays.ts';
import { useNow } from './useNow.ts';
import '../morning/morning.css';
import './wall.css';

const REFRESH_MS = 30_000;
/** What is shown of the day: from a little before now to the next hour. */
const BEFORE_S = 10 * 60;
const AFTER_S = 65 * 60;
const NOTHING = {};
const NOBODY: ReadonlySet<string> = new Set();

/** The day for a screen on the wall: what is under way, what comes next, what is late. Refreshes by itself; nothing to press. */
export function WallPage() {
  const query = useQuery({ ...planQuestion, refetchInterval: REFRESH_MS });
  return <Asked query={query} what="the plan of the day">{(answer) => <Wall answer={answer} />}</Asked>;
}

function Wall({ answer }: { readonly answer: PlanAnswer }) {
  const nowAt = useNow(answer.nowAt);
  const narrow = useNarrow();
  const titleOf = useTitleOf();
  const sheet = answer.inForce?.sheet ?? answer.proposal?.sheet;
  const outcomes = answer.inForce?.outcomes ?? NOTHING;
  const whole = useMemo(() => sheet && layTimeline(sheet, outcomes), [sheet, outcomes]);
  if (sheet === undefined || whole === undefined) return <h1>The day is being planned</h1>;
  const { startAt, finishAt, boundAt, gapPct, binds } = sheet.timeline;
  const zone = sheet.timeZone;
  const fromS = Math.max(0, Math.floor((Date.parse(nowAt) - Date.parse(startAt)) / 60_000) * 60 - BEFORE_S);
  const layout = sliceTimeline(whole, fromS, fromS + BEFORE_S + AFTER_S);
  const frame = narrow ? drawDown(layout) : drawAcross(layout, ACROSS.wall);
  const clockOf = (s: number) => clockTime(new Date(Date.parse(startAt) + (fromS + s) * 1000).toISOString(), zone);
  const late = lateWords(sheet, outcomes, nowAt, titleOf);
  const moments = [
    { name: 'bound', atS: layout.boundS, words: `no plan ends before ${clockTime(boundAt, zone)}` },
    { name: 'finish', atS: layout.finishS, words: `last basin back ${clockTime(finishAt, zone)}` },
    { name: 'now', atS: (Date.parse(nowAt) - Date.parse(startAt)) / 1000 - fromS, words: 'now' },
  ];
  return (
    <div className="wall">
      <header>
        <h1>{clockTime(nowAt, zone)}</h1>
        <p><b>{answer.greenhouse.name}</b>{longDate(sheet.date)}{answer.inForce ? '' : ' · proposed, not approved yet'}</p>
        <p><b>Last basin back {clockTime(finishAt, zone)}</b>What binds: {asSentence(binds).toLowerCase()} At most {withUnit(fixed(gapPct, gapPct < 10 ? 1 : 0), '%')} over the proven bound.</p>
        <p className={late.length > 0 ? 'wall-late' : ''}><b>{late.length > 0 ? 'Late' : 'Nothing is overdue'}</b>{late.join(' ')}</p>
      </header>
      <svg viewBox={`0 0 ${frame.width} ${frame.height}`} role="img" aria-label={`Stations, people and vehicles from ${clockOf(0)} to ${clockOf(layout.lengthS)}. The next ways of each vehicle stand below in words.`}>
        <TimeLines frame={frame} lengthS={layout.lengthS} startMs={Date.parse(startAt) + fromS * 1000} clockOf={clockOf} />
        <LaneTitles frame={frame} />
        <TimelineBars frame={frame} hands={undefined} pointedAt={NOBODY} />
        {moments.map((moment, row) => moment.atS >= 0 && moment.atS <= layout.lengthS && <MomentLine key={moment.name} frame={frame} atS={moment.atS} className={moment.name} words={moment.words} row={row} />)}
      </svg>
      <ul className="wall-next">
        {nextWays(sheet, nowAt, 4).map(({ id, title, ways }) => (
          <li key={id}>
            <h2>{title}</h2>
            {ways.length === 0 && <p>Nothing more today.</p>}
            <ol>{ways.map((way) => <li key={way.visit + way.pickAt}><span className="figures">{clockTime(way.pickAt, zone)}</span> <b>{way.basin}</b> to {way.station === undefined ? `berth ${way.berth}` : titleOf(way.station)}</li>)}</ol>
          </li>
        ))}
      </ul>
    </div>
  );
}
