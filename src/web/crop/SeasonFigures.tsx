import type { BaySeason } from '../../desk/contract.ts';
import { useNarrow } from '../parts/useNarrow.ts';
import { bare, percent } from '../words/figures.ts';
import { dayMonth } from '../words/times.ts';
import { laySeason, type SeasonFrame } from './seasonLayout.ts';

const DESK: SeasonFrame = { width: 620, height: 220, left: 34, right: 10, top: 20, bottom: 26 };
const PHONE: SeasonFrame = { width: 358, height: 200, left: 30, right: 6, top: 20, bottom: 26 };

/** Two pictures a bay: light by day outdoors and above the crop, and temperature. */
export function SeasonFigures({ bays, date }: { readonly bays: readonly BaySeason[]; readonly date: string }) {
  const narrow = useNarrow();
  if (bays.length === 0) return <p>There is no climate before a plan was computed.</p>;
  return <div className="seasons">{bays.map((bay) => <Bay key={bay.bay} bay={bay} date={date} frame={narrow ? PHONE : DESK} />)}</div>;
}

function Bay({ bay, date, frame }: { readonly bay: BaySeason; readonly date: string; readonly frame: SeasonFrame }) {
  const drawn = laySeason(bay, frame);
  const base = frame.height - frame.bottom;
  const place = bay.days.findIndex((day) => day.date === date);
  const past = bay.days.slice(0, Math.max(0, place));
  const mean = (of: (day: BaySeason['days'][number]) => number, days: BaySeason['days']): number => days.reduce((sum, day) => sum + of(day), 0) / Math.max(1, days.length);
  const ahead = bay.days.slice(Math.max(0, place));
  const words = `${bay.title}: ${bare(Number(mean(({ insideMol }) => insideMol, ahead).toFixed(1)))} mol/(m² d) above the crop on average over the days ahead, ${bare(Number(mean(({ lampMol }) => lampMol, ahead).toFixed(1)))} of them from lamps; ${bare(Number(mean(({ insideC }) => insideC, ahead).toFixed(1)))} °C.`;
  const today = place === -1 ? null : <g className="today"><line x1={drawn.x(place)} x2={drawn.x(place)} y1={frame.top - 4} y2={base} /><text x={drawn.x(place)} y={frame.top - 7} textAnchor="middle">today</text></g>;
  const axis = (ticks: readonly { readonly y: number; readonly text: string }[], unit: string) => (
    <g className="axes">
      {ticks.map(({ y, text }) => <g key={text}><line x1={frame.left} x2={frame.width - frame.right} y1={y} y2={y} /><text x={frame.left - 5} y={y + 4} textAnchor="end">{text}</text></g>)}
      <text x={0} y={11}>{unit}</text>
      {drawn.dates.map((tick) => <text key={tick.date} x={tick.x} y={frame.height - 8} textAnchor="middle">{dayMonth(tick.date)}</text>)}
    </g>
  );
  return (
    <figure className="season fan">
      <figcaption><b>{bay.title}</b>. {words.slice(bay.title.length + 2)} {past.length > 0 && <span className="soft">Of the hours before today {percent(mean(({ measuredShare }) => measuredShare, past))} were measured.</span>}</figcaption>
      <svg viewBox={`0 0 ${frame.width} ${frame.height}`} role="img" aria-label={`Light by day, ${words}`}>
        {axis(drawn.lightTicks, 'mol/(m² d)')}
        {drawn.bars.map((bar) => <g key={bar.date}><rect x={bar.x} width={bar.width} y={bar.sunY} height={bar.sunHeight} className="season-sun" /><rect x={bar.x} width={bar.width} y={bar.lampY} height={bar.lampHeight} className="season-lamp" /></g>)}
        <path d={drawn.outside} className="season-outside" />
        {today}
      </svg>
      <svg viewBox={`0 0 ${frame.width} ${frame.height}`} role="img" aria-label={`Temperature by day in ${bay.title}: mean inside ${bare(Number(mean(({ insideC }) => insideC, bay.days).toFixed(1)))} °C, outside ${bare(Number(mean(({ outsideC }) => outsideC, bay.days).toFixed(1)))} °C`}>
        {axis(drawn.airTicks, '°C')}
        <path d={drawn.band} className="outer" />
        <path d={drawn.insideC} className="middle" />
        <path d={drawn.outsideC} className="season-outside" />
        {today}
      </svg>
      <p className="soft small">Light: bars above the crop, sun solid, lamps in outline; dashed line outdoors. Temperature: line inside, band from the coldest to the warmest hour, dashed line outdoors.</p>
    </figure>
  );
}
