import { Fragment } from 'react';
import type { SheetStep, TankSheet } from '../../desk/contract.ts';
import { Sign } from '../parts/Sign.tsx';
import { Why } from '../parts/Why.tsx';
import { fixed, withUnit } from '../words/figures.ts';
import { longDate } from '../words/times.ts';
import { measuredWords, weighedWords } from './amounts.ts';

interface Props {
  readonly sheet: TankSheet;
  readonly greenhouse: string;
  readonly date: string;
  /** With what, and from which recipe. */
  readonly made: string;
  readonly cautions: readonly string[];
  readonly printing: boolean;
}

/** How to make one tank: a page to print and to write on. */
export function MixingSheet({ sheet, greenhouse, date, made, cautions, printing }: Props) {
  const makesL = sheet.fullL - sheet.presentL;
  return (
    <article className="mixing-sheet" aria-label={`Mixing sheet of ${sheet.title}`}>
      <header>
        <h2>{sheet.title}</h2>
        <p className="sheet-makes">{sheet.steps.length === 0 ? (sheet.refusals.length > 0 ? 'must not be made' : 'is full') : `make ${withUnit(fixed(makesL, 0), 'L')}${sheet.presentL > 0 ? `, to ${withUnit(fixed(sheet.fullL, 0), 'L')} in the tank` : ''}`}</p>
        <p className="soft">{greenhouse}, {longDate(date)}; {made}. {!printing && <Why source={sheet.why} of={`the mixing sheet of ${sheet.title}`} />}</p>
      </header>
      {sheet.refusals.length > 0 ? <Refusals sheet={sheet} /> : sheet.steps.length > 0 && <Steps sheet={sheet} cautions={cautions} />}
      <div className="sheet-foot">
        <p>{sheet.yields.join(' ')}</p>
        {sheet.steps.length > 0 && sheet.dilutedMsPerCm25 !== undefined && <p>Check: 1 L of it in 100 L of demineralised water reads about <b className="figures">{withUnit(fixed(sheet.dilutedMsPerCm25, 2), 'mS/cm')}</b> at 25 °C, give or take 5 %. If not, do not use it.</p>}
        {sheet.refusals.length === 0 && <p className="small">Checked: {sheet.checked}</p>}
        <p className="small"><b>{sheet.deference}</b></p>
      </div>
      {sheet.steps.length > 0 && <p className="signed"><span>Made by</span><span>at</span>{sheet.dilutedMsPerCm25 !== undefined && <span>reads, mS/cm</span>}</p>}
    </article>
  );
}

function Refusals({ sheet }: { readonly sheet: TankSheet }) {
  return <div className="notice"><p><Sign shape="flag" /> <b>This tank must not be made like this:</b></p><ul>{sheet.refusals.map(({ message }) => <li key={message}>{message}</li>)}</ul></div>;
}

function Steps({ sheet, cautions }: { readonly sheet: TankSheet; readonly cautions: readonly string[] }) {
  return (
    <>
      <ul className="before">{cautions.map((caution) => <li key={caution}>{caution}</li>)}</ul>
      {sheet.warnings.map(({ message }) => <p key={message}><Sign shape="diamond" /> <b>Watch:</b> {message}.</p>)}
      <table className="steps">
        <thead><tr><th scope="col" className="number">step</th><th scope="col">do</th><th scope="col" className="number">amount</th><th scope="col" className="blank">lot</th><th scope="col" className="blank">weighed</th><th scope="col" className="tick-box">done</th></tr></thead>
        <tbody>{sheet.steps.map((step, number) => <Fragment key={step.words}><Cautions step={step} /><Step step={step} number={number + 1} /></Fragment>)}</tbody>
      </table>
    </>
  );
}

function Cautions({ step }: { readonly step: SheetStep }) {
  if (step.cautions.length === 0) return null;
  return <tr className="caution"><td /><td colSpan={5}>{step.cautions.map((caution) => <p key={caution}><Sign shape="flag" /> {caution}</p>)}</td></tr>;
}

function Step({ step, number }: { readonly step: SheetStep; readonly number: number }) {
  const amounts = [...(step.grams === undefined ? [] : [weighedWords(step.grams)]), ...(step.millilitres === undefined ? [] : [`or ${measuredWords(step.millilitres)}`])];
  const again = step.cautionsOfSteps;
  return (
    <tr>
      <td className="number">{number}</td>
      <td>{step.words}{again.length > 0 && <span className="small"> Take care as at step {[...again].sort((a, b) => a - b).join(' and ')}.</span>}</td>
      <td className="number amount">{amounts.map((words) => <span key={words}>{words}</span>)}</td>
      <td className="blank">{step.lot ?? ''}</td>
      <td className="blank" />
      <td className="tick-box"><span aria-hidden="true" /></td>
    </tr>
  );
}
