/** How a vehicle gets to its next basin with the charge it has: straight, or over its charger. */
import type { DayFloor } from './dayFloor.ts';
import { UNKNOWN } from './dayModel.ts';
import type { VehicleBattery } from './scheduleProblem.ts';

/** A way over the charger. */
export interface ChargingWay {
  /** When the vehicle is at the basin. */
  readonly thereS: number;
  readonly fromS: number;
  readonly toS: number;
  readonly charger: number;
  readonly toChargerS: number;
  readonly fromChargerS: number;
  /** Charge after setting the basin down, in seconds of driving. */
  readonly chargeLeftS: number;
}

/** Charge after going straight from where the vehicle stands; less than `reachS` of the target: it must not. */
export function chargeAfter(floor: DayFloor, vehicle: number, origin: number, workS: number): number {
  const { model, state, layout } = floor;
  const from = state[layout.vehicleAt + vehicle] as number;
  return (state[layout.charge + vehicle] as number) - (model.emptyS[from * model.locationCount + origin] as number) - workS;
}

/** Charge that has to be left at the target: the way to the charger and the reserve. */
export function chargeToKeep(floor: DayFloor, battery: VehicleBattery, target: number): number {
  return battery.reserveS + (floor.model.emptyS[target * floor.model.locationCount + battery.chargeLocation] as number);
}

/** The way over the charger, charging to the full; undefined when even a full battery does not suffice. */
export function planCharge(floor: DayFloor, vehicle: number, battery: VehicleBattery, origin: number, target: number, workS: number): ChargingWay | undefined {
  const { model, state, layout } = floor;
  const n = model.locationCount;
  const charge = state[layout.charge + vehicle] as number;
  const charger = battery.chargeLocation;
  const toChargerS = model.emptyS[(state[layout.vehicleAt + vehicle] as number) * n + charger] as number;
  const fromChargerS = model.emptyS[charger * n + origin] as number;
  const chargeLeftS = battery.capacityS - fromChargerS - workS;
  if (chargeLeftS < chargeToKeep(floor, battery, target) || charge < toChargerS) return undefined;
  const fromS = (state[layout.vehicleFree + vehicle] as number) + toChargerS;
  const toS = fromS + Math.ceil((battery.capacityS - charge + toChargerS) / battery.gainSPerS);
  if (toS + fromChargerS >= UNKNOWN) return undefined;
  return { thereS: toS + fromChargerS, fromS, toS, charger, toChargerS, fromChargerS, chargeLeftS };
}
