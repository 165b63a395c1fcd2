import type { OrderLine } from '../../greenhouse/schema/tableRows.ts';
import { refused, accepted, type Outcome } from '../../science/refusal.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';

/** A question about the sowing plan: what would change if. */
export type SowingWhatIf =
  | { readonly if: 'order'; readonly crop: string; readonly units: number; readonly due: string }
  | { readonly if: 'lot-fails'; readonly lot: string };

const ASKED_ORDER = 'asked';

/** The state as it would be. Refuses a crop or lot that is not known. */
export function stateIf(state: GreenhouseState, question: SowingWhatIf): Outcome<GreenhouseState> {
  if (question.if === 'order') {
    if (state.crops[question.crop] === undefined) return refused([{ code: 'reference-unknown', path: 'crop', value: question.crop, limit: Object.keys(state.crops), severity: 'error', message: `No crop card has the id ${question.crop}; there are ${Object.keys(state.crops).join(', ')}.` }]);
    const line: OrderLine = { order: ASKED_ORDER, line: 1, customer: 'asked for', crop: question.crop, units: question.units, due: question.due };
    return accepted({ ...state, orders: { ...state.orders, [`${ASKED_ORDER}/1`]: line } });
  }
  const failed = Object.values(state.basins).filter(({ planting }) => planting?.lot === question.lot);
  if (failed.length === 0) return refused([{ code: 'reference-unknown', path: 'lot', value: question.lot, severity: 'error', message: `No lot ${question.lot} stands in a basin.` }]);
  return accepted({ ...state, basins: { ...state.basins, ...Object.fromEntries(failed.map((basin) => [basin.id, { ...basin, planting: undefined }])) } });
}
