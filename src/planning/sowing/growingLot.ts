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

/** Chance of being grown enough from which a lot is planned to be cut (set on seeds 101 to 103 of the season test, which is scored on 1 to 30). */
const READY_CHANCE = 0.7;
/** Chance of being past its best up to which a lot that stands is planned to be cut (own choice). */
const OVERGROWN_STANDING = 0.5;
/** Chance of being usable at its end from which a block beside the good one is served too (own choice). */
const LEAST_BESIDE = 0.6;
/** Blocks in which hardly any lot can be cut give nothing. */
const LEAST_USABLE = 0.02;

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

/**
 * Blocks in which the lot may be planned to be cut: likely grown enough on the first day and seldom past its
 * best on the last; where its spread leaves no such block, the one in which it can most likely be cut. That it may be late is
 * the business of the buffer (readyBuffer.ts).
 */
function cutsOf(lot: GrowingLot, house: SowingHouse, calendar: SowingCalendar): SowingCut[] {
  const { units } = lot;
  if (units.length === 0) return [];
  const firstDay = calendar.dayOf(units[0]!.date);
  const finalFrom = lot.stages.at(-1)!.fromDay;
  const harvest = workOf(house.file, 'harvest', 1, 1 / lot.plantsPerBasin);
  const mostOvergrown = lot.isNew ? house.file.sowing.overgrownRisk : OVERGROWN_STANDING;
  const spans = calendar.blocks.flatMap(({ fromDay, toDay }, block) => {
    const [early, late] = [units[fromDay - firstDay], units[toDay - firstDay]];
    if (early === undefined || late === undefined || fromDay < finalFrom) return [];
    return [{ block, isGood: early.readyChance >= READY_CHANCE && late.overgrownChance <= mostOvergrown, usableShare: late.readyChance * (1 - late.overgrownChance), units: Math.min(early.units, late.units) }];
  }).filter(({ usableShare }) => usableShare > LEAST_USABLE);
  const good = spans.filter(({ isGood }) => isGood);
  const best = spans.reduce((most, { usableShare }) => Math.max(most, usableShare), 0);
  const sure = good.length > 0 ? good : spans.filter(({ usableShare }) => usableShare === best);
  // Blocks may be longer than the days on which a lot is good: one that has a single block serves those beside it too, with what may be expected of it.
  const chosen = spans.flatMap((span) => (sure.includes(span) ? [span] : sure.length === 1 && span.usableShare >= LEAST_BESIDE && Math.abs(sure[0]!.block - span.block) === 1 ? [{ ...span, units: span.units * span.usableShare }] : []));
  return chosen.map(({ block, usableShare, units }) => ({
    block, usableShare, unitsPerPlant: units, costPerPlant: harvest.cost, takesPerPlant: { [limitId('harvest', calendar.blocks[block]!.week)]: harvest.stationHours },
  }));
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
