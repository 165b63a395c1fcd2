import { memo, useState } from 'react';
import { isMovable, type BarHands } from './moves/useBarHands.ts';
import type { FramedBar, TimelineFrame } from './timelineFrame.ts';

interface Props {
  readonly frame: TimelineFrame;
  /** Where stops may be moved: what a bar listens to. */
  readonly hands: BarHands | undefined;
  /** Visits that a move would break, or that a newer plan changes. */
  readonly pointedAt: ReadonlySet<string>;
}

/** The bars of the timeline. Pointing at one marks every bar of the same visit. */
export const TimelineBars = memo(function TimelineBars({ frame, hands, pointedAt }: Props) {
  const [marked, mark] = useState<string>();
  const [focused, setFocused] = useState<string>();
  const entry = hands && (frame.bars.some(({ key }) => key === focused) ? focused : frame.bars.filter(isMovable).sort((a, b) => a.startS - b.startS)[0]?.key);
  const listen = (bar: FramedBar) => (hands === undefined || !isMovable(bar) ? { tabIndex: -1 } : {
    tabIndex: bar.key === entry ? 0 : -1, draggable: false, 'data-bar': bar.key, role: 'button', 'aria-label': `${bar.words}. Arrow keys move it.`,
    onPointerDown: (event: React.PointerEvent<Element>) => hands.onPointerDown(bar, event), onPointerMove: hands.onPointerMove, onPointerUp: hands.onPointerUp, onPointerCancel: hands.onPointerCancel,
    onClick: hands.onClick, onKeyDown: (event: React.KeyboardEvent<Element>) => hands.onKeyDown(bar, event), onFocus: () => setFocused(bar.key), onDragStart: (event: React.DragEvent) => event.preventDefault(),
  });
  const classOf = (bar: FramedBar): string => ['bar', bar.standing, ...(marked === bar.visit ? ['marked'] : []), ...(pointedAt.has(bar.visit) ? ['pointed-at'] : []), ...(hands && isMovable(bar) ? ['movable'] : [])].join(' ');
  return (
    <g className="bars">
      {frame.counts.map(({ key, box, people, fits }) => <g key={key} className="people"><rect {...box} />{fits && <text x={box.x + box.width / 2} y={box.y + box.height / 2} textAnchor="middle" dominantBaseline="central">{people}</text>}</g>)}
      {frame.traces.map((trace) => <line key={trace.key} {...trace.ends} className="trace" />)}
      {frame.bars.map((bar) => (
        <a key={bar.key} href={`#${CSS.escape(`visit-${bar.visit}`)}`} onMouseEnter={() => mark(bar.visit)} onMouseLeave={() => mark(undefined)} className={classOf(bar)} {...listen(bar)}>
          <title>{bar.words}</title>
          <rect x={bar.box.x} y={bar.box.y} width={bar.box.width} height={bar.box.height} />
          {bar.standing === 'failed' && <path d={crossOver(bar)} />}
          {bar.standing === 'done' && <path d={`M${bar.box.x} ${bar.box.y + bar.box.height / 2}h${bar.box.width}`} />}
          {bar.label && <text fontSize={bar.label.size} textAnchor="middle" dominantBaseline="central" transform={`translate(${bar.box.x + bar.box.width / 2} ${bar.box.y + bar.box.height / 2})${bar.label.upright ? '' : ' rotate(-90)'}`}>{bar.basin}</text>}
        </a>
      ))}
    </g>
  );
});

function crossOver({ box }: FramedBar): string {
  return `M${box.x} ${box.y}l${box.width} ${box.height}M${box.x + box.width} ${box.y}l${-box.width} ${box.height}`;
}
