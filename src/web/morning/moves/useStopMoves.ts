import { useMutation, useQueryClient, type UseMutationResult } from '@tanstack/react-query';
import { createContext, useContext, useMemo, useState } from 'react';
import type { AcceptedAnswer, PinRequest, PlanSheet, TryAnswer, TryRequest } from '../../../desk/contract.ts';
import { tellDesk } from '../../ask/askDesk.ts';
import { usePerson } from '../../shell/WhoAmI.tsx';
import type { StopMove } from './stopMove.ts';

/** The plan on which this person may move stops, and what to do once the rest is planned around one; undefined where nobody may. */
export interface MovablePlan { readonly sheet: PlanSheet; readonly pinned: () => void }
export const MovablePlanContext = createContext<MovablePlan | undefined>(undefined);

/** A stop that is being moved on one plan: the move, what the desk says of it, and what can be done next. */
export interface StopMoves {
  readonly plan: MovablePlan;
  readonly move: StopMove | undefined;
  readonly change: (move: StopMove) => void;
  readonly cancel: () => void;
  readonly tryIt: (move: StopMove) => void;
  readonly tried: UseMutationResult<TryAnswer, Error, TryRequest>;
  readonly keep: () => void;
  readonly kept: UseMutationResult<AcceptedAnswer, Error, PinRequest>;
}

/** Undefined where this person may not move stops of the plan shown. */
export function useStopMoves(): StopMoves | undefined {
  const plan = useContext(MovablePlanContext);
  const person = usePerson();
  const cache = useQueryClient();
  const [move, setMove] = useState<StopMove>();
  const tried = useMutation({ mutationFn: (request: TryRequest) => tellDesk<TryAnswer>('/api/plan/try', request) });
  const kept = useMutation({
    mutationFn: (request: PinRequest) => tellDesk<AcceptedAnswer>('/api/plan/pins', request),
    onSuccess: () => { setMove(undefined); tried.reset(); plan?.pinned(); return cache.invalidateQueries({ queryKey: ['plan'] }); },
  });
  return useMemo(() => {
    if (plan === undefined || !person?.mayApprove) return undefined;
    const forget = () => { tried.reset(); kept.reset(); };
    return {
      plan, move, tried, kept,
      change: (next) => { setMove(next); if (tried.status !== 'idle' || kept.status !== 'idle') forget(); },
      cancel: () => { setMove(undefined); forget(); },
      tryIt: (next) => { setMove(next); tried.mutate(requestOf(plan.sheet, next)); },
      keep: () => { if (move !== undefined) kept.mutate({ ...requestOf(plan.sheet, move), by: person.id }); },
    };
  }, [plan, person, move, tried, kept]);
}

function requestOf({ planId, timeline }: PlanSheet, { visit, stop, station, startS }: StopMove): TryRequest {
  return { planId, visit, stop, station, startAt: new Date(Date.parse(timeline.startAt) + startS * 1000).toISOString() };
}
