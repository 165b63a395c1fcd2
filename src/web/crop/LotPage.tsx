import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import { useState } from 'react';
import type { LotAnswer, LotOutlook } from '../../desk/contract.ts';
import { lotQuestion, planQuestion } from '../ask/questions.ts';
import { FanChart } from '../basin/FanChart.tsx';
import { Asked } from '../parts/Asked.tsx';
import { BasinLink } from '../parts/BasinLink.tsx';
import { Section } from '../parts/Section.tsx';
import { Status } from '../parts/Sign.tsx';
import { Why } from '../parts/Why.tsx';
import { count, percent, plain } from '../words/figures.ts';
import { dayMonth, shortDate } from '../words/times.ts';
import { ActionList } from './ActionList.tsx';
import { Decisions } from './Decisions.tsx';
import { ReadyShare } from './ReadyShare.tsx';
import '../basin/basin.css';
import './crop.css';

const ALARMS: Readonly<Record<string, string>> = { 'growth-below-model': 'grows less than its model', 'growth-above-model': 'grows more than its model', 'outside-valid-range': 'outside what the model is valid for' };

/** One lot: how heavy it is and will be, when it is ready, what is wrong, what could be done, what was decided. */
export function LotPage() {
  const { lot } = useParams({ from: '/lot/$lot' });
  const query = useQuery(lotQuestion(lot));
  const { data: plan } = useQuery(planQuestion);
  return (
    <>
      <p className="small no-print"><Link to="/crop">Crop</Link></p>
      <Asked query={query} what={`lot ${lot}`}>{(answer) => <Lot answer={answer} zone={plan?.greenhouse.timeZone ?? 'UTC'} />}</Asked>
    </>
  );
}

function Lot({ answer, zone }: { readonly answer: LotAnswer; readonly zone: string }) {
  const { lot } = answer;
  return (
    <>
      <h1>Lot {lot.lot}</h1>
      <p className="sentence">{lotSentence(answer)}</p>
      <p>Sown {dayMonth(lot.sown)}, in {lot.basins.length === 1 ? 'basin' : 'basins'} {lot.basins.map((basin) => <span key={basin}><BasinLink basin={basin} /> </span>)}since {dayMonth(lot.placed)}. <Link to="/card/$id" params={{ id: lot.crop }}>Crop card of {answer.cropTitle}</Link></p>
      {lot.alarms.map((alarm) => <p key={alarm.code} className="alarm"><Status shape="flag">{ALARMS[alarm.code] ?? alarm.code}</Status> {alarm.sentence}</p>)}
      <div className="basin-columns">
        <Weight answer={answer} />
        <ReadyShare answer={answer} />
      </div>
      {answer.orders.length > 0 && (
        <Section title="Orders it is to fill">
          <ul className="plain">{answer.orders.map((order) => <li key={`${order.order}/${order.line}`}>{order.sentence}</li>)}</ul>
        </Section>
      )}
      <Section title="What could be done" aside={answer.actions === undefined ? undefined : <>best first by expected gain against doing nothing <Why source="actions" of={`what could be done about lot ${lot.lot}`} /></>}>
        {answer.actions === undefined ? <p>This lot is on target: nothing was worked out.</p> : <ActionList answer={answer} actions={answer.actions} />}
      </Section>
      <Decisions decisions={answer.decisions} zone={zone} />
    </>
  );
}

/** The fan of the mean plant, or of one plant drawn from the lot. */
function Weight({ answer }: { readonly answer: LotAnswer }) {
  const [single, showSingle] = useState(false);
  const { lot } = answer;
  const shown: LotOutlook = single ? { ...lot, days: lot.days.map((day) => ({ ...day, freshG: day.plantG ?? day.freshG })) } : lot;
  return (
    <Section title="Weight" aside={<>fresh mass of {single ? 'one plant picked at random' : 'the mean plant'} <Why source={lot.why} of={`the forecast of lot ${lot.lot}`} /></>}>
      <div className="choices no-print">
        <button type="button" aria-pressed={!single} onClick={() => showSingle(false)}>Mean plant</button>
        <button type="button" aria-pressed={single} onClick={() => showSingle(true)}>Single plants</button>
      </div>
      <FanChart lot={shown} date={answer.date} readyG={answer.readyFreshG} latestG={answer.latestFreshG} />
    </Section>
  );
}

function lotSentence({ lot, cropTitle, stageTitle, date }: LotAnswer): string {
  const today = lot.days.find((day) => day.date === date);
  const weighs = today === undefined ? '' : ` A plant weighs about ${plain(today.freshG.p50)} g today, ${percent(today.readyShare)} are above market weight.`;
  const ready = lot.readyDate === undefined ? ' The forecast does not reach a ready date.' : ` Ready ${shortDate(lot.readyDate.likely)}; nine times in ten between ${shortDate(lot.readyDate.early)} and ${shortDate(lot.readyDate.late)}.`;
  return `${count(lot.plants, 'plant')} of ${cropTitle.toLowerCase()}, stage ${stageTitle.toLowerCase()}.${weighs}${ready}`;
}
