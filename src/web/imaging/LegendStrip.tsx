import type { Legend } from './colourings.ts';
import type { Rgb } from './picture/ramp.ts';

const css = ([r, g, b]: Rgb): string => `rgb(${r} ${g} ${b})`;
const CELL = 10;

/** What the colours mean: in words first, then as a strip or as single colours with their letters. */
export function LegendStrip({ legend }: { readonly legend: Legend }) {
  return (
    <div className="legend">
      <p>{legend.words}</p>
      {legend.strip && (
        <div className="legend-strip">
          <svg viewBox={`0 0 ${legend.strip.colours.length * CELL} 12`} preserveAspectRatio="none" aria-hidden="true">{legend.strip.colours.map((colour, i) => <rect key={css(colour)} x={i * CELL} width={CELL + 0.5} height="12" fill={css(colour)} />)}</svg>
          <ol>{legend.strip.marks.map((mark) => <li key={mark}>{mark}</li>)}</ol>
        </div>
      )}
      {legend.swatches && <ul className="swatches">{legend.swatches.map(({ colour, word, letter }) => <li key={letter}><svg viewBox="0 0 20 20" width="20" height="20" aria-hidden="true"><rect width="20" height="20" fill={css(colour)} stroke="currentColor" /></svg><b>{letter}</b> {word.toLowerCase()}</li>)}</ul>}
    </div>
  );
}
