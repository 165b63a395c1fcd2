import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import type { ImagingAnswer } from '../../desk/contract.ts';
import { imagingQuestion, planQuestion } from '../ask/questions.ts';
import { Asked } from '../parts/Asked.tsx';
import { Section } from '../parts/Section.tsx';
import { Status } from '../parts/Sign.tsx';
import { count } from '../words/figures.ts';
import { QueueList } from './QueueList.tsx';
import { ScannedBasins } from './ScannedBasins.tsx';
import './imaging.css';

/** All scans: what is being measured, the latest of every basin, what no scan has seen. */
export function ImagingPage() {
  const query = useQuery(imagingQuestion);
  const { data: plan } = useQuery(planQuestion);
  return <Asked query={query} what="the scans">{(imaging) => <Imaging imaging={imaging} zone={plan?.greenhouse.timeZone ?? 'UTC'} />}</Asked>;
}

function Imaging({ imaging, zone }: { readonly imaging: ImagingAnswer; readonly zone: string }) {
  const toLookAt = imaging.basins.reduce((sum, { latest }) => sum + latest.toLookAt, 0);
  return (
    <>
      <h1>Imaging</h1>
      <p className="sentence">{count(imaging.basins.length, 'basin is', 'basins are')} seen by a scan{imaging.unscanned.length > 0 ? `, ${imaging.unscanned.length} with plants are not` : ''}; {toLookAt === 0 ? 'no plant stands out' : `${count(toLookAt, 'plant stands', 'plants stand')} out`}.</p>
      <p className="soft">Point clouds are taken from {imaging.place}. {imaging.classifier.sentence}</p>
      {imaging.troubles.map(({ code, message }) => <p key={code + message} role="alert"><Status shape="cross">no clouds from there</Status> {message}</p>)}
      <QueueList queue={imaging.queue} zone={zone} />
      <ScannedBasins basins={imaging.basins} zone={zone} />
      {imaging.unscanned.length > 0 && (
        <Section title="Not scanned yet" aside="basins with plants">
          <details className="unscanned-fold"><summary>{count(imaging.unscanned.length, 'basin')}</summary><ul className="unscanned">{imaging.unscanned.map((basin) => <li key={basin}><Link to="/basin/$id" params={{ id: basin }} className="button">{basin}</Link></li>)}</ul></details>
        </Section>
      )}
    </>
  );
}
