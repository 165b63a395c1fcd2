import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate, useSearch } from '@tanstack/react-router';
import type { SheetsAnswer } from '../../desk/contract.ts';
import { sheetsQuestion } from '../ask/questions.ts';
import { Asked } from '../parts/Asked.tsx';
import { usePrinting } from '../parts/usePrinting.ts';
import { count } from '../words/figures.ts';
import { MixingSheet } from './MixingSheet.tsx';
import './water.css';

/** Mixing sheets of the greenhouse's own tanks, to print: one a page. */
export function SheetsPage() {
  const query = useQuery(sheetsQuestion);
  return <Asked query={query} what="the mixing sheets">{(answer) => <Sheets answer={answer} />}</Asked>;
}

function Sheets({ answer }: { readonly answer: SheetsAnswer }) {
  const { tank } = useSearch({ from: '/water/sheets' });
  const navigate = useNavigate({ from: '/water/sheets' });
  const pick = (id: string | undefined) => void navigate({ search: { tank: id }, replace: true, resetScroll: false });
  const printing = usePrinting();
  const chosen = answer.sheets.filter(({ id }) => tank === undefined || id === tank);
  const refused = answer.sheets.filter(({ refusals }) => refusals.length > 0).length;
  return (
    <div className="sheets-page">
      <p className="small no-print"><Link to="/water">Water</Link></p>
      <h1 className="no-print">Mixing sheets</h1>
      <p className="no-print">{count(answer.sheets.length, 'tank is', 'tanks are')} made up here; each sheet fills one up with {answer.waterTitle} ({answer.waterBasis}). {refused === 0 ? 'None is refused.' : `${count(refused, 'tank is', 'tanks are')} refused, with the reason.`}</p>
      <div className="choices no-print" role="group" aria-label="Which sheets">
        <button type="button" aria-pressed={tank === undefined} onClick={() => pick(undefined)}>All tanks</button>
        {answer.sheets.map((sheet) => <button key={sheet.id} type="button" aria-pressed={tank === sheet.id} onClick={() => pick(sheet.id)}>{sheet.title}</button>)}
      </div>
      <div className="choices no-print"><button type="button" className="main" onClick={() => window.print()}>Print {chosen.length === 1 ? 'this sheet' : `${chosen.length} sheets`}</button></div>
      {chosen.length === 0 && <p>No tank “{tank}” is made up here.</p>}
      {chosen.map((sheet) => <MixingSheet key={sheet.id} sheet={sheet} greenhouse={answer.greenhouse} date={answer.date} made={`with ${answer.waterTitle}, ${answer.waterBasis}`} cautions={answer.cautions} printing={printing} />)}
    </div>
  );
}
