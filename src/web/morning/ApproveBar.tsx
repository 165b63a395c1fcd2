import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { AcceptedAnswer, ApproveRequest, PersonView, PlanProposal } from '../../desk/contract.ts';
import { tellDesk } from '../ask/askDesk.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { usePerson } from '../shell/WhoAmI.tsx';
import { clockTime } from '../words/times.ts';

/** The one place where a plan becomes the plan of the day. */
export function ApproveBar({ proposal, zone, approved }: { readonly proposal: PlanProposal; readonly zone: string; readonly approved: () => void }) {
  const person = usePerson();
  const cache = useQueryClient();
  const approve = useMutation({
    mutationFn: (request: ApproveRequest) => tellDesk<AcceptedAnswer>('/api/plan/approve', request),
    onSuccess: () => { approved(); return cache.invalidateQueries(); },
  });
  return (
    <section className="approve" aria-label="Approve the plan">
      <p>Plan <span className="figures">{proposal.sheet.planId}</span>, computed at {clockTime(proposal.madeAt, zone)} because {proposal.because}. {whoWords(person)}</p>
      <button type="button" className="main" disabled={!person?.mayApprove || approve.isPending} onClick={() => person && approve.mutate({ planId: proposal.sheet.planId, by: person.id })}>
        {approve.isPending ? 'Writing to the journal …' : 'Approve this plan'}
      </button>
      {approve.error && <Trouble error={approve.error} />}
    </section>
  );
}

function whoWords(person: PersonView | undefined): string {
  if (person === undefined) return 'Say who you are at the top of the page to approve it.';
  return person.mayApprove ? `You approve it as ${person.name}; the floor then works to it.` : `${person.name} may read it; a grower or a shift lead approves it.`;
}
