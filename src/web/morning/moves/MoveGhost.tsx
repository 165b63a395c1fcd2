import type { TimelineFrame } from '../timelineFrame.ts';
import type { StopMove } from './stopMove.ts';

/** The stop where it would be, with its time; the bar stays where the plan has it. `fromS`: start of the part of the day that is drawn. */
export function MoveGhost({ move, frame, fromS, words }: { readonly move: StopMove; readonly frame: TimelineFrame; readonly fromS: number; readonly words: string }) {
  const { station, startS, lengthS, planned } = move;
  const tracks = station === planned.station ? planned.track : 0;
  const box = frame.boxOf(station, tracks, startS - fromS, startS - fromS + lengthS);
  const was = frame.boxOf(planned.station, planned.track, planned.startS - fromS, planned.startS - fromS + lengthS);
  const middle = (of: typeof box) => ({ x: of.x + of.width / 2, y: of.y + of.height / 2 });
  const [from, to] = [middle(was), middle(box)];
  return (
    <g className="move-ghost" aria-hidden="true">
      <line x1={from.x} y1={from.y} x2={to.x} y2={to.y} />
      <rect {...box} />
      <text x={to.x} y={box.y - 4} textAnchor="middle">{words}</text>
    </g>
  );
}
