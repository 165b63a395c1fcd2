import { scaleComposition, entriesOf, type Composition } from '../science/chemistry/composition.ts';
import type { ApprovedVisit, StopEffect } from './events.ts';
import { filledWater } from './filledWater.ts';
import type { BasinState, GreenhouseState } from './state.ts';
import { addWater, bookFlows, type WaterAmount, type WaterFlow } from './waterBook.ts';

type Filling = Extract<StopEffect, { kind: 'filling' }>;

/** Differences below this share are rounding, not water. */
const ROUNDING = 1e-9;

/**
 * Closes the balance that a visit was planned with, before a stop of it changes water or plants: what was transpired, taken
 * up and left unexplained is booked, and the basin holds what the balance says. A basin that was filled or washed since the
 * plan was made is closed already.
 */
export function closeAccount(state: GreenhouseState, { basin: id, account }: ApprovedVisit): GreenhouseState {
  const basin = state.basins[id];
  if (basin === undefined || account === undefined || isAfter(basin.filled?.at, account.at) || isAfter(basin.washedAt, account.at)) return state;
  const { at, volumeL, mmol, volumeSdL, strengthSdShare } = account;
  const place = `basin:${id}`;
  const lost = { litres: account.transpiredL, mmol: account.uptakeMmol };
  const corrected = { litres: account.unexplainedL, mmol: account.unexplainedMmol };
  const start = addWater(addWater({ litres: volumeL, mmol }, lost), corrected, -1);
  const known = basin.filled !== undefined && Date.parse(basin.filled.at) === Date.parse(account.from);
  const flows: WaterFlow[] = [
    ...(known ? [] : [{ at, from: 'found', to: place, ...addWater(start, filledWater(basin), -1) }]),
    { at, from: place, to: 'crops', ...lost }, { at, from: 'unexplained', to: place, ...corrected },
  ];
  return changeWater(state, basin, { at, volumeL, mmolPerL: volumeL > 0 ? scaleComposition(mmol, 1 / volumeL) : {}, counted: { volumeSdL, strengthSdShare } }, flows);
}

const isAfter = (at: string | undefined, other: string): boolean => at !== undefined && Date.parse(at) >= Date.parse(other);

/** A filling that is done: what was drained, what was drawn, and what it holds beyond that is unexplained. */
export function fillBasin(state: GreenhouseState, id: string, effect: Filling, actualL: number | undefined, at: string): GreenhouseState {
  const basin = state.basins[id];
  if (basin === undefined) return state;
  const place = `basin:${id}`;
  const before = filledWater(basin);
  const drained = { litres: effect.drainL, mmol: before.litres > 0 ? scaleComposition(before.mmol, effect.drainL / before.litres) : {} };
  const draws = Object.entries(effect.drawL).map(([source, litres]): WaterFlow => ({ at, from: `tank:${source}`, to: place, litres, mmol: effect.drawMmol?.[source] ?? {} }));
  const volumeL = actualL ?? effect.resultVolumeL;
  const after = { litres: volumeL, mmol: scaleComposition(effect.resultMmolPerL as Composition, volumeL) };
  const expected = draws.reduce((sum, draw) => addWater(sum, draw), addWater(before, drained, -1));
  const rest = addWater(after, expected, -1);
  const flows = [
    ...(effect.drainL > 0 ? [{ at, from: place, to: drainPlace(effect.drainTo), ...drained }] : []), ...draws,
    ...(isRounding(rest, after) ? [] : [{ at, from: 'unexplained', to: place, ...rest }]),
  ];
  return changeWater(state, basin, { at, volumeL, mmolPerL: effect.resultMmolPerL }, flows);
}

/** A wash that is done: what stood in the basin is drained. */
export function washBasin(state: GreenhouseState, id: string, drainTo: string | undefined, at: string): GreenhouseState {
  const basin = state.basins[id];
  if (basin === undefined) return state;
  const held = filledWater(basin);
  const washed = { ...basin, washedAt: at, needsWash: false };
  return changeWater(state, washed, undefined, held.litres > 0 ? [{ at, from: `basin:${id}`, to: drainPlace(drainTo), ...held }] : []);
}

const drainPlace = (tank: string | undefined): string => (tank === undefined ? 'discharge' : `tank:${tank}`);

const isRounding = (rest: WaterAmount, whole: WaterAmount): boolean => Math.abs(rest.litres) <= ROUNDING * whole.litres
  && entriesOf(rest.mmol).every(([name, mmol]) => Math.abs(mmol) <= ROUNDING * Math.max(1, Math.abs(whole.mmol[name] ?? 0)));

const changeWater = (state: GreenhouseState, basin: BasinState, filled: BasinState['filled'], flows: readonly WaterFlow[]): GreenhouseState =>
  ({ ...state, basins: { ...state.basins, [basin.id]: { ...basin, filled } }, water: bookFlows(state.water, flows) });
