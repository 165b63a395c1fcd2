import { activityCoefficients, waterActivityAt } from './activity.ts';
import type { EquilibriumConditions } from './equilibriumConditions.ts';
import { ACTIVITY_CLASS, ACTIVITY_CLASSES, CARRIER_START, SPECIES_CHARGE, SPECIES_COUNT, STOICHIOMETRY, TOTALS, WATER_NUMBER } from './equilibriumSystem.ts';
import { CARRIERS, COLUMNS, CORRECTION_LISTS, MOMENT_LISTS, ROWS, SLOPE_LISTS, SLOTS, SUM_LISTS, type FlatLists } from './equationSums.ts';

/** ln activity that stands for "not in the water". */
export const ABSENT = -1e4;

/** Powers of an activity from -2 to 2, five entries an unknown, and where each species finds its own. */
const POWERS = 5;
const POWER_PLACE = Int32Array.from(STOICHIOMETRY, (n, k) => POWERS * (k % COLUMNS) + n + 2);
const CHARGE_SQUARED = Float64Array.from(SPECIES_CHARGE, (z) => z * z);

/** The arrays in which one water at a time is worked out. Nothing in it survives from one water to the next. */
export class EquilibriumState {
  conditions!: EquilibriumConditions;
  /** mol/kg of each carrier, then sulfate and phosphate. */
  readonly totals = new Float64Array(TOTALS.length);
  /** ln activities of SO4-2, H2PO4-, CO2, H+. */
  readonly lnActivity = new Float64Array(COLUMNS);
  readonly molPerKg = new Float64Array(SPECIES_COUNT);
  /** One entry per activity class. */
  readonly log10Gamma = new Float64Array(ACTIVITY_CLASSES.length);
  waterActivity = 1;
  /** Ionic strength and sum of solutes of the species as they stand, mol/kg. */
  strength = 0;
  solutes = 0;
  /** What the equations are made of: sulfate, phosphate, carbon, acids, bases. */
  readonly sums = new Float64Array(ROWS);
  /** Derivative of each sum by each ln activity. */
  readonly slopes = new Float64Array(SLOTS);
  /** Formation constant over activity coefficient: what joins activities to molality. */
  private readonly formation = new Float64Array(SPECIES_COUNT);
  private readonly perGamma = new Float64Array(ACTIVITY_CLASSES.length);
  private readonly powers = new Float64Array(POWERS * COLUMNS);
  private readonly moments = new Float64Array(CARRIERS * COLUMNS);
  private readonly perTotal = new Float64Array(CARRIERS);

  /** Activity coefficients and water activity for an ionic strength. */
  applyStrength(strength: number, solutes: number): void {
    const { formation, log10Gamma, perGamma } = this;
    const { debyeA, debyeB, formationConstants } = this.conditions;
    activityCoefficients(strength, debyeA, debyeB, log10Gamma);
    for (let k = 0; k < perGamma.length; k += 1) perGamma[k] = Math.exp(-Math.LN10 * log10Gamma[k]!);
    this.waterActivity = waterActivityAt(solutes);
    for (let s = 0; s < SPECIES_COUNT; s += 1) {
      formation[s] = formationConstants[s]! * perGamma[ACTIVITY_CLASS[s]!]! * (WATER_NUMBER[s] === 1 ? this.waterActivity : 1);
    }
  }

  /** All molalities, sums and slopes at the present activities. Carriers are shared out so that their totals hold exactly. */
  evaluate(): void {
    this.weigh();
    this.shareOut();
    gather(SUM_LISTS, this.molPerKg, this.sums);
    gather(MOMENT_LISTS, this.molPerKg, this.moments);
    gather(SLOPE_LISTS, this.molPerKg, this.slopes);
    this.holdCarriers();
    let strength = 0, solutes = 0;
    for (let s = 0; s < SPECIES_COUNT; s += 1) {
      const m = this.molPerKg[s]!;
      strength += m * CHARGE_SQUARED[s]!;
      solutes += m;
    }
    this.strength = 0.5 * strength;
    this.solutes = solutes;
  }

  /** Formation constant times activities, for every species: the molality, but for the activity of its carrier. */
  private weigh(): void {
    const { formation, molPerKg, powers } = this;
    for (let j = 0; j < COLUMNS; j += 1) fillPowers(powers, POWERS * j, Math.exp(this.lnActivity[j]!));
    for (let s = 0, k = 0; s < SPECIES_COUNT; s += 1, k += COLUMNS) {
      molPerKg[s] = formation[s]! * powers[POWER_PLACE[k]!]! * powers[POWER_PLACE[k + 1]!]! * powers[POWER_PLACE[k + 2]!]! * powers[POWER_PLACE[k + 3]!]!;
    }
  }

  /** The species of one carrier stand to each other as their weights; the carrier's own mass balance is solved by that. */
  private shareOut(): void {
    const { molPerKg, totals, perTotal } = this;
    for (let c = 0; c < CARRIERS; c += 1) {
      const first = CARRIER_START[c]!, past = CARRIER_START[c + 1]!, total = totals[c]!;
      let all = 0;
      for (let s = first; s < past; s += 1) all += molPerKg[s]!;
      const scale = total / all;
      for (let s = first; s < past; s += 1) molPerKg[s]! *= scale;
      perTotal[c] = total > 0 ? 1 / total : 0;
    }
  }

  /** When one species of a carrier grows, its others shrink: that lowers the slopes. */
  private holdCarriers(): void {
    const { moments, perTotal, slopes } = this;
    const { start, place, factor } = CORRECTION_LISTS;
    for (let slot = 0; slot < SLOTS; slot += 1) {
      const row = Math.min(slot >> 2, COLUMNS - 1), column = slot & 3;
      let sum = 0;
      for (let k = start[slot]!; k < start[slot + 1]!; k += 1) {
        const c = place[k]!;
        sum += factor[k]! * moments[COLUMNS * c + row]! * moments[COLUMNS * c + column]! * perTotal[c]!;
      }
      slopes[slot]! -= sum;
    }
  }
}

function fillPowers(powers: Float64Array, first: number, activity: number): void {
  powers[first] = 1 / (activity * activity);
  powers[first + 1] = 1 / activity;
  powers[first + 2] = 1;
  powers[first + 3] = activity;
  powers[first + 4] = activity * activity;
}

function gather({ start, place, factor }: FlatLists, values: Float64Array, into: Float64Array): void {
  for (let i = 0; i < into.length; i += 1) {
    let sum = 0;
    for (let k = start[i]!; k < start[i + 1]!; k += 1) sum += factor[k]! * values[place[k]!]!;
    into[i] = sum;
  }
}
