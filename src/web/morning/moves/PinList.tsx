import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { AcceptedAnswer, PlanSheet, ReleaseRequest } from '../../../desk/contract.ts';
import { tellDesk } from '../../ask/askDesk.ts';
import { useTitleOf } from '../../ask/useTitleOf.ts';
import { Trouble } from '../../parts/Trouble.tsx';
import { useNameOf, usePerson } from '../../shell/WhoAmI.tsx';
import { clockTime } from '../../words/times.ts';

/** Stops of a plan that people moved and that the rest is planned around; before it is approved each can be let go of again. */
export function PinList({ sheet, open }: { readonly sheet: PlanSheet; readonly open: boolean }) {
  const person = usePerson();
  const [titleOf, nameOf] = [useTitleOf(), useNameOf()];
  const cache = useQueryClient();
  const release = useMutation({
    mutationFn: (request: ReleaseRequest) => tellDesk<AcceptedAnswer>('/api/plan/pins/release', request),
    onSuccess: () => cache.invalidateQueries({ queryKey: ['plan'] }),
  });
  if (sheet.pins === undefined) return null;
  const basinOf = (visit: string) => sheet.visits.find((is) => is.visit === visit)?.basin ?? visit;
  return (
    <div className="pins">
      <p>Kept where people want it, the rest planned around it:</p>
      <ul>
        {sheet.pins.map(({ visit, stop, station, startAt, by }) => (
          <li key={`${visit}/${stop}`}>
            <span>Basin {basinOf(visit)} at {titleOf(station)} from {clockTime(startAt, sheet.timeZone)} ({nameOf(by)})</span>
            {open && person?.mayApprove && <button type="button" className="no-print" disabled={release.isPending} aria-label={`Let go of basin ${basinOf(visit)} at ${titleOf(station)}`} onClick={() => release.mutate({ visit, stop, by: person.id })}>Let go</button>}
          </li>
        ))}
      </ul>
      {release.error && <Trouble error={release.error} />}
    </div>
  );
}
