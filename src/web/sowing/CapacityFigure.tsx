import { useId } from 'react';
import type { PlaceByWeek } from '../../desk/contract.ts';
import { dayMonth } from '../words/times.ts';
import { layCapacity } from './capacityLayout.ts';

/** Basins of one place week by week: what stands, what will be sown, and the limit. Weeks that are full carry a mark. */
export function CapacityFigure({ place }: { readonly place: PlaceByWeek }) {
  const hatch = useId();
  const drawn = layCapacity(place);
  const full = place.weeks.filter(({ binds }) => binds).length;
  return (
    <figure className="capacity">
      <figcaption><b>{place.title}</b>, {place.usableBasins} of {place.basins} basins to plan with; {full === 0 ? 'never full' : `full in ${full} of ${place.weeks.length} weeks (marked)`}</figcaption>
      <svg viewBox={`0 0 ${drawn.width} ${drawn.height}`} role="img" aria-label={`Basins taken in ${place.title} by week: ${place.weeks.slice(0, 8).map(({ from, standing, sown }) => `${dayMonth(from)} ${Math.round(standing + sown)}`).join(', ')}`}>
        <defs><pattern id={hatch} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="5" height="5" className="hatch-ground" /><line x1="0" y1="0" x2="0" y2="5" className="hatch-line" /></pattern></defs>
        {drawn.marks.map(({ y, text }) => <g key={text}><line x1={drawn.left} x2={drawn.width} y1={y} y2={y} className="capacity-grid" /><text x={drawn.left - 5} y={y + 4} textAnchor="end">{text}</text></g>)}
        {drawn.bars.map((bar) => (
          <g key={bar.from}>
            <rect x={bar.x} width={bar.width} y={bar.standingY} height={bar.standingHeight} fill={`url(#${hatch})`} className="capacity-bar" />
            <rect x={bar.x} width={bar.width} y={bar.sownY} height={bar.sownHeight} className="capacity-sown" />
            {bar.binds && <path d={`M${bar.x + bar.width / 2} ${drawn.limitY - 3} l-4 -7 h8 z`} className="capacity-full" />}
            {bar.label !== undefined && <text x={bar.x + bar.width / 2} y={drawn.height - 5} textAnchor="middle">{bar.label}</text>}
          </g>
        ))}
        <line x1={drawn.left} x2={drawn.width} y1={drawn.limitY} y2={drawn.limitY} className="capacity-limit" />
      </svg>
    </figure>
  );
}
