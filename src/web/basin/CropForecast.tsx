import { Link } from '@tanstack/react-router';
import type { BasinAnswer, LotOutlook } from '../../desk/contract.ts';
import { Section } from '../parts/Section.tsx';
import { Status } from '../parts/Sign.tsx';
import { Why } from '../parts/Why.tsx';
import { plain } from '../words/figures.ts';
import { shortDate } from '../words/times.ts';
import { FanChart } from './FanChart.tsx';

/** How heavy the plants of this lot are and will be, with what was weighed so far. */
export function CropForecast({ basin, lot }: { readonly basin: BasinAnswer; readonly lot: LotOutlook }) {
  return (
    <Section title="Crop" aside={<>fresh mass of one plant <Why source={lot.why} of={`the forecast of lot ${lot.lot}`} /></>}>
      <p>{readySentence(lot)} {todaySentence(basin, lot)}</p>
      {lot.alarms.map((alarm) => <p key={alarm.code}><Status shape="diamond">watch</Status> {alarm.sentence}</p>)}
      <p><Link to="/lot/$lot" params={{ lot: lot.lot }}>Lot {lot.lot}: what could be done, and decisions</Link></p>
      <FanChart lot={lot} date={basin.date} readyG={basin.readyFreshG} latestG={basin.latestFreshG} />
    </Section>
  );
}

function readySentence(lot: LotOutlook): string {
  if (lot.readyDate === undefined) return 'The forecast does not reach a ready date.';
  const { early, likely, late } = lot.readyDate;
  return early === late ? `Ready ${shortDate(likely)}.` : `Ready ${shortDate(likely)}; nine times in ten between ${shortDate(early)} and ${shortDate(late)}.`;
}

function todaySentence({ date }: BasinAnswer, lot: LotOutlook): string {
  const today = lot.days.find((day) => day.date === date);
  if (today === undefined) return '';
  const { p05, p50, p95 } = today.freshG;
  return `A plant weighs about ${plain(p50)} g today (nine in ten forecasts lie between ${plain(p05)} and ${plain(p95)} g).`;
}
