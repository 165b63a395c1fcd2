import { useEffect, useMemo, useRef, useState, type KeyboardEvent } from 'react';
import type { ScanAnswer } from '../../../desk/contract.ts';
import { Trouble } from '../../parts/Trouble.tsx';
import { useNarrow } from '../../parts/useNarrow.ts';
import { count, fixed } from '../../words/figures.ts';
import type { Colouring } from '../colourings.ts';
import type { HeightPicture } from '../picture/heightPicture.ts';
import { ARROWS, stepFrom } from '../plantSteps.ts';
import { lookingAt, moved, turned, type Orbit } from './orbit.ts';
import { useOrbit } from './useOrbit.ts';
import { usePoints } from './usePoints.ts';
import { useRelief } from './useRelief.ts';
import { withOutline } from './withOutline.ts';

interface Props {
  readonly scan: ScanAnswer;
  readonly picture: HeightPicture;
  readonly painted: HTMLCanvasElement;
  readonly colouring: Colouring;
  readonly what: 'surface' | 'points';
  readonly picked: number | undefined;
  readonly pick: (plant: number) => void;
  readonly label: string;
}

/** A phone asks before it fetches more than this. */
const PHONE_POINTS = 500_000;
const PICKED = [10, 92, 102] as const;
/** Buttons that do what dragging does. */
const MOVES: readonly { readonly word: string; readonly sign: string; readonly by: (orbit: Orbit) => Orbit }[] = [
  { word: 'Turn left', sign: '↺', by: (orbit) => turned(orbit, -15, 0) },
  { word: 'Turn right', sign: '↻', by: (orbit) => turned(orbit, 15, 0) },
  { word: 'Look from higher', sign: '↑', by: (orbit) => turned(orbit, 0, 10) },
  { word: 'Look from lower', sign: '↓', by: (orbit) => turned(orbit, 0, -10) },
  { word: 'Nearer', sign: '+', by: (orbit) => moved(orbit, 0.8) },
  { word: 'Further', sign: '−', by: (orbit) => moved(orbit, 1.25) },
];

/** The basin in relief: its surface, or the points themselves. Keys pick as on the picture from above. */
export function ReliefView({ scan, picture, painted, colouring, what, picked, pick, label }: Props) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const drawn = useRef<HTMLSpanElement>(null);
  const narrow = useNarrow();
  const [all, wantAll] = useState(false);
  const { relief, trouble } = useRelief(canvas, picture, scan.plants.length, (points) => { if (drawn.current !== null) drawn.current.textContent = count(points, 'point'); });
  const points = usePoints(relief, scan.basin, scan.summary.scan, what === 'points', narrow && !all ? PHONE_POINTS : Number.MAX_SAFE_INTEGER);
  const [orbit, change, hands] = useOrbit(canvas, startOf(picture, narrow), (x, y) => {
    const frame = canvas.current?.getBoundingClientRect();
    const cell = frame && relief?.cellUnder((2 * (x - frame.left)) / frame.width - 1, 1 - (2 * (y - frame.top)) / frame.height);
    const under = cell === undefined ? 0 : picture.labels[cell] ?? 0;
    if (under > 0) pick(under - 1);
  });
  const outlined = useMemo(() => withOutline(painted, picture, picked), [painted, picture, picked]);
  const place = picked === undefined ? undefined : scan.plants[picked];
  useEffect(() => relief?.show(what), [relief, what]);
  useEffect(() => relief?.look(orbit), [relief, orbit]);
  useEffect(() => { if (place !== undefined) change((is) => (is.farMm < 1500 ? lookingAt(is, place.xMm, place.yMm) : is)); }, [place, change]);
  useEffect(() => {
    const tints = scan.plants.map((_, index) => (index === picked ? PICKED : colouring.paint.ofPlants?.[index]));
    const { levels } = colouring.paint;
    relief?.colour(outlined, tints, levels && colouring.topMm !== undefined ? { table: levels.colours, topMm: colouring.topMm } : undefined);
  }, [relief, outlined, colouring, picked, scan.plants]);
  useEffect(() => {
    const on = canvas.current;
    if (relief === undefined || on === null) return undefined;
    const watch = new ResizeObserver(([entry]) => { if (entry && entry.contentRect.width > 0) relief.resize(entry.contentRect.width, entry.contentRect.height); });
    watch.observe(on);
    return () => watch.disconnect();
  }, [relief]);
  const step = (event: KeyboardEvent): void => {
    const arrow = ARROWS[event.key];
    if (arrow === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    pick(stepFrom(scan.plants, picked, arrow));
  };
  if (trouble !== undefined) return <p className="notice" role="status">{trouble}</p>;
  return (
    <div className="relief">
      <div className="relief-box" tabIndex={0} role="group" aria-label={label} onKeyDown={step}><canvas ref={canvas} aria-hidden="true" {...hands} /></div>
      <div className="relief-moves" role="group" aria-label="Where to look from">
        {MOVES.map(({ word, sign, by }) => <button key={word} type="button" aria-label={word} title={word} onClick={() => change(by)}>{sign}</button>)}
        <button type="button" onClick={() => change(() => startOf(picture, narrow))}>Whole basin</button>
      </div>
      {relief === undefined && <p className="soft" role="status">Fetching what draws in relief …</p>}
      {what === 'points' && (
        <p className="soft small points-words">
          {points.kept === undefined ? 'Fetching points …' : <>{fixed(points.loaded, 0)} of {count(points.kept, 'point')} are here; drawn now: <span ref={drawn} />. While it turns fewer are drawn.</>}
          {narrow && !all && points.kept !== undefined && points.loaded < points.kept && points.loaded >= PHONE_POINTS && <button type="button" onClick={() => wantAll(true)}>Fetch all, {Math.ceil((points.kept * 11) / 1e6)} MB</button>}
        </p>
      )}
      {points.error && <Trouble error={points.error} />}
    </div>
  );
}

/** The whole basin in view: on a phone it is taller than wide, so the eye stands further off. */
const startOf = ({ columns, rows, cellMm }: HeightPicture, narrow: boolean): Orbit => ({ turnDeg: 18, tiltDeg: 52, farMm: Math.max((narrow ? 2 : 1.25) * columns, 1.5 * rows) * cellMm, atXMm: 0, atYMm: 0 });
