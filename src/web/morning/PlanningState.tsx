import type { PlanAnswer } from '../../desk/contract.ts';
import { Failed, Refused } from '../ask/askDesk.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { percent } from '../words/figures.ts';

/** What planning is doing, if it is doing anything or cannot. */
export function PlanningState({ answer }: { readonly answer: PlanAnswer }) {
  const { status } = answer;
  if (status.phase === 'refused') return <Trouble error={new Refused(status.refusals)} />;
  if (status.phase === 'failed') return <Trouble error={new Failed(status.fault.message, status.fault.retryHelps)} />;
  if (status.phase === 'ready') return null;
  return (
    <div className="planning" role="status">
      <p>{answer.inForce || answer.proposal ? 'Planning the rest of the day again' : 'Planning the day'}: {status.step}, {percent(status.share)}</p>
      <span className="progress"><span style={{ width: `${Math.round(status.share * 100)}%` }} /></span>
    </div>
  );
}
