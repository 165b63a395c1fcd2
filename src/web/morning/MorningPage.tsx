import { useQuery } from '@tanstack/react-query';
import { memo, useCallback, useMemo, useState } from 'react';
import type { PlanAnswer, PlanInForce, PlanProposal, PlanSheet } from '../../desk/contract.ts';
import { planQuestion } from '../ask/questions.ts';
import { Asked } from '../parts/Asked.tsx';
import { Section } from '../parts/Section.tsx';
import { ApproveBar } from './ApproveBar.tsx';
import { DayAccountTable } from './DayAccountTable.tsx';
import { DayWords } from './DayWords.tsx';
import { FeedTickets } from './FeedTickets.tsx';
import { InForceBar } from './InForceBar.tsx';
import { LeftOut } from './LeftOut.tsx';
import { BeforeAfter } from './BeforeAfter.tsx';
import { PinList } from './moves/PinList.tsx';
import { MovablePlanContext } from './moves/useStopMoves.ts';
import { PlanAgain } from './PlanAgain.tsx';
import { PlanningState } from './PlanningState.tsx';
import { Risks } from './Risks.tsx';
import { TimelineFigure } from './TimelineFigure.tsx';
import { VisitList } from './VisitList.tsx';
import './morning.css';

/** The plan of the day: what it comes to, what is at risk, when what happens, and what goes into the water. */
export function MorningPage() {
  const query = useQuery(planQuestion);
  return <Asked query={query} what="the plan of the day">{(answer) => <Morning answer={answer} />}</Asked>;
}

function Morning({ answer }: { readonly answer: PlanAnswer }) {
  const [wantsProposal, wantProposal] = useState(false);
  const pinned = useCallback(() => wantProposal(true), []);
  const { inForce, proposal, nowAt } = answer;
  const showsProposal = proposal !== undefined && (inForce === undefined || wantsProposal);
  const sheet = showsProposal ? proposal.sheet : inForce?.sheet;
  if (sheet === undefined) return <><h1>This morning</h1><PlanningState answer={answer} /></>;
  return (
    <>
      <DayWords sheet={sheet} />
      <PlanningState answer={answer} />
      {inForce && <InForceBar inForce={inForce} proposal={proposal} zone={sheet.timeZone} showsProposal={showsProposal} show={wantProposal} />}
      <Section title="At risk"><Risks risks={sheet.risks} /></Section>
      {showsProposal && <ApproveBar proposal={proposal} zone={sheet.timeZone} approved={() => wantProposal(false)} />}
      <PinList sheet={sheet} open={showsProposal} />
      <PlanBody sheet={sheet} inForce={inForce} proposal={proposal} nowAt={nowAt} markable={!showsProposal} pinned={pinned} />
    </>
  );
}

const NO_OUTCOMES = {};

interface BodyProps { readonly sheet: PlanSheet; readonly inForce: PlanInForce | undefined; readonly proposal: PlanProposal | undefined; readonly nowAt: string; readonly markable: boolean; readonly pinned: () => void }

/** Not drawn again while planning only says how far it is, so that the page goes on answering. */
const PlanBody = memo(function PlanBody({ sheet, inForce, proposal, nowAt, markable, pinned }: BodyProps) {
  const outcomes = markable ? inForce?.outcomes ?? NO_OUTCOMES : NO_OUTCOMES;
  const before = inForce?.sheet ?? proposal?.before;
  const movable = useMemo(() => ({ sheet, pinned }), [sheet, pinned]);
  return (
    <MovablePlanContext.Provider value={movable}>
      <Section title="The day" aside={<>stations, crew and vehicles over time · <a href="/wall" className="no-print">for a wall screen</a></>} className="day">
        <TimelineFigure sheet={sheet} outcomes={outcomes} nowAt={nowAt} />
        {!markable && before && proposal?.changes && <BeforeAfter before={before} after={proposal.sheet} outcomes={inForce?.outcomes ?? NO_OUTCOMES} changes={proposal.changes} />}
      </Section>
      <VisitList sheet={sheet} outcomes={outcomes} markable={markable} nowAt={nowAt} />
      <FeedTickets feeds={sheet.feeds} visits={sheet.visits} nowAt={nowAt} zone={sheet.timeZone} currency={sheet.account.currency} />
      <LeftOut leftOut={sheet.leftOut} />
      <DayAccountTable account={sheet.account} />
      <PlanAgain />
      <Section title="Take care">
        <ul className="cautions">{sheet.cautions.map((caution) => <li key={caution.subject + caution.text}><b>{caution.subject}.</b> {caution.text}</li>)}</ul>
        <p className="soft">Local codes, the safety data sheet of the product and licensed practice come before anything on this page.</p>
      </Section>
    </MovablePlanContext.Provider>
  );
});
