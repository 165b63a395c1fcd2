import type { ScannedPlant } from '../../desk/contract.ts';
import { bare, plain } from '../words/figures.ts';
import { dayMonth } from '../words/times.ts';
import { layHistory } from './historyLayout.ts';
import { plantName } from './plantWords.ts';
import { choiceOf } from './scoreChoices.ts';

const FRAME = { width: 420, height: 170, left: 40, right: 22, top: 22, bottom: 26 };

/** The plant over the scans of its lot: value, interval, and the letter of what was said of it. */
export function PlantHistoryFigure({ plant, zone }: { readonly plant: ScannedPlant; readonly zone: string }) {
  const layout = layHistory(plant, FRAME);
  if (layout === undefined) return null;
  const day = (at: string) => dayMonth(new Date(at).toLocaleDateString('en-CA', { timeZone: zone }));
  if (layout.points.length === 1) return <p className="soft small">This is the first scan of this plant; its history begins here.</p>;
  const words = layout.points.map(({ scan, value }) => `${day(scan.takenAt)} ${plain(value)} ${layout.unit}`).join(', ');
  return (
    <figure className="plant-history">
      <svg viewBox={`0 0 ${FRAME.width} ${FRAME.height}`} role="img" aria-label={`${layout.name} of ${plantName(plant)} over its scans: ${words}`}>
        {layout.ticks.map(({ value, y }) => <g key={value} className="axes"><line x1={FRAME.left} x2={FRAME.width - FRAME.right} y1={y} y2={y} /><text x={FRAME.left - 6} y={y + 4} textAnchor="end">{bare(value)}</text></g>)}
        <text x={0} y={12}>{layout.unit}</text>
        <path d={layout.path} className="middle" />
        {layout.points.map(({ x, y, low, high, scan }) => {
          const choice = choiceOf(scan.score);
          return (
            <g key={scan.scan} className="point">
              {low !== undefined && high !== undefined && <path d={`M${x} ${low}V${high}m-4 0h8M${x - 4} ${low}h8`} className="interval" />}
              <circle cx={x} cy={y} r="4" />
              {choice && <text x={x} y={(high ?? y) - 8} textAnchor="middle" className="letter">{choice.letter}</text>}
              <text x={x} y={FRAME.height - 8} textAnchor="middle">{day(scan.takenAt)}</text>
            </g>
          );
        })}
      </svg>
      <figcaption className="soft small">{layout.name} over the scans of this lot, {layout.unit}{layout.unit === 'g' ? '; the bars hold the true mass nine times in ten' : ''}. Letters: scores.</figcaption>
    </figure>
  );
}
