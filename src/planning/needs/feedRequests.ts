import { basinAreaM2, basinLeastL } from '../../greenhouse/basinGeometry.ts';
import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { scaleComposition } from '../../science/chemistry/composition.ts';
import type { ShiftDay } from '../day/shiftDay.ts';
import type { CarriedVisit } from '../visits/shiftSoFar.ts';
import type { VisitGroup } from '../visits/groupVisits.ts';
import type { FeedRequest } from '../water/feed.ts';
import { uptakeComposition } from '../water/feedLimits.ts';
import { feedViolations } from '../water/feedViolations.ts';
import { waterFigures } from '../water/waterFigures.ts';
import { expectedLossL, type BasinView } from './basinView.ts';

/** A feed has to last so long (common practice, no source). */
const LASTS_DAYS = 7;
/** What young plants transpire in their first week in a basin, L/(m2 d) (common practice, no source). */
const YOUNG_LOSS_L_PER_M2_D = 0.8;
const DAY_MS = 86_400_000;

export interface FeedSetting { readonly state: GreenhouseState; readonly day: ShiftDay; readonly maximumLoadKg: number; readonly views: ReadonlyMap<string, BasinView> }

/** One request for each basin that has a filling among its stops; an empty target that holds good water already needs none. */
export function feedRequests(groups: readonly VisitGroup[], setting: FeedSetting): FeedRequest[] {
  return groups.filter(({ kinds }) => kinds.includes('filling')).flatMap((group): FeedRequest[] => {
    const view = setting.views.get(group.basin)!;
    const crop = group.needs.find(({ move }) => move !== undefined)?.move?.crop ?? view.basin.planting?.crop;
    const card = crop === undefined ? undefined : setting.state.crops[crop];
    return card === undefined || holdsGoodWater(view, card) ? [] : [requestFor(view, card, setting, group.kinds.includes('washing'))];
  });
}

/** Requests whose litres were approved already: they are checked and written on a ticket again, not changed. */
export function carriedRequests(carried: readonly CarriedVisit[], setting: FeedSetting): FeedRequest[] {
  return carried.flatMap(({ visit, remaining }): FeedRequest[] => {
    const view = setting.views.get(visit.basin);
    const filling = remaining.find(({ effect }) => effect.kind === 'filling')?.effect;
    if (view === undefined || filling?.kind !== 'filling') return [];
    const planted = remaining.find(({ effect }) => effect.kind === 'transplanting')?.effect;
    const crop = planted?.kind === 'transplanting' ? planted.crop : view.basin.planting?.crop;
    const card = setting.state.crops[crop ?? ''];
    return card === undefined ? [] : [{ ...requestFor(view, card, setting, remaining.some(({ effect }) => effect.kind === 'washing')), fixed: { drainL: filling.drainL, drawL: filling.drawL, ...(filling.drainTo === undefined ? {} : { drainTo: filling.drainTo }) } }];
  });
}

/** `washed`: the basin is washed before it is filled, and nothing is left in it then. */
function requestFor(view: BasinView, card: CropCard, { day, maximumLoadKg }: FeedSetting, washed: boolean): FeedRequest {
  const { basin, water } = view;
  const isTarget = basin.planting === undefined;
  const present = water.known && !washed ? { volumeL: water.solution.volumeL, mmolPerL: water.solution.mmolPerL } : { volumeL: 0, mmolPerL: {} };
  const litres = isTarget ? LASTS_DAYS * YOUNG_LOSS_L_PER_M2_D * basinAreaM2(basin.type) : expectedLossL(view, day.atMs, day.atMs + LASTS_DAYS * DAY_MS);
  const factor = water.known && !isTarget ? water.solution.uptakeFactor : 1;
  return { basin, card, present, maximumLoadKg, uptake: { litres, mmolPerL: scaleComposition(uptakeComposition(card), factor) } };
}

function holdsGoodWater({ basin, water }: BasinView, card: CropCard): boolean {
  if (basin.planting !== undefined || !water.known || water.solution.volumeL < basinLeastL(basin.type)) return false;
  const { volumeL, mmolPerL } = water.solution;
  return feedViolations({ basin, card }, { volumeL, mmolPerL, ...waterFigures(mmolPerL) }, [0, Infinity]).length === 0;
}
