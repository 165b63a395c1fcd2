import { queryOptions } from '@tanstack/react-query';
import type { BasinAnswer, BasinScansAnswer, CropCardAnswer, FloorAnswer, ImagingAnswer, JournalAnswer, LotAnswer, LotsAnswer, OrdersAnswer, PeopleAnswer, PlanAnswer, RecipeAnswer, ScanAnswer, SheetsAnswer, SourceAnswer, SowingAnswer, WaterAnswer, WeekAnswer } from '../../desk/contract.ts';
import { askDesk } from './askDesk.ts';

/** What the pages ask the desk, each under the key by which the live feed says that it changed. */
export const planQuestion = queryOptions({ queryKey: ['plan'], queryFn: () => askDesk<PlanAnswer>('/api/plan') });
export const peopleQuestion = queryOptions({ queryKey: ['people'], queryFn: () => askDesk<PeopleAnswer>('/api/people'), staleTime: 600_000 });
export const floorQuestion = queryOptions({ queryKey: ['floor'], queryFn: () => askDesk<FloorAnswer>('/api/floor') });
export const sowingQuestion = queryOptions({ queryKey: ['sowing'], queryFn: () => askDesk<SowingAnswer>('/api/sowing'), staleTime: 60_000 });
export const weekQuestion = queryOptions({ queryKey: ['week'], queryFn: () => askDesk<WeekAnswer>('/api/week') });
export const ordersQuestion = queryOptions({ queryKey: ['orders'], queryFn: () => askDesk<OrdersAnswer>('/api/orders') });
export const waterQuestion = queryOptions({ queryKey: ['water'], queryFn: () => askDesk<WaterAnswer>('/api/water') });
export const sheetsQuestion = queryOptions({ queryKey: ['sheets'], queryFn: () => askDesk<SheetsAnswer>('/api/water/sheets') });
export const basinQuestion = (id: string) => queryOptions({ queryKey: ['basin', id], queryFn: () => askDesk<BasinAnswer>(`/api/basins/${encodeURIComponent(id)}`) });
export const imagingQuestion = queryOptions({ queryKey: ['imaging'], queryFn: () => askDesk<ImagingAnswer>('/api/imaging') });
export const basinScansQuestion = (basin: string) => queryOptions({ queryKey: ['imaging', basin], queryFn: () => askDesk<BasinScansAnswer>(`/api/imaging/${encodeURIComponent(basin)}`) });
export const scanQuestion = (basin: string, scan: string) => queryOptions({ queryKey: ['imaging', basin, scan], queryFn: () => askDesk<ScanAnswer>(scanPath(basin, scan)) });
/** Address of a scan at the desk. */
export const scanPath = (basin: string, scan: string): string => `/api/imaging/${encodeURIComponent(basin)}/${encodeURIComponent(scan)}`;
export const lotsQuestion = queryOptions({ queryKey: ['lots'], queryFn: () => askDesk<LotsAnswer>('/api/lots') });
export const lotQuestion = (lot: string) => queryOptions({ queryKey: ['lot', lot], queryFn: () => askDesk<LotAnswer>(`/api/lots/${encodeURIComponent(lot)}`) });
export const cardQuestion = (id: string) => queryOptions({ queryKey: ['card', id], queryFn: () => askDesk<CropCardAnswer>(`/api/cards/${encodeURIComponent(id)}`) });
export const sourceQuestion = (id: string) => queryOptions({ queryKey: ['source', id], queryFn: () => askDesk<SourceAnswer>(`/api/sources/${encodeURIComponent(id)}`) });
export const journalQuestion = (before: number | undefined) => queryOptions({
  queryKey: ['journal', before ?? 'end'],
  queryFn: () => askDesk<JournalAnswer>(`/api/journal?count=60${before === undefined ? '' : `&before=${before}`}`),
});

/** Which concentrates are asked for; `moves`: tanks wanted for products. */
export interface RecipeAsked { readonly crop: string; readonly water: string; readonly table: 'target' | 'feed'; readonly factor: number; readonly tankL: number; readonly moves: Readonly<Record<string, string>> }

export function recipeQuestion({ moves, ...asked }: RecipeAsked) {
  const search = new URLSearchParams({ ...Object.fromEntries(Object.entries(asked).map(([name, value]) => [name, String(value)])), moves: Object.entries(moves).map((pair) => pair.join(':')).join(',') });
  return queryOptions({ queryKey: ['recipe', String(search)], queryFn: () => askDesk<RecipeAnswer>(`/api/water/recipe?${search}`) });
}
