import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { ShiftDay } from '../day/shiftDay.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import type { LotSupply } from '../orders/lotSupply.ts';
import type { OpenLine } from '../orders/outlookOrders.ts';
import type { HomelessPlants } from '../visits/shiftSoFar.ts';
import type { BasinView } from './basinView.ts';
import { decidedNeeds, type Decisions } from './decidedNeeds.ts';
import { fillingNeed } from './fillingNeed.ts';
import { harvestNeeds } from './harvestNeeds.ts';
import { imagingNeed } from './imagingNeed.ts';
import type { NeedDraft } from './needDraft.ts';
import { transplantNeeds, type TransplantPlan } from './transplantNeeds.ts';
import { washingNeed } from './washingNeed.ts';

export interface NeedsQuestion {
  readonly state: GreenhouseState;
  readonly file: GreenhouseFile;
  readonly day: ShiftDay;
  readonly lots: readonly LotExpectation[];
  readonly basins: readonly BasinView[];
  readonly supplies: ReadonlyMap<string, LotSupply>;
  readonly lines: readonly OpenLine[];
  /** Basins whose day is decided already: nothing new is asked of them. */
  readonly settled?: ReadonlySet<string>;
  readonly homeless?: readonly HomelessPlants[];
  /** Seedlings by lot that visits of the approved plan are still to set. */
  readonly seedlingsUnderWay?: ReadonlyMap<string, number>;
  /** Basins whose visit broke off at a station: they have to travel back whatever they need. */
  readonly stranded?: ReadonlySet<string>;
  /** What people decided about lots. */
  readonly decided?: Decisions;
  /** Lots of which a scan is worth more than it costs, and in which words. */
  readonly worthScanning?: ReadonlyMap<string, string>;
}

export interface FoundNeeds {
  readonly needs: readonly NeedDraft[];
  readonly withoutPlace: TransplantPlan['withoutPlace'];
}

/** What every basin needs today or soon, and why. In the order of basins, then of kinds. */
export function findNeeds({ state, file, day, lots, basins, supplies, lines, settled = new Set(), homeless = [], seedlingsUnderWay = new Map(), stranded = new Set(), decided = new Map(), worthScanning = new Map() }: NeedsQuestion): FoundNeeds {
  const gone = new Set([...decided.values()].flatMap(({ lot, order }) => (order.do === 'discard' ? [lot] : [])));
  const kept = lots.filter(({ view }) => !gone.has(view.lot));
  const moves = transplantNeeds(kept.map(({ view }) => view), state, file, day, settled, homeless, decided, seedlingsUnderWay);
  const all: NeedDraft[] = [
    ...harvestNeeds(kept, supplies, lines, day, settled, decided),
    ...moves.needs,
    ...decidedNeeds(lots, state, moves.needs, decided, day.date),
    ...basins.flatMap((view) => [fillingNeed(view, day), imagingNeed(view, file.imagingEveryDays, day, worthScanning.get(view.basin.planting?.lot ?? '')), washingNeed(view, day)].filter((need) => need !== undefined)),
  ];
  const needs = all.filter(({ basin }) => !settled.has(basin)).map((need) => (need.urgency === 'may' && stranded.has(need.basin) ? { ...need, urgency: 'should' as const } : need)).map((need, i) => ({ need, i })).sort((a, b) => (a.need.basin < b.need.basin ? -1 : a.need.basin > b.need.basin ? 1 : a.i - b.i)).map(({ need }) => need);
  return { needs, withoutPlace: moves.withoutPlace };
}
