import type { OrderLine } from '../../greenhouse/schema/tableRows.ts';
import { placesPerBasin } from '../../planning/sowing/growingLot.ts';
import type { SowingPlace } from '../../planning/sowing/sowingProblem.ts';
import { addDays } from '../demo/demoCalendar.ts';
import { freshG, growLot, readyShare, unitsOfBasin, type SeasonLot } from './seasonLot.ts';

export interface SeasonCount { lines: number; filled: number; unitsOrdered: number; unitsDelivered: number; /** Units of basins cut. */ unitsCut: number; lateMoves: number }

interface Stock { readonly crop: string; readonly keptUntil: string; units: number }

/** Shares of ready plants: enough to be cut in turn, and enough to be cut where an order would else not leave today, as the morning plan does. */
const CUT_SHARE = 0.8;
const NEARLY_READY_SHARE = 0.5;

/** The floor of the season test, day by day: lots move on when basins are free, orders are served from what is ready. */
export class SeasonFloor {
  readonly lots: SeasonLot[] = [];
  readonly count: SeasonCount = { lines: 0, filled: 0, unitsOrdered: 0, unitsDelivered: 0, unitsCut: 0, lateMoves: 0 };
  readonly #nursery: SowingPlace;
  readonly #glass: SowingPlace;
  readonly #turnaroundDays: number;
  readonly #turning: { kind: 'nursery' | 'glass'; basins: number; until: string }[] = [];
  #stock: Stock[] = [];
  #counts = false;

  constructor(nursery: SowingPlace, glass: SowingPlace, turnaroundDays: number) {
    this.#nursery = nursery;
    this.#glass = glass;
    this.#turnaroundDays = turnaroundDays;
  }

  /** One day: moves, harvest and deliveries, then growth. Lines due today count from `countFrom` on. */
  live(date: string, lines: readonly OrderLine[], dli: { readonly nursery: number; readonly glass: number }, countFrom: string): void {
    this.#counts = date >= countFrom;
    this.#move(date);
    this.#stock = this.#stock.filter(({ keptUntil, units }) => keptUntil >= date && units > 0);
    for (const line of lines) this.#serve(line, date);
    this.#clearOvergrown(date);
    for (const lot of this.lots) if (lot.stage >= 0) growLot(lot, lot.plants / (lot.basins * this.#placeOf(lot, lot.stage).basinM2), this.#placeOf(lot, lot.stage).kind === 'nursery' ? dli.nursery : dli.glass);
  }

  #placeOf(lot: SeasonLot, stage: number): SowingPlace {
    return lot.card.stages[stage]!.bay === 'nursery' ? this.#nursery : this.#glass;
  }

  #free(place: SowingPlace, date: string): number {
    const used = this.lots.reduce((sum, lot) => sum + (lot.stage >= 0 && this.#placeOf(lot, lot.stage) === place ? lot.basins : 0), 0);
    return place.basins - used - this.#turning.reduce((sum, each) => sum + (each.kind === place.kind && each.until > date ? each.basins : 0), 0);
  }

  #release(place: SowingPlace, basins: number, date: string): void {
    this.#turning.push({ kind: place.kind, basins, until: addDays(date, this.#turnaroundDays) });
  }

  /** The longest overdue first; a lot without basins waits. */
  #move(date: string): void {
    const due = this.lots.filter((lot) => lot.stage + 1 < lot.card.stages.length && lot.movesOn <= date).sort((a, b) => (a.movesOn < b.movesOn ? -1 : a.movesOn > b.movesOn ? 1 : a.id < b.id ? -1 : 1));
    for (const lot of due) {
      const next = lot.stage + 1;
      const place = this.#placeOf(lot, next);
      const needed = Math.ceil(lot.plants / placesPerBasin(lot.card, next, place));
      if (needed === 0 || needed > this.#free(place, date)) { if (this.#counts) this.count.lateMoves += 1; continue; }
      if (lot.stage >= 0) this.#release(this.#placeOf(lot, lot.stage), lot.basins, date);
      lot.stage = next;
      lot.basins = needed;
      lot.movesOn = addDays(date, Math.round(lot.card.stages[next]!.days ?? 14));
    }
  }

  #serve(line: OrderLine, date: string): void {
    let open = line.units - this.#fromStock(line.crop, line.units);
    while (open > 0 && this.#cutFor(line.crop, date)) open -= this.#fromStock(line.crop, open);
    if (!this.#counts) return;
    this.count.lines += 1;
    this.count.unitsOrdered += line.units;
    this.count.unitsDelivered += line.units - open;
    if (open <= 0) this.count.filled += 1;
  }

  #fromStock(crop: string, wanted: number): number {
    let given = 0;
    for (const stock of this.#stock) {
      if (stock.crop !== crop) continue;
      const units = Math.min(stock.units, wanted - given);
      stock.units -= units;
      given += units;
    }
    return given;
  }

  /** Cuts one basin: of the oldest lot that is ready enough, else of the readiest that nearly is. */
  #cutFor(crop: string, date: string): boolean {
    const able = this.lots.filter((lot) => lot.card.id === crop && lot.stage === lot.card.stages.length - 1 && readyShare(lot) >= NEARLY_READY_SHARE && unitsOfBasin(lot) > 0);
    const lot = able.find((each) => readyShare(each) >= CUT_SHARE) ?? able.sort((a, b) => readyShare(b) - readyShare(a))[0];
    if (lot === undefined) return false;
    this.#cutBasin(lot, date);
    return true;
  }

  #cutBasin(lot: SeasonLot, date: string): void {
    const units = unitsOfBasin(lot);
    this.#stock.push({ crop: lot.card.id, keptUntil: addDays(date, Math.floor(lot.card.harvest.keepsDays)), units });
    if (this.#counts) this.count.unitsCut += units;
    lot.plants -= lot.plants / lot.basins;
    lot.basins -= 1;
    this.#release(this.#placeOf(lot, lot.stage), 1, date);
    if (lot.basins === 0) this.lots.splice(this.lots.indexOf(lot), 1);
  }

  #clearOvergrown(date: string): void {
    const past = this.lots.filter((lot) => lot.stage === lot.card.stages.length - 1 && freshG(lot) > lot.card.harvest.latestFreshG);
    for (const lot of past) while (lot.basins > 0) this.#cutBasin(lot, date);
  }
}
