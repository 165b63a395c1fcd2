import { refused, accepted, type Outcome } from '../../science/refusal.ts';
import type { SowingInputs } from './planSowing.ts';

/** A question about the sowing plan: what would change if. */
export type SowingWhatIf =
  | { readonly if: 'order'; readonly crop: string; readonly units: number; readonly due: string }
  | { readonly if: 'lot-fails'; readonly lot: string };

/** What the plan would be made from. Refuses a crop or lot that is not known. An order asked about comes on top of what is expected. */
export function inputsIf(inputs: SowingInputs, question: SowingWhatIf): Outcome<SowingInputs> {
  const { state } = inputs;
  if (question.if === 'order') {
    if (state.crops[question.crop] === undefined) return refused([{ code: 'reference-unknown', path: 'crop', value: question.crop, limit: Object.keys(state.crops), severity: 'error', message: `No crop card has the id ${question.crop}; there are ${Object.keys(state.crops).join(', ')}.` }]);
    return accepted({ ...inputs, extra: [{ order: 'asked', line: 1, customer: 'asked about', crop: question.crop, units: question.units, due: question.due }] });
  }
  const failed = Object.values(state.basins).filter(({ planting }) => planting?.lot === question.lot);
  if (failed.length === 0) return refused([{ code: 'reference-unknown', path: 'lot', value: question.lot, severity: 'error', message: `No lot ${question.lot} stands in a basin.` }]);
  return accepted({ ...inputs, state: { ...state, basins: { ...state.basins, ...Object.fromEntries(failed.map((basin) => [basin.id, { ...basin, planting: undefined }])) } } });
}
