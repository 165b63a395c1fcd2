import type { BayDescription, GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { SowingRow } from '../../greenhouse/schema/tableRows.ts';
import type { BasinState, DecidedAction, GreenhouseState } from '../../greenhouse/state.ts';
import { daysBetween, type ShiftDay } from '../day/shiftDay.ts';
import { daysOverStage, type LotView } from '../lots/lotViews.ts';
import { basinAreaM2 } from '../../greenhouse/basinGeometry.ts';
import type { Decisions } from './decidedNeeds.ts';
import type { HomelessPlants } from '../visits/shiftSoFar.ts';
import type { NeedDraft, TransplantMove } from './needDraft.ts';

export interface TransplantPlan {
  readonly needs: readonly NeedDraft[];
  /** Basins whose plants should move on, or trays (no basin), for which there is no place. */
  readonly withoutPlace: readonly { readonly basin?: string; readonly lot: string; readonly reason: string }[];
}

/**
 * Plants whose stage is over move on: from each of their basins into as many empty, clean basins of the next stage's kind
 * of bay as its density asks for; seedlings leave their trays for basins of their first stage. `underWay`: seedlings by lot that visits of an approved plan are
 * still to set. Longest overdue first; a move that finds too few basins is not made and says so.
 */
export function transplantNeeds(views: readonly LotView[], state: GreenhouseState, file: GreenhouseFile, day: ShiftDay, keepOut: ReadonlySet<string>, homeless: readonly HomelessPlants[] = [], decided: Decisions = new Map(), underWay: ReadonlyMap<string, number> = new Map()): TransplantPlan {
  const due = views.filter((view) => view.stageIndex + 1 < view.card.stages.length && (daysOverStage(view, day.date) >= 0 || movesApart(view, decided.get(view.lot), day.date)))
    .sort((a, b) => daysOverStage(b, day.date) - daysOverStage(a, day.date) || (a.lot < b.lot ? -1 : 1));
  const free = new FreeBasins(state, file, keepOut);
  const needs: NeedDraft[] = [];
  const withoutPlace: { basin?: string; lot: string; reason: string }[] = [];
  for (const plants of homeless) {
    const found = newHome(plants, state, free);
    if ('reason' in found) withoutPlace.push(found); else needs.push(...found.needs);
  }
  for (const { row, card, days } of traysDue(state, day.date, underWay)) {
    const stage = card.stages[0]!;
    const targets = free.take(row.plants, stage.plantsPerM2, stage.bay, '');
    if (typeof targets === 'string') { withoutPlace.push({ lot: row.lot, reason: targets }); continue; }
    needs.push(...needsOfTrays({ lot: row.lot, crop: card.id, sown: row.sown, stage: stage.id, plants: row.plants, targets }, days));
  }
  for (const view of due) {
    const over = daysOverStage(view, day.date);
    for (const basin of view.basins.filter(({ id, planting }) => planting!.stage === view.stage.id && !keepOut.has(id))) {
      const next = view.card.stages[view.stageIndex + 1]!;
      const targets = free.take(basin.planting!.plants, next.plantsPerM2, next.bay, basin.bay);
      if (typeof targets === 'string') { withoutPlace.push({ basin: basin.id, lot: view.lot, reason: targets }); continue; }
      needs.push(...needsOfMove({ lot: view.lot, crop: view.card.id, sown: view.sown, stage: next.id, fromBasin: basin.id, plants: basin.planting!.plants, targets }, view, over));
    }
  }
  return { needs, withoutPlace };
}

/** What is ready to leave its trays today, the longest overdue first, less what visits under way plant. */
function traysDue({ trays, crops }: GreenhouseState, date: string, underWay: ReadonlyMap<string, number>): { readonly row: SowingRow; readonly card: CropCard; readonly days: number }[] {
  return Object.values(trays).flatMap((row) => {
    const card = crops[row.crop], plants = row.plants - (underWay.get(row.lot) ?? 0);
    const days = card === undefined ? -1 : daysBetween(row.sown, date) - Math.round(card.sowing.trayDays);
    return card === undefined || days < 0 || plants <= 0 ? [] : [{ row: { ...row, plants }, card, days }];
  }).sort((a, b) => b.days - a.days || (a.row.lot < b.row.lot ? -1 : 1));
}

function needsOfTrays(move: TransplantMove, days: number): NeedDraft[] {
  const since = days === 0 ? 'are ready to leave their trays' : `should have left their trays ${days} ${days === 1 ? 'day' : 'days'} ago`;
  return move.targets.flatMap(({ basin, plants }) => (['filling', 'transplanting'] as const).map((kind): NeedDraft => ({
    basin, kind, urgency: 'must', why: 'stage-plan', move, reason: `${move.plants} seedlings of ${move.lot}, sown ${move.sown}, ${since}: ${basin} takes ${plants}`,
  })));
}

/** It was decided in this stage that it moves on early, from the day after. */
const movesApart = (view: LotView, decided: DecidedAction | undefined, date: string): boolean =>
  decided?.order.do === 'move-apart' && view.placed <= decided.date && decided.date < date;

/** Plants that stand lifted without a basin: the most urgent of all. */
function newHome({ effect, failedBasin }: HomelessPlants, state: GreenhouseState, free: FreeBasins): { needs: NeedDraft[] } | TransplantPlan['withoutPlace'][number] {
  const card = state.crops[effect.crop ?? ''];
  const stage = card?.stages.find(({ id }) => id === effect.stage);
  const targets = stage === undefined ? `no crop card has the stage ${effect.stage}` : free.take(effect.plants, stage.plantsPerM2, stage.bay, state.basins[failedBasin]?.bay ?? '', failedBasin);
  if (typeof targets === 'string') return { basin: failedBasin, lot: effect.lot, reason: `they are lifted out of ${effect.fromBasin} already, ${failedBasin} failed, and ${targets}` };
  const move: TransplantMove = { lot: effect.lot, crop: effect.crop ?? '', sown: effect.sown ?? '', stage: effect.stage, ...(effect.fromBasin === undefined ? {} : { fromBasin: effect.fromBasin }), plants: effect.plants, targets };
  return { needs: targets.flatMap(({ basin, plants }) => (['filling', 'transplanting'] as const).map((kind): NeedDraft => ({
    basin, kind, urgency: 'must', why: 'stage-plan', move, reason: `${plants} plants of ${effect.lot} are lifted out of ${effect.fromBasin} already and ${failedBasin} failed: they need another basin now`,
  }))) };
}

function needsOfMove(move: TransplantMove & { readonly fromBasin: string }, view: LotView, over: number): NeedDraft[] {
  const next = view.card.stages[view.stageIndex + 1]!;
  const reason = `${view.stage.title} stage of ${view.lot} ${over < 0 ? `is cut short by decision, ${-over} ${over === -1 ? 'day' : 'days'} early` : `ended ${view.stageEnds}${over > 0 ? `, ${over} ${over === 1 ? 'day' : 'days'} ago` : ''}`}: ${move.plants} plants move on at ${next.plantsPerM2}/m2`;
  const need = (basin: string, text: string): NeedDraft => ({ basin, kind: 'transplanting', urgency: 'must', reason: text, dueDate: view.stageEnds, why: 'stage-plan', move });
  return [
    need(move.fromBasin, reason),
    ...move.targets.flatMap((target): NeedDraft[] => [
      { basin: target.basin, kind: 'filling', urgency: 'must', reason: `takes ${target.plants} plants of ${view.lot} from ${move.fromBasin} today`, dueDate: view.stageEnds, why: 'stage-plan', move },
      need(target.basin, `takes ${target.plants} plants of ${view.lot} from ${move.fromBasin}`),
    ]),
  ];
}

/** Empty, clean basins, and free berths to which such a basin may move; each is given out once. */
class FreeBasins {
  private readonly basins: BasinState[];
  private readonly freeBerths: { id: string; bay: string }[];
  private readonly kindOf: ReadonlyMap<string, BayDescription['kind']>;

  constructor(state: GreenhouseState, file: GreenhouseFile, keepOut: ReadonlySet<string>) {
    this.kindOf = new Map(file.bays.map((bay) => [bay.id, bay.kind]));
    this.basins = Object.values(state.basins).filter((basin) => basin.planting === undefined && !basin.needsWash && !keepOut.has(basin.id));
    const taken = new Set(Object.values(state.basins).map(({ berth }) => berth));
    this.freeBerths = (state.floor?.berths ?? []).filter(({ id }) => !taken.has(id)).map(({ id, bay }) => ({ id, bay }));
  }

  /** Enough basins for the plants, each filled to the density in turn; or why there are none. */
  take(plants: number, plantsPerM2: number, kind: BayDescription['kind'], nearBay: string, notThis?: string): TransplantMove['targets'] | string {
    const chosen: { basin: BasinState; toBerth: string }[] = [];
    let room = 0;
    for (const candidate of this.candidates(kind, nearBay)) {
      if (room >= plants) break;
      if (candidate.basin.id === notThis) continue;
      chosen.push(candidate);
      room += placesIn(candidate.basin, plantsPerM2);
    }
    if (room < plants) return `${plants} plants need ${room === 0 ? 'a basin' : 'more basins'} in a ${kind} bay, and ${chosen.length === 0 ? 'none is' : `only ${chosen.length} ${chosen.length === 1 ? 'is' : 'are'}`} empty and clean`;
    for (const { basin, toBerth } of chosen) this.use(basin.id, toBerth);
    let left = plants;
    return chosen.map(({ basin, toBerth }) => {
      const here = Math.min(left, placesIn(basin, plantsPerM2));
      left -= here;
      return { basin: basin.id, plants: here, toBerth };
    });
  }

  /** Basins that stand in a bay of the kind already, nearest name first; then others that can move to a free berth of one. */
  private candidates(kind: BayDescription['kind'], nearBay: string): { basin: BasinState; toBerth: string }[] {
    const there = this.basins.filter(({ bay }) => this.kindOf.get(bay) === kind).sort((a, b) => Number(b.bay === nearBay) - Number(a.bay === nearBay) || (a.id < b.id ? -1 : 1));
    const berths = this.freeBerths.filter(({ bay }) => this.kindOf.get(bay) === kind);
    const elsewhere = this.basins.filter(({ bay }) => this.kindOf.get(bay) !== kind).slice(0, berths.length);
    return [...there.map((basin) => ({ basin, toBerth: basin.berth })), ...elsewhere.map((basin, i) => ({ basin, toBerth: berths[i]!.id }))];
  }

  private use(basin: string, berth: string): void {
    this.basins.splice(this.basins.findIndex(({ id }) => id === basin), 1);
    const at = this.freeBerths.findIndex(({ id }) => id === berth);
    if (at >= 0) this.freeBerths.splice(at, 1);
  }
}

const placesIn = (basin: BasinState, plantsPerM2: number): number => Math.max(1, Math.round(plantsPerM2 * basinAreaM2(basin.type)));
