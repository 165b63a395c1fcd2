import { useQuery } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import type { BasinScansAnswer, ScanAnswer } from '../../desk/contract.ts';
import { scanQuestion } from '../ask/questions.ts';
import { Section } from '../parts/Section.tsx';
import { useNarrow } from '../parts/useNarrow.ts';
import { dateTime } from '../words/times.ts';
import { DateChoice, type Comparing } from './DateChoice.tsx';
import { plantKey, plantSentence } from './plantWords.ts';
import { PlantPanel } from './PlantPanel.tsx';
import { ScanPicture } from './ScanPicture.tsx';
import type { ScanSearch } from './scanSearch.ts';
import { qualitySentences, scanSentence } from './scanWords.ts';
import { ToLookAt } from './ToLookAt.tsx';
import { useScanKeys } from './useScanKeys.ts';
import { useScoring } from './useScoring.ts';

interface Props { readonly scans: BasinScansAnswer; readonly scan: ScanAnswer; readonly zone: string; readonly search: ScanSearch; readonly go: (change: Partial<ScanSearch>) => void }

/** One scan to work on: the picture, the picked plant with its score, the plants to look at. */
export function ScanWork({ scans, scan, zone, search, go }: Props) {
  const [comparing, setComparing] = useState<Comparing>('change');
  const narrow = useNarrow();
  const scoring = useScoring(scan.basin, scan.summary.scan);
  const found = useMemo(() => scan.plants.findIndex((plant) => plantKey(plant) === search.plant), [scan.plants, search.plant]);
  const picked = found < 0 ? undefined : found;
  const pick = (index: number | undefined): void => { const plant = index === undefined ? undefined : scan.plants[index]; go({ plant: plant && plantKey(plant) }); };
  const send = scoring.score.mutate;
  const keys = useScanKeys({ plants: scan.plants, picked, pick, send: scoring.barred === undefined && !scoring.score.isPending ? send : undefined });
  const against = scan.others.some((is) => is.scan === search.with) ? search.with : undefined;
  const { data: other } = useQuery({ ...scanQuestion(scan.basin, against ?? ''), enabled: against !== undefined });
  const plant = picked === undefined ? undefined : scan.plants[picked];
  return (
    <>
      <h1>Basin {scan.basin} from above</h1>
      <p className="sentence">{scanSentence(scan)}</p>
      <p className="soft">{scans.cropTitle ? `${scans.cropTitle}, lot` : 'Lot'} {scan.summary.lot}, {scan.summary.ageDays} days from sowing; scanned {dateTime(scan.summary.takenAt, zone)}</p>
      <DateChoice scans={scans.scans} scan={scan} zone={zone} go={(id) => go({ scan: id, with: undefined })} against={against} compare={(id) => go({ with: id })} comparing={comparing} setComparing={setComparing} />
      <div className="scan-work" onKeyDown={keys}>
        <ScanPicture key={scan.summary.scan} scan={scan} other={other} comparing={comparing} zone={zone} narrow={narrow} picked={picked} pick={pick} />
        <PlantPanel scan={scan} plant={plant} scoring={scoring} zone={zone} send={send} />
        <ToLookAt plants={scan.plants} picked={picked} pick={pick} />
        <p className="only-read" role="status">{plant && plantSentence(plant)}</p>
      </div>
      <Section title="How far to trust it" aside={`measuring version ${scan.quality.version}`}>
        <ul className="quality">{qualitySentences(scan.quality).map((sentence) => <li key={sentence}>{sentence}</li>)}</ul>
        <p>{scan.massWords}</p>
        <p>{scan.classifier.sentence}</p>
      </Section>
    </>
  );
}
