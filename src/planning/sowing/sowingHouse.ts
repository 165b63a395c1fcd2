import type { GreenhouseFile, StationKind } from '../../greenhouse/schema/greenhouseFile.ts';
import type { SowingPlace } from './sowingProblem.ts';

/** What work, light and a basin cost, and how much of them a week has. */
export interface SowingHouse {
  readonly file: GreenhouseFile;
  readonly places: readonly SowingPlace[];
  /** Lamp electricity of one basin on a day in a place, kWh. */
  readonly lampKWhOn: (place: string, date: string) => number;
}

export interface WorkRate { readonly stationHours: number; readonly cost: number }

const HOUR_S = 3600;

/** Time and wage of handling plants and basins at stations of a kind; nothing where the greenhouse has none. */
export function workOf(file: GreenhouseFile, kind: StationKind, plants: number, basins: number): WorkRate {
  const station = file.stations.find((each) => each.kind === kind);
  if (station === undefined) return { stationHours: 0, cost: 0 };
  const stationHours = (plants * station.service.perPlantS + basins * station.service.fixedS) / HOUR_S;
  return { stationHours, cost: (stationHours * station.crew * file.sowing.wagePerHour) / station.places };
}

/** Hours that the places of all stations of a kind are served in a week. */
export function stationHoursPerWeek(file: GreenhouseFile, kind: StationKind): number {
  const places = file.stations.filter((each) => each.kind === kind).reduce((sum, each) => sum + each.places, 0);
  const open = spanH(file.shift.start, file.shift.end) - file.shift.breaks.reduce((sum, pause) => sum + spanH(pause.from, pause.to), 0);
  return places * open * file.sowing.workdaysPerWeek;
}

const clockH = (clock: string): number => Number(clock.slice(0, 2)) + Number(clock.slice(3)) / 60;
const spanH = (from: string, to: string): number => (clockH(to) - clockH(from) + 24) % 24 || 24;

/** Money for one planted basin over [fromDay, toDay) in a place, and the electricity of its lamps. */
export function basinDays(house: SowingHouse, place: string, dates: readonly string[]): { readonly cost: number; readonly kWh: number } {
  const kWh = dates.reduce((sum, date) => sum + house.lampKWhOn(place, date), 0);
  return { kWh, cost: (dates.length * house.file.sowing.basinCostPerWeek) / 7 + kWh * house.file.prices.electricityPerKWh };
}
