import type { AnalysisRow } from './schema/tableRows.ts';

const WHERE_AND_WHAT = new Set<string>(['analysis', 'at', 'place', 'laboratory', 'pH', 'ecMsPerCm25', 'absorbance254PerCm', 'pathogens'] satisfies (keyof AnalysisRow)[]);

/** Whether a row says what is dissolved: a test for pathogens or a look through the water alone does not. */
export function tellsComposition(row: AnalysisRow): boolean {
  return Object.entries(row).some(([column, value]) => value !== undefined && !WHERE_AND_WHAT.has(column));
}
