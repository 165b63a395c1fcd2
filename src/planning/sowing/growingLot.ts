import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { normalQuantile } from '../../science/crop/normalNumbers.ts';
import { basinDays, workOf, type SowingHouse } from './sowingHouse.ts';
import type { SowingCalendar } from './sowingCalendar.ts';
import type { SowingCut, SowingPlace, SowingSource, SowingStage } from './sowingProblem.ts';
import type { UnitsOnDay } from './unitsAhead.ts';

/** A lot that stands or may be sown, as days. */
export interface GrowingLot {
  readonly id: string;
  readonly card: CropCard;
  /** Place of each stage to come or under way, in turn, and the days [fromDay, toDay) in it; the last one is open-ended. */
  readonly stages: readonly { readonly stage: number; readonly place: SowingPlace; readonly fromDay: number; readonly toDay: number }[];
  readonly plantsPerBasin: number;
  /** Basins of the present stage for each final basin, where the lot stands already. */
  readonly standingRatio?: number;
  readonly units: readonly UnitsOnDay[];
  /** Seeds are still to be bought and sown. */
  readonly isNew: boolean;
}

/** Below this share of the units that a plant gives at best, nobody plans to cut; of what stands, people cut what they need (own choices). */
const LEAST_SHARE_OF_BEST = { sown: 0.5, standing: 0.05 } as const;
/** Lots that stand may be cut even where they are likelier than not past their best, up to this chance (own choice). */
const STANDING_OVERGROWN_RISK = 0.6;

export const limitId = (kind: 'transplanting' | 'harvest' | 'lamps', week: number): string => `${kind}/${week}`;

/** What a lot takes and gives, per final basin. Without cuts where its harvest lies outside the blocks. */
export function sourceOf(lot: GrowingLot, house: SowingHouse, calendar: SowingCalendar): SowingSource {
  const { card } = lot;
  const last = lot.stages.at(-1)!;
  const turnaround = house.file.sowing.turnaroundDays;
  const earlier = lot.stages.slice(0, -1).map(({ stage, place, fromDay, toDay }, i): SowingStage => ({
    place: place.id, fromDay: Math.max(0, fromDay), toDay: toDay + turnaround,
    basinsPerFinal: i === 0 && lot.standingRatio !== undefined ? lot.standingRatio : lot.plantsPerBasin / placesPerBasin(card, stage, place),
  }));
  const cuts = cutsOf(lot, house, calendar);
  const finalFromDay = Math.max(0, last.fromDay);
  const takes: Record<string, number> = {};
  const take = (kind: 'transplanting' | 'lamps', day: number, amount: number) => { const id = limitId(kind, Math.floor(day / 7)); takes[id] = (takes[id] ?? 0) + amount; };
  let cost = lot.isNew ? (lot.plantsPerBasin / sureGermination(card, house.file.sowing.serviceLevel)) * card.sowing.seedCost : 0;
  for (const { fromDay } of lot.stages.filter((stage) => stage.fromDay > 0 || lot.isNew)) {
    const work = workOf(house.file, 'transplanting', lot.plantsPerBasin, 1);
    cost += work.cost;
    if (fromDay >= 0) take('transplanting', fromDay, work.stationHours);
  }
  for (const stage of earlier) {
    eachWeek(stage.fromDay, stage.toDay, (from, to) => {
      const days = basinDays(house, stage.place, datesBetween(calendar, from, to));
      cost += days.cost * stage.basinsPerFinal;
      take('lamps', from, days.kWh * stage.basinsPerFinal);
    });
  }
  const lastDay = cuts.length === 0 ? finalFromDay : calendar.blocks[cuts.at(-1)!.block]!.toDay + 1;
  eachWeek(finalFromDay, lastDay, (from, to) => {
    const days = basinDays(house, last.place.id, datesBetween(calendar, from, to));
    cost += days.cost;
    take('lamps', from, days.kWh);
  });
  return {
    id: lot.id, crop: card.id, place: last.place.id, plantsPerBasin: lot.plantsPerBasin, stages: earlier, finalFromDay, cuts, costPerBasin: cost, takes,
    basinCostByBlock: Object.fromEntries(cuts.map(({ block }) => [block, basinDays(house, last.place.id, datesBetween(calendar, calendar.blocks[block]!.fromDay, calendar.blocks[block]!.toDay + 1)).cost])),
  };
}

/** Blocks on whose every day the lot may be cut: grown enough on the first, seldom past its best on the last. */
function cutsOf(lot: GrowingLot, house: SowingHouse, calendar: SowingCalendar): SowingCut[] {
  const { units } = lot;
  if (units.length === 0) return [];
  const firstDay = calendar.dayOf(units[0]!.date);
  const best = Math.max(...units.map(({ sureUnits }) => sureUnits));
  const finalFrom = lot.stages.at(-1)!.fromDay;
  const cuts: { cut: SowingCut; overgrown: number }[] = [];
  for (const [block, { fromDay, toDay }] of calendar.blocks.entries()) {
    const [early, late] = [units[fromDay - firstDay], units[toDay - firstDay]];
    if (early === undefined || late === undefined || fromDay < finalFrom || early.sureUnits < LEAST_SHARE_OF_BEST[lot.isNew ? 'sown' : 'standing'] * best || early.sureUnits <= 1e-6) continue;
    const harvest = workOf(house.file, 'harvest', 1, 1 / lot.plantsPerBasin);
    const week = Math.floor(fromDay / 7);
    cuts.push({ overgrown: late.overgrownChance, cut: { block, unitsPerPlant: early.sureUnits, meanUnitsPerPlant: early.meanUnits, costPerPlant: harvest.cost, takesPerPlant: { [limitId('harvest', week)]: harvest.stationHours } } });
  }
  const allowed = cuts.filter(({ overgrown }) => overgrown <= (lot.isNew ? house.file.sowing.overgrownRisk : STANDING_OVERGROWN_RISK));
  // A crop that is never both ready and not yet past its best for sure is cut in the first block in which it is ready.
  return (allowed.length > 0 ? allowed : cuts.slice(0, 1)).map(({ cut }) => cut);
}

export const placesPerBasin = (card: CropCard, stage: number, place: SowingPlace): number => Math.max(1, Math.round(card.stages[stage]!.plantsPerM2 * place.basinM2));

/** Share of seeds that come to something, at the quantile of the service level. */
export function sureGermination(card: CropCard, serviceLevel: number): number {
  const z = normalQuantile(serviceLevel);
  return Math.max(0.02, card.sowing.germinationShare - z * card.sowing.germinationSpread);
}

const datesBetween = (calendar: SowingCalendar, fromDay: number, toDay: number): string[] => Array.from({ length: Math.max(0, toDay - fromDay) }, (_, i) => calendar.dateOf(fromDay + i));

function eachWeek(fromDay: number, toDay: number, visit: (from: number, to: number) => void): void {
  for (let from = fromDay; from < toDay;) {
    const to = Math.min(toDay, (Math.floor(from / 7) + 1) * 7);
    visit(from, to);
    from = to;
  }
}
