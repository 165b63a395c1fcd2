import type { BasinOutlook, Need } from '../../planning/morningPlan.ts';
import type { BasinStanding } from '../contract.ts';

/** The one word for a basin, the most pressing first. */
export function basinStanding(outlook: BasinOutlook | undefined, needs: readonly Need[], date: string): BasinStanding {
  if (needs.some((need) => need.urgency === 'must')) return 'must be seen today';
  if (outlook?.lot === undefined) return 'no plants';
  if (outlook.readyDate !== undefined && outlook.readyDate <= date) return 'ready to harvest';
  if (outlook.water === undefined) return 'water unknown';
  return outlook.water.outOfBand.length > 0 ? 'water out of band' : 'on track';
}
