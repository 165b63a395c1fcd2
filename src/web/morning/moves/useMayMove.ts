import { useContext } from 'react';
import { usePerson } from '../../shell/WhoAmI.tsx';
import { MovablePlanContext } from './useStopMoves.ts';

/** Whether this person may move stops of the plan shown. */
export function useMayMove(): boolean {
  const plan = useContext(MovablePlanContext);
  return usePerson()?.mayApprove === true && plan !== undefined;
}
