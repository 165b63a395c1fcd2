import { COLOURING_WORDS, type ColouringName } from './colourings.ts';

export type ViewName = 'above' | 'surface' | 'points';
const VIEW_WORDS: Readonly<Record<ViewName, string>> = { above: 'From above', surface: 'Relief', points: 'Points' };
export const ZOOMS = [1, 1.5, 2, 3, 4.5] as const;

interface Props {
  readonly view: ViewName;
  readonly setView: (view: ViewName) => void;
  readonly colour: ColouringName;
  /** Colours show something else now, which is said in the legend. */
  readonly colourBound: boolean;
  readonly setColour: (name: ColouringName) => void;
  readonly marks: boolean;
  readonly setMarks: (marks: boolean) => void;
  readonly zoom: number;
  readonly setZoom: (zoom: number) => void;
}

const names = <T extends string>(words: Readonly<Record<T, string>>): readonly T[] => Object.keys(words) as T[];

/** What the picture shows and how. */
export function PictureTools({ view, setView, colour, colourBound, setColour, marks, setMarks, zoom, setZoom }: Props) {
  const place = ZOOMS.indexOf(zoom as (typeof ZOOMS)[number]);
  return (
    <div className="picture-tools no-print">
      <div className="joined" role="group" aria-label="Seen">{names(VIEW_WORDS).map((name) => <button key={name} type="button" aria-pressed={view === name} onClick={() => setView(name)}>{VIEW_WORDS[name]}</button>)}</div>
      <div className="joined" role="group" aria-label="Coloured by">{names(COLOURING_WORDS).map((name) => <button key={name} type="button" aria-pressed={!colourBound && colour === name} onClick={() => setColour(name)}>{COLOURING_WORDS[name]}</button>)}</div>
      {view === 'above' && (
        <div className="joined" role="group" aria-label="Picture">
          <button type="button" aria-pressed={marks} onClick={() => setMarks(!marks)}>Marks</button>
          <button type="button" aria-label="Smaller" disabled={place <= 0} onClick={() => setZoom(ZOOMS[place - 1] ?? 1)}>−</button>
          <button type="button" aria-label="Larger" disabled={place === ZOOMS.length - 1} onClick={() => setZoom(ZOOMS[place + 1] ?? zoom)}>+</button>
        </div>
      )}
    </div>
  );
}
