import type { BasinView } from '../../needs/basinView.ts';
import type { CarriedVisit } from '../../visits/shiftSoFar.ts';
import type { VisitGroup } from '../../visits/groupVisits.ts';
import type { Composition } from '../../../science/chemistry/composition.ts';
import type { Feed } from '../feed.ts';

/** Solution that leaves a basin today. */
export interface ReturnBatch {
  readonly basin: string;
  readonly litres: number;
  readonly mmolPerL: Composition;
  /** Where it was approved to go; `to` absent: to discharge. Absent where it is still to be decided. */
  readonly approved?: { readonly to?: string };
}

/** What is drained before a filling, and all that is in a basin before it is washed, in the order of the basins. */
export function returnBatches(feeds: readonly Feed[], groups: readonly VisitGroup[], carried: readonly CarriedVisit[], views: ReadonlyMap<string, BasinView>): ReturnBatch[] {
  const drained = feeds.filter(({ drainL }) => drainL > 0).map(({ request, drainL }): ReturnBatch => ({
    basin: request.basin.id, litres: drainL, mmolPerL: request.present.mmolPerL, ...(request.fixed === undefined ? {} : { approved: toward(request.fixed.drainTo) }),
  }));
  const washed = groups.filter(({ kinds }) => kinds.includes('washing')).flatMap(({ basin }) => allOf(views.get(basin)));
  const carriedWashes = carried.flatMap(({ visit, remaining }) => remaining.flatMap(({ effect }) => (effect.kind === 'washing' ? allOf(views.get(visit.basin)).map((batch) => ({ ...batch, approved: toward(effect.drainTo) })) : [])));
  const byBasin = new Map<string, ReturnBatch>([...drained, ...washed, ...carriedWashes].map((batch) => [batch.basin, batch]));
  return [...byBasin.values()].sort((a, b) => (a.basin < b.basin ? -1 : 1));
}

const toward = (to: string | undefined): { to?: string } => (to === undefined ? {} : { to });

function allOf(view: BasinView | undefined): ReturnBatch[] {
  if (view === undefined || !view.water.known || view.water.solution.volumeL < 1) return [];
  const { volumeL, mmolPerL } = view.water.solution;
  return [{ basin: view.basin.id, litres: volumeL, mmolPerL }];
}
