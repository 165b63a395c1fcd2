import { useMutation } from '@tanstack/react-query';
import type { AcceptedAnswer, ReplanRequest } from '../../desk/contract.ts';
import { tellDesk } from '../ask/askDesk.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { usePerson } from '../shell/WhoAmI.tsx';

/** Asks for a new plan from what is known now. */
export function PlanAgain() {
  const person = usePerson();
  const ask = useMutation({ mutationFn: (request: ReplanRequest) => tellDesk<AcceptedAnswer>('/api/plan/replan', request) });
  if (!person?.mayMark) return null;
  return (
    <>
      <button type="button" className="no-print" disabled={ask.isPending} onClick={() => ask.mutate({ by: person.id })}>Plan again from what is known now</button>
      {ask.error && <Trouble error={ask.error} />}
    </>
  );
}
