import { addWater, type WaterAmount } from '../../greenhouse/waterBook.ts';
import { scaleComposition, type Component, type Composition } from '../../science/chemistry/composition.ts';

/** A batch that is on record as having come into a tank or gone out of it. */
export interface MovedBatch { readonly basin: string; readonly came: boolean; readonly litres: number; readonly mmol: Composition }

/** Another water of the greenhouse, as analysed or as made up. */
export interface KnownWater { readonly title: string; readonly isFresh: boolean; readonly mmolPerL: Composition }

export interface TankDoubt {
  readonly measured: Composition;
  readonly held: WaterAmount;
  /** Movements since the last analysis. */
  readonly batches: readonly MovedBatch[];
  readonly others: readonly KnownWater[];
}

export interface TankCause { readonly kind: 'another water' | 'dilution' | 'batch' | 'reaction' | 'unknown'; readonly words: string }

/** Root mean square of log ratios below which a hypothesis explains an analysis: about two laboratory errors. */
const EXPLAINS = 0.1;
const MAIN: readonly Component[] = ['K', 'Ca', 'Mg', 'Na', 'NO3', 'Cl', 'SO4', 'P'];
/** Below this, ratios say little, mmol/L. */
const FLOOR_MMOL_PER_L = 0.05;
const REACTIVE: readonly Component[] = ['Ca', 'P'];

/**
 * Why an analysis of a tank does not fit what was booked: each cause that the record offers is tried, and the one that
 * leaves the least is named, if it leaves no more than a laboratory may be wrong.
 */
export function likelyTankCause(doubt: TankDoubt): TankCause {
  const held = concentrationOf(doubt.held);
  const tried = [...otherWaters(doubt), ...dilutions(doubt, held), ...batches(doubt), ...reactions(doubt, held)].sort((a, b) => a.misfit - b.misfit);
  const best = tried[0];
  if (best !== undefined && best.misfit < EXPLAINS) return best.cause;
  return { kind: 'unknown', words: 'a ticket that was not carried out as written, or a tank that was not stirred before the sample was taken' };
}

interface Tried { readonly misfit: number; readonly cause: TankCause }

const otherWaters = ({ measured, others }: TankDoubt): Tried[] =>
  others.map(({ title, mmolPerL }) => ({ misfit: misfit(measured, mmolPerL), cause: { kind: 'another water', words: `the sample was taken from ${title}` } }));

/** Fresh water that ran in without a ticket: the share that fits best. */
function dilutions({ measured, held: { litres }, others }: TankDoubt, held: Composition): Tried[] {
  return others.filter(({ isFresh }) => isFresh).map(({ title, mmolPerL }): Tried => {
    const steps = Array.from({ length: 19 }, (_, i) => (i + 1) / 20).map((share) => ({ share, left: misfit(measured, mix(held, mmolPerL, share)) })).sort((a, b) => a.left - b.left);
    const { share, left } = steps[0]!;
    return { misfit: left, cause: { kind: 'dilution', words: `about ${Math.round((litres * share) / (1 - share))} L of ${title} ran in without a ticket` } };
  });
}

/** One of the batches on record did not come, or did not go. */
const batches = ({ measured, held, batches: moved }: TankDoubt): Tried[] => moved.map(({ basin, came, ...batch }) => ({
  misfit: misfit(measured, concentrationOf(addWater(held, batch, came ? -1 : 1))),
  cause: { kind: 'batch', words: came ? `the batch of ${Math.round(batch.litres)} L from ${basin} did not come into it: a wrong ticket` : `the ${Math.round(batch.litres)} L for ${basin} were not drawn from it: a wrong ticket` },
}));

/** Calcium and phosphate are less and the rest is as booked. */
function reactions({ measured }: TankDoubt, held: Composition): Tried[] {
  const lost = REACTIVE.every((name) => (measured[name] ?? Infinity) < 0.95 * (held[name] ?? 0));
  const rest = MAIN.filter((name) => !REACTIVE.includes(name));
  return lost ? [{ misfit: misfit(measured, held, rest), cause: { kind: 'reaction', words: 'calcium phosphate came out of solution: look for a deposit, and at the pH of the tank' } }] : [];
}

const concentrationOf = ({ litres, mmol }: WaterAmount): Composition => scaleComposition(mmol, 1 / Math.max(litres, 1e-6));

const mix = (a: Composition, b: Composition, shareB: number): Composition => Object.fromEntries(MAIN.map((name) => [name, (1 - shareB) * (a[name] ?? 0) + shareB * (b[name] ?? 0)]));

/** Root mean square of the log ratios of the main ions; what was not analysed does not count. */
function misfit(measured: Composition, expected: Composition, names: readonly Component[] = MAIN): number {
  const ratios = names.flatMap((name) => (measured[name] === undefined ? [] : [Math.log(Math.max(measured[name], FLOOR_MMOL_PER_L) / Math.max(expected[name] ?? 0, FLOOR_MMOL_PER_L))]));
  return ratios.length < 3 ? Infinity : Math.sqrt(ratios.reduce((sum, ratio) => sum + ratio * ratio, 0) / ratios.length);
}
