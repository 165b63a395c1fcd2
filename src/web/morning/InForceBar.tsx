import type { PlanInForce, PlanProposal } from '../../desk/contract.ts';
import { Status } from '../parts/Sign.tsx';
import { useNameOf } from '../shell/WhoAmI.tsx';
import { count } from '../words/figures.ts';
import { clockTime } from '../words/times.ts';
import { changeRows } from './changeRows.ts';
import { ChangeTable } from './ChangeTable.tsx';

interface Props {
  readonly inForce: PlanInForce;
  readonly proposal: PlanProposal | undefined;
  readonly zone: string;
  readonly showsProposal: boolean;
  readonly show: (proposal: boolean) => void;
}

/** Which plan the floor works to, how far it is, and whether a newer one waits for approval. */
export function InForceBar({ inForce, proposal, zone, showsProposal, show }: Props) {
  const name = useNameOf()(inForce.approvedBy);
  const failed = Object.values(inForce.outcomes).filter((outcome) => outcome.result === 'failed').length;
  const done = Object.values(inForce.outcomes).length - failed;
  return (
    <section className="in-force" aria-label="The plan in force">
      <p><Status shape="tick">In force</Status> Approved by {name} at {clockTime(inForce.approvedAt, zone)}. {count(done, 'stop')} done, {failed} failed, {inForce.openStops} still to do.</p>
      {proposal && (
        <div className="newer">
          <p><Status shape="half">Newer plan</Status> Computed at {clockTime(proposal.madeAt, zone)} because {proposal.because}. {proposal.changes?.sentence} The floor keeps to the approved plan until this one is approved.</p>
          <button type="button" aria-pressed={showsProposal} onClick={() => show(!showsProposal)}>{showsProposal ? 'Back to the plan in force' : 'Read the newer plan'}</button>
          {proposal.changes && <ChangeTable key={proposal.sheet.planId} rows={changeRows(proposal.changes, inForce.sheet, proposal.sheet)} zone={zone} />}
        </div>
      )}
    </section>
  );
}
