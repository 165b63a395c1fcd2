import type { TankView } from '../../desk/contract.ts';
import type { SignShape } from '../parts/Sign.tsx';
import { daysBetween } from '../words/times.ts';

export interface TankStanding { readonly shape: SignShape; readonly words: string }

/** A limit that comes within so many days is said at the tank. */
const SOON_DAYS = 60;

/** How a tank stands, the most pressing first, in a few words. */
export function tankStanding(tank: Pick<TankView, 'reason' | 'treatment' | 'flags' | 'projections' | 'volumeL' | 'drawnTodayL' | 'putInTodayL' | 'capacityL'>, date: string): TankStanding {
  const { reason, treatment, flags, projections, volumeL, drawnTodayL, putInTodayL, capacityL } = tank;
  if (treatment?.held) return { shape: 'half', words: 'held for its test' };
  if (reason !== undefined) return { shape: 'flag', words: 'not drawn from' };
  if (flags.length > 0) return { shape: 'diamond', words: 'look at it' };
  const soonest = projections.flatMap(({ dischargeBy }) => dischargeBy ?? []).sort()[0];
  if (soonest !== undefined && daysBetween(date, soonest) <= SOON_DAYS) return { shape: 'diamond', words: daysBetween(date, soonest) <= 0 ? 'at its salt limit' : `salt limit in ${daysBetween(date, soonest)} days` };
  if (putInTodayL <= 0 && drawnTodayL > 0.98 * volumeL) return { shape: 'half', words: 'used up today' };
  if (volumeL < 0.1 * capacityL) return { shape: 'diamond', words: 'nearly empty' };
  return { shape: 'tick', words: 'ready' };
}
