import type { WeekResource } from '../../desk/contract.ts';
import { count } from '../words/figures.ts';
import { dayMonth } from '../words/times.ts';
import { layLoads } from './loadLayout.ts';
import { useId } from 'react';

/** Hours asked of one resource day by day, with the line of what the shift has. Days that are over carry a mark and a hatched part. */
export function LoadFigure({ resource, dates }: { readonly resource: WeekResource; readonly dates: readonly string[] }) {
  const hatch = useId();
  const drawn = layLoads(resource, dates);
  const over = drawn.bars.filter(({ isOver }) => isOver);
  return (
    <figure className="load">
      <figcaption><b>{resource.title}</b>, hours a day; {over.length === 0 ? 'never over' : `over on ${over.length === 1 ? dayMonth(over[0]!.date) : count(over.length, 'day')} (marked)`}</figcaption>
      <svg viewBox={`0 0 ${drawn.width} ${drawn.height}`} role="img" aria-label={`${resource.title}, hours by day: ${dates.map((date, i) => `${dayMonth(date)} ${(resource.loadMin[i]! / 60).toFixed(1)} of ${(resource.capacityMin[i]! / 60).toFixed(1)}`).join(', ')}`}>
        <defs><pattern id={hatch} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="5" height="5" className="load-ground" /><line x1="0" y1="0" x2="0" y2="5" className="load-hatch" /></pattern></defs>
        {drawn.marks.map(({ y, text }) => <g key={text}><line x1={drawn.left} x2={drawn.width} y1={y} y2={y} className="load-grid" /><text x={drawn.left - 5} y={y + 4} textAnchor="end">{text}</text></g>)}
        {drawn.bars.map((bar) => (
          <g key={bar.date}>
            <rect x={bar.x} width={bar.width} y={bar.y} height={bar.height} className="load-within" />
            {bar.isOver && <rect x={bar.x} width={bar.width} y={bar.overY} height={bar.overHeight} fill={`url(#${hatch})`} className="load-over" />}
            {bar.isOver && <path d={`M${bar.x + bar.width / 2} ${bar.overY - 3} l-4 -7 h8 z`} className="load-mark" />}
            {bar.moves && <line x1={bar.x - 1} x2={bar.x + bar.width + 1} y1={bar.levelledY} y2={bar.levelledY} className="load-levelled" />}
            {bar.label !== undefined && <text x={bar.x + bar.width / 2} y={drawn.height - 5} textAnchor="middle">{bar.label}</text>}
          </g>
        ))}
        <path d={drawn.capacity} className="load-capacity" />
      </svg>
    </figure>
  );
}
