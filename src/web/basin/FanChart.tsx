import type { LotOutlook } from '../../desk/contract.ts';
import { useNarrow } from '../parts/useNarrow.ts';
import { bare } from '../words/figures.ts';
import { dayMonth } from '../words/times.ts';
import { layFan, type FanFrame, type FanLayout } from './fanLayout.ts';

const DESK: FanFrame = { width: 760, height: 380, left: 46, right: 26, top: 24, bottom: 30 };
const PHONE: FanFrame = { width: 358, height: 300, left: 38, right: 24, top: 24, bottom: 30 };

interface Props { readonly lot: LotOutlook; readonly date: string; readonly readyG: number | undefined; readonly latestG: number | undefined }

/** The forecast of a lot as a fan, the weighed samples on it, and the weight at which it is ready. */
export function FanChart({ lot, date, readyG, latestG }: Props) {
  const narrow = useNarrow();
  const frame = narrow ? PHONE : DESK;
  const fan = layFan(lot, frame, [readyG ?? 0]);
  if (fan === undefined) return <p>There is no forecast of this lot yet.</p>;
  return (
    <figure className="fan">
      <svg viewBox={`0 0 ${frame.width} ${frame.height}`} role="img" aria-label={`Forecast of the fresh mass of one plant of lot ${lot.lot} by day, in grams, with ${lot.samples.length} samples`}>
        <Axes fan={fan} frame={frame} />
        <path d={fan.outer} className="outer" />
        <path d={fan.inner} className="inner" />
        <path d={fan.middle} className="middle" />
        {readyG !== undefined && <Level fan={fan} frame={frame} atG={readyG} words={`ready at ${bare(readyG)} g`} />}
        {latestG !== undefined && latestG < (fan.ticksG.at(-1) ?? 0) && <Level fan={fan} frame={frame} atG={latestG} words={`too heavy above ${bare(latestG)} g`} />}
        <g className="today"><line x1={fan.x(date)} x2={fan.x(date)} y1={frame.top - 6} y2={frame.height - frame.bottom} /><text x={fan.x(date)} y={frame.top - 10} textAnchor="middle">today</text></g>
        {fan.samples.map((sample) => <g key={sample.words} className="sample"><title>{sample.words}</title><path d={`M${sample.x - 6} ${sample.y}h12M${sample.x} ${sample.y - 6}v12`} /></g>)}
      </svg>
      <figcaption className="soft small">Fresh shoot mass of one plant, g. Line: median. Dark band: 25 to 75 %. Light band: 5 to 95 % of forecasts. Crosses: means of plants that were cut and weighed ({lot.samples.length}). Lot {lot.lot}, sown {dayMonth(lot.sown)}, in its basins since {dayMonth(lot.placed)}.</figcaption>
    </figure>
  );
}

function Axes({ fan, frame }: { readonly fan: FanLayout; readonly frame: FanFrame }) {
  const bottom = frame.height - frame.bottom;
  return (
    <g className="axes">
      {fan.ticksG.map((value) => <g key={value}><line x1={frame.left} x2={frame.width - frame.right} y1={fan.y(value)} y2={fan.y(value)} /><text x={frame.left - 6} y={fan.y(value) + 4} textAnchor="end">{bare(value)}</text></g>)}
      <text x={0} y={12}>g</text>
      {fan.ticksDate.map((date) => <g key={date}><line x1={fan.x(date)} x2={fan.x(date)} y1={bottom} y2={bottom + 5} className="tick" /><text x={fan.x(date)} y={bottom + 20} textAnchor="middle">{dayMonth(date)}</text></g>)}
    </g>
  );
}

function Level({ fan, frame, atG, words }: { readonly fan: FanLayout; readonly frame: FanFrame; readonly atG: number; readonly words: string }) {
  return <g className="level"><line x1={frame.left} x2={frame.width - frame.right} y1={fan.y(atG)} y2={fan.y(atG)} /><text x={frame.left + 6} y={fan.y(atG) - 5}>{words}</text></g>;
}
