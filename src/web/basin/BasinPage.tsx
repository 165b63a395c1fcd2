import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { BasinAnswer } from '../../desk/contract.ts';
import { basinQuestion, planQuestion } from '../ask/questions.ts';
import { NEWEST_SCAN } from '../imaging/scanSearch.ts';
import { Asked } from '../parts/Asked.tsx';
import { BasinHistory } from './BasinHistory.tsx';
import { BasinNeeds } from './BasinNeeds.tsx';
import { BasinReadings } from './BasinReadings.tsx';
import { BasinWater } from './BasinWater.tsx';
import { BasinWords } from './BasinWords.tsx';
import { CropForecast } from './CropForecast.tsx';
import './basin.css';

/** One basin: its crop, its water, what it needs and what happened to it. */
export function BasinPage() {
  const { id } = useParams({ from: '/basin/$id' });
  const query = useQuery(basinQuestion(id));
  const { data: plan } = useQuery(planQuestion);
  return (
    <>
      <p className="small no-print"><Link to="/floor">Floor</Link> · <Link to="/imaging/$basin" params={{ basin: id }} search={NEWEST_SCAN}>Scans of this basin</Link></p>
      <Asked query={query} what={`basin ${id}`}>{(basin) => <Basin basin={basin} zone={plan?.greenhouse.timeZone ?? 'UTC'} />}</Asked>
    </>
  );
}

function Basin({ basin, zone }: { readonly basin: BasinAnswer; readonly zone: string }) {
  return (
    <>
      <BasinWords basin={basin} />
      <div className="basin-columns">
        <div>
          {basin.lot && <CropForecast basin={basin} lot={basin.lot} />}
          <BasinNeeds basin={basin} zone={zone} />
        </div>
        <BasinWater basin={basin} />
      </div>
      <BasinReadings readings={basin.readings} zone={zone} />
      <BasinHistory history={basin.history} zone={zone} />
    </>
  );
}
