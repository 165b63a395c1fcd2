import type { StationKind } from '../../greenhouse/schema/greenhouseFile.ts';
import type { NeedDraft, Urgency } from '../needs/needDraft.ts';

/** The needs that one trip of a basin serves, in the order of its stops. */
export interface VisitGroup {
  readonly visit: string;
  readonly basin: string;
  readonly urgency: Urgency;
  readonly needs: readonly NeedDraft[];
  /** Kinds of stations, in order. */
  readonly kinds: readonly StationKind[];
}

const LETTER: Readonly<Record<StationKind, string>> = { harvest: 'H', transplanting: 'T', filling: 'F', imaging: 'I', washing: 'W' };
/** What a visit is named after, first of these that it does. */
const NAMED_AFTER: readonly StationKind[] = ['harvest', 'transplanting', 'filling', 'imaging', 'washing'];
const RANK: readonly Urgency[] = ['must', 'should', 'may'];

/**
 * Combines the needs of each basin into one trip. A basin that is emptied today (harvest, or its plants move on) does that
 * and is washed; one that takes plants is filled first; one that stays planted is imaged, then filled. What is only due
 * soon (may) rides along but is no reason to go out.
 */
export function groupVisits(needs: readonly NeedDraft[], washAfterwards: boolean): VisitGroup[] {
  const byBasin = new Map<string, NeedDraft[]>();
  for (const need of needs) byBasin.set(need.basin, [...(byBasin.get(need.basin) ?? []), need]);
  return [...byBasin].sort(([a], [b]) => (a < b ? -1 : 1)).flatMap(([basin, all]) => {
    const kept = usefulNeeds(all);
    if (!kept.some(({ urgency }) => urgency !== 'may')) return [];
    const kinds = orderOfStops(kept, washAfterwards);
    const named = NAMED_AFTER.find((kind) => kinds.includes(kind))!;
    return [{ visit: `${LETTER[named]}-${basin}`, basin, kinds, needs: kept, urgency: RANK.find((rank) => kept.some(({ urgency }) => urgency === rank))! }];
  });
}

const empties = (need: NeedDraft): boolean => need.kind === 'harvest' || (need.kind === 'transplanting' && need.move?.fromBasin === need.basin);

/** A basin that is emptied today needs neither an image nor fresh water; a harvest that nobody waits for empties nothing. */
function usefulNeeds(all: readonly NeedDraft[]): readonly NeedDraft[] {
  const emptying = all.filter((need) => empties(need) && need.urgency !== 'may');
  if (emptying.length === 0) return all.filter((need) => !empties(need));
  return all.filter((need) => empties(need) || need.kind === 'washing');
}

function orderOfStops(needs: readonly NeedDraft[], washAfterwards: boolean): StationKind[] {
  const has = (kind: StationKind) => needs.some((need) => need.kind === kind);
  if (needs.some(empties)) return [has('harvest') ? 'harvest' : 'transplanting', ...(washAfterwards || has('washing') ? ['washing' as const] : [])];
  return (['washing', 'imaging', 'filling', 'transplanting'] as const).filter(has);
}
