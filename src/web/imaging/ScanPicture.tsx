import { useMemo, useState } from 'react';
import type { ScanAnswer } from '../../desk/contract.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { dateTime } from '../words/times.ts';
import { changeColouring, colouringOf, type Colouring, type ColouringName } from './colourings.ts';
import type { Comparing } from './DateChoice.tsx';
import { LegendStrip } from './LegendStrip.tsx';
import type { HeightPicture } from './picture/heightPicture.ts';
import { PictureTools, type ViewName } from './PictureTools.tsx';
import { plantKey } from './plantWords.ts';
import { ReliefView } from './relief/ReliefView.tsx';
import { TopView } from './TopView.tsx';
import { useHeightPicture } from './useHeightPicture.ts';
import { usePainted } from './usePainted.ts';

interface Props {
  readonly scan: ScanAnswer;
  /** The scan it is compared with. */
  readonly other: ScanAnswer | undefined;
  readonly comparing: Comparing;
  readonly zone: string;
  readonly narrow: boolean;
  readonly picked: number | undefined;
  readonly pick: (plant: number) => void;
}

/** The picture of a scan with its tools and its legend; beside it, where asked for, that of another date. */
export function ScanPicture({ scan, other, comparing, zone, narrow, picked, pick }: Props) {
  const [view, setView] = useState<ViewName>('above');
  const [colour, setColour] = useState<ColouringName>('seen');
  const [marks, setMarks] = useState(true);
  const [zoom, setZoom] = useState(narrow ? 2 : 1);
  const field = useHeightPicture(scan.basin, scan.hasPicture ? scan.summary.scan : undefined);
  const before = useHeightPicture(scan.basin, other?.hasPicture ? other.summary.scan : undefined);
  const changes = other !== undefined && comparing === 'change';
  const colouring = useMemo(() => colouringFor(scan, field.data, changes ? { before: before.data, words: dateTime(other.summary.takenAt, zone) } : undefined, colour), [scan, field.data, changes, before.data, other, zone, colour]);
  const painted = usePainted(field.data, colouring?.paint);
  if (!scan.hasPicture) return <p className="notice">The picture of this scan was removed to save room; its figures are kept. The list and the figures beside it still work.</p>;
  if (field.error) return <Trouble error={field.error} again={() => void field.refetch()} />;
  const label = `Basin ${scan.basin} ${view === 'above' ? 'from above' : 'in relief'}, ${dateTime(scan.summary.takenAt, zone)}. Arrow keys go from plant to plant; letters score the picked one.`;
  return (
    <figure className="scan-picture">
      <PictureTools view={view} setView={setView} colour={colour} colourBound={changes} setColour={setColour} marks={marks} setMarks={setMarks} zoom={zoom} setZoom={setZoom} />
      {field.data === undefined || painted === undefined || colouring === undefined ? <p className="soft above-waits" role="status">Fetching the picture …</p> : view === 'above'
        ? <TopView scan={scan} picture={field.data} painted={painted} marks={marks} proposals={colour === 'score'} zoom={zoom} picked={picked} pick={pick} label={label} />
        : <ReliefView scan={scan} picture={field.data} painted={painted} colouring={colouring} what={view} picked={picked} pick={pick} label={label} />}
      {colouring && <LegendStrip legend={colouring.legend} />}
      {changes && before.data === undefined && <p className="soft" role="status">Fetching the other picture …</p>}
      {other && comparing === 'beside' && before.data && field.data && <Beside other={other} picture={before.data} like={scan} likePicture={field.data} colour={colour} marks={marks} zoom={zoom} zone={zone} picked={scan.plants[picked ?? -1]} pick={(key) => { const index = scan.plants.findIndex((plant) => plantKey(plant) === key); if (index >= 0) pick(index); }} />}
      <figcaption className="soft small">{view === 'above' ? 'To scale, as the rafts float. Dot: plant. Cross: nothing grows. Diamond: to look at. Letter in a circle: score; in a broken circle: proposed only. The number in the corner of a raft is its own.' : 'Drag to turn, pinch or wheel to come nearer, press a plant to pick it. Leaves hide what lies under them: where the camera saw nothing there is nothing.'}</figcaption>
    </figure>
  );
}

function colouringFor(scan: ScanAnswer, picture: HeightPicture | undefined, change: { readonly before: HeightPicture | undefined; readonly words: string } | undefined, colour: ColouringName): Colouring | undefined {
  if (picture === undefined) return undefined;
  if (change?.before !== undefined) return changeColouring(picture, change.before, change.words);
  return colouringOf(colour, scan.plants, picture);
}

interface BesideProps {
  readonly other: ScanAnswer;
  readonly picture: HeightPicture;
  /** The scan and picture whose scale is used. */
  readonly like: ScanAnswer;
  readonly likePicture: HeightPicture;
  readonly colour: ColouringName;
  readonly marks: boolean;
  readonly zoom: number;
  readonly zone: string;
  readonly picked: ScanAnswer['plants'][number] | undefined;
  readonly pick: (plant: string) => void;
}

/** The same basin at the other date, in the same colours and scale. */
function Beside({ other, picture, like, likePicture, colour, marks, zoom, zone, picked, pick }: BesideProps) {
  const { paint } = useMemo(() => colouringOf(colour, other.plants, picture, { plants: like.plants, picture: likePicture }), [colour, other.plants, picture, like.plants, likePicture]);
  const painted = usePainted(picture, paint);
  const place = picked === undefined ? -1 : other.plants.findIndex((plant) => plantKey(plant) === plantKey(picked));
  const when = dateTime(other.summary.takenAt, zone);
  if (painted === undefined) return null;
  return (
    <>
      <h3>{when}</h3>
      <TopView scan={other} picture={picture} painted={painted} marks={marks} proposals={colour === 'score'} zoom={zoom} picked={place < 0 ? undefined : place} pick={(index) => { const plant = other.plants[index]; if (plant) pick(plantKey(plant)); }} label={`Basin ${other.basin} from above, ${when}`} />
    </>
  );
}
