import type { FramedBar, TimelineFrame } from './timelineFrame.ts';

/** The bars of the timeline. Pointing at one marks every bar of the same visit. */
export function TimelineBars({ frame, marked, mark }: { readonly frame: TimelineFrame; readonly marked: string | undefined; readonly mark: (visit: string | undefined) => void }) {
  return (
    <g className="bars">
      {frame.traces.map((trace) => <line key={trace.key} {...trace.ends} className="trace" />)}
      {frame.bars.map((bar) => (
        <a key={bar.key} href={`#${CSS.escape(`visit-${bar.visit}`)}`} tabIndex={-1} onMouseEnter={() => mark(bar.visit)} onMouseLeave={() => mark(undefined)} className={`bar ${bar.standing}${marked === bar.visit ? ' marked' : ''}`}>
          <title>{bar.words}</title>
          <rect x={bar.box.x} y={bar.box.y} width={bar.box.width} height={bar.box.height} />
          {bar.standing === 'failed' && <path d={crossOver(bar)} />}
          {bar.standing === 'done' && <path d={`M${bar.box.x} ${bar.box.y + bar.box.height / 2}h${bar.box.width}`} />}
          {bar.label && <text fontSize={bar.label.size} textAnchor="middle" dominantBaseline="central" transform={`translate(${bar.box.x + bar.box.width / 2} ${bar.box.y + bar.box.height / 2})${bar.label.upright ? '' : ' rotate(-90)'}`}>{bar.basin}</text>}
        </a>
      ))}
    </g>
  );
}

function crossOver({ box }: FramedBar): string {
  return `M${box.x} ${box.y}l${box.width} ${box.height}M${box.x + box.width} ${box.y}l${-box.width} ${box.height}`;
}
