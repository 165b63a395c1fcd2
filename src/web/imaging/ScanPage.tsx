import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate, useParams, useSearch } from '@tanstack/react-router';
import type { BasinScansAnswer } from '../../desk/contract.ts';
import { basinScansQuestion, planQuestion, scanQuestion } from '../ask/questions.ts';
import { Asked } from '../parts/Asked.tsx';
import { RefusedClouds } from './RefusedClouds.tsx';
import { ScanWork } from './ScanWork.tsx';
import type { ScanSearch } from './scanSearch.ts';
import './imaging.css';

/** The scans of one basin, one of them shown. */
export function ScanPage() {
  const { basin } = useParams({ from: '/imaging/$basin' });
  const query = useQuery(basinScansQuestion(basin));
  return (
    <>
      <p className="small no-print"><Link to="/imaging">Imaging</Link> · <Link to="/basin/$id" params={{ id: basin }}>Basin {basin}</Link></p>
      <Asked query={query} what={`the scans of basin ${basin}`}>{(scans) => <Scans scans={scans} />}</Asked>
    </>
  );
}

function Scans({ scans }: { readonly scans: BasinScansAnswer }) {
  const search = useSearch({ from: '/imaging/$basin' });
  const navigate = useNavigate({ from: '/imaging/$basin' });
  const { data: plan } = useQuery(planQuestion);
  const zone = plan?.greenhouse.timeZone ?? 'UTC';
  const shown = search.scan ?? scans.scans[0]?.scan;
  const go = (change: Partial<ScanSearch>): void => { void navigate({ search: (is: ScanSearch) => ({ ...is, ...change }), replace: true, resetScroll: false }); };
  return (
    <>
      {shown === undefined ? <NoScan scans={scans} /> : <OneScan scans={scans} shown={shown} zone={zone} search={search} go={go} />}
      <RefusedClouds refused={scans.refused} zone={zone} />
    </>
  );
}

interface Props { readonly scans: BasinScansAnswer; readonly shown: string; readonly zone: string; readonly search: ScanSearch; readonly go: (change: Partial<ScanSearch>) => void }

function OneScan({ scans, shown, zone, search, go }: Props) {
  const query = useQuery({ ...scanQuestion(scans.basin, shown), placeholderData: (before) => (before?.basin === scans.basin ? before : undefined) });
  return <Asked query={query} what="the scan">{(scan) => <ScanWork scans={scans} scan={scan} zone={zone} search={search} go={go} />}</Asked>;
}

function NoScan({ scans }: { readonly scans: BasinScansAnswer }) {
  return (
    <>
      <h1>Basin {scans.basin}</h1>
      <p className="sentence">No scan of this basin was taken yet{scans.lot === undefined ? ', and nothing grows in it' : ''}.</p>
      <p>A scan appears here by itself once its cloud lies where the desk looks for clouds; <Link to="/imaging">Imaging</Link> says where that is.</p>
    </>
  );
}
