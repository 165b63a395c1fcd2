import { useState } from 'react';
import type { ActionCandidate, ActionCost, LotActions, LotAnswer } from '../../desk/contract.ts';
import { chance, fixed, percent, plain, unitWord, withUnit } from '../words/figures.ts';
import { dayMonth, shortDate } from '../words/times.ts';
import { DecideForm } from './DecideForm.tsx';
import { interval, signed } from './intervalWords.ts';

const COST_WORDS: Readonly<Record<ActionCost, string>> = { shortage: 'units short', electricity: 'electricity', fertiliser: 'fertiliser', work: 'work', waste: 'clearing', basins: 'basin days' };

/** Why the lot is off target, and every candidate with its figures; one of them can be decided on. */
export function ActionList({ answer, actions }: { readonly answer: LotAnswer; readonly actions: LotActions }) {
  const [deciding, decideOn] = useState<string>();
  return (
    <>
      {actions.reasons.map((reason) => <p key={reason}>{reason}</p>)}
      <p><b>{actions.sentence}</b></p>
      <ol className="actions">
        {actions.candidates.map((candidate) => (
          <li key={candidate.action} className="action">
            <Candidate candidate={candidate} currency={answer.currency} />
            {deciding === candidate.action
              ? <DecideForm answer={answer} candidate={candidate} close={() => decideOn(undefined)} />
              : <p className="action-decide no-print"><button type="button" onClick={() => decideOn(candidate.action)} aria-label={`Decide: ${candidate.title}`}>Decide on this</button></p>}
          </li>
        ))}
      </ol>
      {actions.notPossible.length > 0 && (
        <>
          <h3>Not possible</h3>
          <ul className="plain">{actions.notPossible.map(({ title, reason }) => <li key={title}><b>{title}.</b> {reason}</li>)}</ul>
        </>
      )}
      <h3>Look before deciding?</h3>
      <ul className="plain">{actions.looks.map((look) => <li key={look.look}>{look.sentence}</li>)}</ul>
    </>
  );
}

function Candidate({ candidate, currency }: { readonly candidate: ActionCandidate; readonly currency: string }) {
  const money = (value: number) => withUnit(signed(value, 2), currency);
  const { gain, meanGain, chanceBetter, readyDate, daysSooner, unitsOn, electricityKWh, kgCo2e } = candidate;
  const costs = (Object.keys(COST_WORDS) as ActionCost[]).filter((name) => candidate.costs[name].low !== 0 || candidate.costs[name].high !== 0);
  const isNothing = candidate.action === 'none';
  return (
    <div className="candidate">
      <h3>{candidate.title}</h3>
      <p>{candidate.doing}</p>
      {candidate.noEffectClaimed !== undefined && <p className="no-effect"><b>Effect:</b> {candidate.noEffectClaimed}</p>}
      <dl className="action-figures">
        {!isNothing && <div><dt>Expected gain</dt><dd><b>{money(meanGain)}</b><span className="soft small">nine times in ten {interval(gain, 2, currency)}; better in {percent(chanceBetter)} of futures</span></dd></div>}
        <div><dt>Ready</dt><dd>{readyDate === undefined ? 'not within the forecast' : <>{shortDate(readyDate.likely)}<span className="soft small">{dayMonth(readyDate.early)} to {dayMonth(readyDate.late)}{daysSooner === undefined || isNothing ? '' : `; ${soonerWords(daysSooner.middle)} (${fixed(daysSooner.low, 0)} to ${fixed(daysSooner.high, 0)})`}</span></>}</dd></div>
        <div><dt>Above market weight on {dayMonth(unitsOn.date)}</dt><dd>{plain(unitsOn.units.middle)} {unitWord(unitsOn.unit, 2)}<span className="soft small">{plain(unitsOn.units.low)} to {plain(unitsOn.units.high)}</span></dd></div>
        {costs.length > 0 && <div><dt>Costs against doing nothing</dt><dd><ul className="action-costs">{costs.map((name) => <li key={name}>{COST_WORDS[name]} {money(candidate.costs[name].middle)} <span className="soft small">({interval(candidate.costs[name], 2, currency)})</span></li>)}</ul></dd></div>}
        {electricityKWh.high !== 0 && <div><dt>Energy and emissions</dt><dd>{withUnit(plain(electricityKWh.middle), 'kWh')}<span className="soft small">{plain(electricityKWh.low)} to {plain(electricityKWh.high)}; {withUnit(plain(kgCo2e.middle), 'kg CO₂e')} ({plain(kgCo2e.low)} to {plain(kgCo2e.high)})</span></dd></div>}
      </dl>
      {candidate.orders.length > 0 && (
        <details className="action-orders">
          <summary>Orders: {candidate.orders.filter((order) => order.chance >= 0.8).length} of {candidate.orders.length} shown are likely</summary>
          <ul className="plain">{candidate.orders.map((order) => <li key={`${order.order}/${order.line}`}>{order.customer}, {plain(order.units)} {unitWord(order.unit, order.units)} on {dayMonth(order.due)}: <b>{chance(order.chance)}</b> <span className="soft small">({percent(order.low)} to {percent(order.high)}{isNothing ? '' : `; with nothing done ${chance(order.chanceWithNothingDone)}`})</span></li>)}</ul>
        </details>
      )}
      {candidate.leftOut.map((words) => <p key={words} className="soft small">{words}</p>)}
    </div>
  );
}

function soonerWords(days: number): string {
  if (days === 0) return 'no day sooner';
  return `${fixed(Math.abs(days), 0)} ${Math.abs(days) === 1 ? 'day' : 'days'} ${days > 0 ? 'sooner' : 'later'}`;
}
