/** How a vehicle gets to its next basin with the charge it has: straight, or over its charger. */
import type { DayFloor } from './dayFloor.ts';
import { UNKNOWN } from './dayModel.ts';

export interface BatteryWay {
  /** When it is at the basin; UNKNOWN: never. */
  readonly thereS: number;
  /** Charging from fromS to toS; toS 0: it goes straight. */
  readonly fromS: number;
  readonly toS: number;
  readonly charger: number;
  readonly toChargerS: number;
  readonly fromChargerS: number;
  /** Charge after setting the basin down, in seconds of driving. */
  readonly chargeLeftS: number;
}

/**
 * After every trip the vehicle must still reach its charger without touching the reserve; else it charges to the full
 * before. Undefined for a vehicle without a battery to watch.
 */
export function planBatteryWay(floor: DayFloor, vehicle: number, origin: number, target: number, loadedS: number): BatteryWay | undefined {
  const { model, state, layout } = floor;
  const battery = model.problem.vehicles[vehicle]?.battery;
  if (battery === undefined) return undefined;
  const emptyS = (from: number, to: number): number => model.emptyS[from * model.locationCount + to] as number;
  const from = state[layout.vehicleAt + vehicle] as number;
  const freeS = state[layout.vehicleFree + vehicle] as number;
  const charge = state[layout.charge + vehicle] as number;
  const charger = battery.chargeLocation;
  const workS = (model.pickS[vehicle] as number) + loadedS + (model.dropS[vehicle] as number);
  const reachS = battery.reserveS + emptyS(target, charger);
  const straight = charge - emptyS(from, origin) - workS;
  const none = { fromS: 0, toS: 0, charger, toChargerS: 0, fromChargerS: 0 };
  if (straight >= reachS) return { ...none, thereS: freeS + emptyS(from, origin), chargeLeftS: straight };
  const toChargerS = emptyS(from, charger);
  const fromChargerS = emptyS(charger, origin);
  const chargeLeftS = battery.capacityS - fromChargerS - workS;
  if (chargeLeftS < reachS || charge < toChargerS) return { ...none, thereS: UNKNOWN, chargeLeftS: 0 };
  const fromS = freeS + toChargerS;
  const toS = fromS + Math.ceil((battery.capacityS - charge + toChargerS) / battery.gainSPerS);
  return { thereS: toS + fromChargerS, fromS, toS, charger, toChargerS, fromChargerS, chargeLeftS };
}
