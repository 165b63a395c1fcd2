/** The equations of the reduced-state tomato model in the symbols of Jones, Kenig & Vallejos 1999 (J99) and Jones et al. 1991 (J91). */
import type { ClimateHour } from './growthModel.ts';

/** Parameters by symbol. */
export type TomatoConstants = Readonly<Record<string, number>>;

/** f_N(T), J91 table 3: share of the largest node rate. Linear from 0 at 9 C to 0.55 at 12, to 1 at 28, to 0 at 50. */
export function nodeRateShare(airC: number): number {
  if (airC <= 9 || airC >= 50) return 0;
  if (airC < 12) return 0.5504 * (airC - 9) / 3;
  return airC <= 28 ? 1 + 0.0281 * (airC - 28) : 1 - 0.0455 * (airC - 28);
}

/** PGRED(T), J91 table 3: share of photosynthesis. Linear from 0 at 0 C to 0.67 at 9, 1 at 12 to 28, 0 at 35. */
export function photosynthesisShare(airC: number): number {
  if (airC <= 0 || airC >= 35) return 0;
  if (airC < 9) return 0.67 * airC / 9;
  if (airC < 12) return 0.67 + 0.33 * (airC - 9) / 3;
  return airC <= 28 ? 1 : 1 - (airC - 28) / 7;
}

/** P_g, g sugar/m2/d, J91 eq. 16: photosynthesis of the canopy in this hour, as a rate per day. */
export function grossSugar(c: TomatoConstants, leafAreaIndex: number, { airC, co2Ppm, ppfdUmolM2S }: ClimateHour): number {
  if (ppfdUmolM2S <= 0) return 0;
  const leafMax = c['tau']! * co2Ppm;
  const byLeaf = (1 - c['m']!) * leafMax;
  const byLight = c['Q_e']! * c['K']! * ppfdUmolM2S;
  const share = (byLeaf + byLight) / (byLeaf + byLight * Math.exp(-c['K']! * leafAreaIndex));
  return c['D']! * leafMax * photosynthesisShare(airC) / c['K']! * Math.log(share);
}

/** R_m, g sugar/m2/d, J99 eq. 6: maintenance of all but ripe fruit. */
export function maintenanceSugar(c: TomatoConstants, dryGPerM2: number, ripeGPerM2: number, airC: number): number {
  return c['r_m']! * (dryGPerM2 - ripeGPerM2) * c['Q10']! ** ((airC - 20) / 10);
}

/** f_R(N): share of growth that goes to roots. */
export const rootShare = (c: TomatoConstants, nodes: number) => Math.max(0.02, c['root_start']! - c['root_per_node']! * nodes);

/** dLAI per node, J99 eq. 3: leaf area that one more node adds, m2/m2; lambda(T), which slows leaves on hot days, is left out (1). */
export function leafAreaPerNode(c: TomatoConstants, nodes: number, plantsPerM2: number): number {
  const e = Math.exp(c['beta']! * (nodes - c['N_b']!));
  return plantsPerM2 * c['delta']! * e / (1 + e);
}

/** Leaf area of plants with so many nodes: the integral of the above from no nodes long ago. */
export const leafAreaAt = (c: TomatoConstants, nodes: number, plantsPerM2: number) =>
  plantsPerM2 * c['delta']! / c['beta']! * Math.log1p(Math.exp(c['beta']! * (nodes - c['N_b']!)));

/** dW_F/dt, g/m2/d, J99 eq. 7 and 8: growth of fruit out of the net growth, by nodes, mean and daytime temperature. */
export function fruitGrowth(c: TomatoConstants, netGrowth: number, nodes: number, meanC: number, daytimeC: number): number {
  if (nodes <= c['N_FF']!) return 0;
  const byCold = Math.max(0, Math.min(1, 0.0625 * (meanC - c['T_fruit']!)));
  const byHeat = Math.max(0.09, Math.min(1, 1 - c['hot_loss']! * (daytimeC - c['T_crit']!)));
  return netGrowth * c['alpha_F']! * byCold * (1 - Math.exp(-c['nu']! * (nodes - c['N_FF']!))) * byHeat;
}

/** dW/dt, g/m2/d, J99 eq. 9 and 10: net growth less leaves taken off, at most what fruit, leaves and stem can take. */
export function plantGrowth(c: TomatoConstants, netGrowth: number, fruit: number, nodesADay: number, plantsPerM2: number, leavesAreKept: boolean): number {
  const takenOff = leavesAreKept ? c['p_1']! : 0;
  return Math.min(netGrowth - takenOff * plantsPerM2 * nodesADay, fruit + (c['V_max']! - takenOff) * plantsPerM2 * nodesADay);
}

/** D_F(T), 1/d, J91 table 3: rate at which fruit ripens. */
export function ripening(airC: number): number {
  if (airC <= 9 || airC > 35) return 0;
  return airC <= 28 ? 0.0017 * airC - 0.015 : 0.032;
}
