import { useMutation, useQueryClient, type UseMutationResult } from '@tanstack/react-query';
import type { AcceptedAnswer, PlantMark, ScoreRequest } from '../../desk/contract.ts';
import { tellDesk } from '../ask/askDesk.ts';
import { scanPath } from '../ask/questions.ts';
import { usePerson } from '../shell/WhoAmI.tsx';

export interface Scoring {
  readonly score: UseMutationResult<AcceptedAnswer, Error, PlantMark>;
  /** Why nothing can be scored on this device now; undefined where it can. */
  readonly barred: string | undefined;
}

/** Writes scores to the journal in the name of whoever uses this device. */
export function useScoring(basin: string, scan: string): Scoring {
  const person = usePerson();
  const cache = useQueryClient();
  const score = useMutation({
    mutationFn: (mark: PlantMark) => tellDesk<AcceptedAnswer>(`${scanPath(basin, scan)}/scores`, { by: person?.id ?? '', marks: [mark] } satisfies ScoreRequest),
    onSuccess: () => cache.invalidateQueries({ predicate: ({ queryKey: [kind] }) => kind === 'imaging' || kind === 'journal' || kind === 'basin' }),
  });
  return { score, barred: barredWords(person) };
}

function barredWords(person: ReturnType<typeof usePerson>): string | undefined {
  if (person === undefined) return 'Say who you are at the top of the page, then score.';
  return person.mayScore ? undefined : `${person.name} may read this; a grower scores plants.`;
}
