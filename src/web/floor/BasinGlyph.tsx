import type { BasinStanding } from '../../desk/contract.ts';
import { markOf } from './standings.ts';

interface Box { readonly x: number; readonly y: number; readonly width: number; readonly height: number }

/** A basin seen from above, its standing said by shape: units are those of the drawing. */
export function BasinGlyph({ box, standing }: { readonly box: Box; readonly standing: BasinStanding }) {
  const mark = markOf(standing);
  return (
    <g className={`basin-glyph ${mark}`}>
      <rect {...box} />
      {drawMark(mark, box)}
    </g>
  );
}

function drawMark(mark: ReturnType<typeof markOf>, { x, y, width, height }: Box) {
  const right = x + width;
  switch (mark) {
    case 'flag': return <path className="solid" d={`M${right - height * 0.75} ${y}H${right}V${y + height * 0.75}z`} />;
    case 'bar': return <rect className="solid" x={right - height * 0.28} y={y} width={height * 0.28} height={height} />;
    case 'wave': return <path className="line" d={waves(right - height * 0.7, y, height)} />;
    case 'question': return <text x={right - height * 0.32} y={y + height * 0.5} fontSize={height * 0.62} textAnchor="middle" dominantBaseline="central">?</text>;
    default: return null;
  }
}

function waves(left: number, top: number, height: number): string {
  const [run, rise] = [height * 0.145, -height * 0.22];
  return [0.36, 0.68].map((at) => `M${left} ${top + height * at}q${run} ${rise} ${2 * run} 0t${2 * run} 0`).join('');
}
