import type { Refusal } from '../science/refusal.ts';
import { basinFullL } from './basinGeometry.ts';
import type { ApprovedPlan, ApprovedVisit, StopEffect } from './events.ts';
import type { GreenhouseState } from './state.ts';

/** A litre of rounding on a volume is no excess; on a dose nothing is forgiven beyond a millilitre. */
const VOLUME_SLACK_L = 1;
const DOSE_SLACK_L = 0.001;

/**
 * The hard limits that nobody's approval lifts: no dose beyond a source's limit for one filling, no basin beyond full, nothing
 * drained into what is no return tank, no two basins on one berth at the end of the day.
 */
export function checkApproval(state: GreenhouseState, plan: ApprovedPlan): Refusal[] {
  const fillings = plan.visits.flatMap((visit) => visit.stops.flatMap((stop) => (stop.effect.kind === 'filling' ? [{ visit, filling: stop.effect }] : [])));
  return [...fillings.flatMap(({ visit, filling }) => checkFilling(state, visit, filling)), ...plan.visits.flatMap((visit) => checkDrains(state, visit)), ...checkBerths(state, plan)];
}

function checkFilling(state: GreenhouseState, visit: ApprovedVisit, filling: Extract<StopEffect, { kind: 'filling' }>): Refusal[] {
  const path = `plan.visits.${visit.visit}`;
  const tooMuch = (what: string, value: number, limit: number): Refusal => ({ code: 'value-out-of-range', severity: 'error', path, value, limit, unit: 'L', message: `${what} is ${value.toFixed(3)} L; the hard limit is ${limit} L. Plan again.` });
  const doses = Object.entries(filling.drawL).flatMap(([id, litres]) => {
    const most = state.file?.sources.find((source) => source.id === id)?.perBasinMaxL;
    if (!Number.isFinite(litres) || litres < 0) return [tooMuch(`The dose of ${id} for basin ${visit.basin}`, litres, most ?? 0)];
    return most !== undefined && litres > most + DOSE_SLACK_L ? [tooMuch(`The dose of ${id} for basin ${visit.basin}`, litres, most)] : [];
  });
  const type = state.basins[visit.basin]?.type;
  const full = type === undefined ? undefined : basinFullL(type);
  return full !== undefined && filling.resultVolumeL > full + VOLUME_SLACK_L ? [...doses, tooMuch(`The volume of basin ${visit.basin} after filling`, filling.resultVolumeL, Number(full.toFixed(1)))] : doses;
}

/** Spent solution in a tank of fresh water or stock would spoil it. */
function checkDrains(state: GreenhouseState, visit: ApprovedVisit): Refusal[] {
  return visit.stops.flatMap(({ effect }): Refusal[] => {
    const to = effect.kind === 'filling' || effect.kind === 'washing' ? effect.drainTo : undefined;
    if (to === undefined || state.file?.sources.some(({ id, kind }) => id === to && kind === 'return')) return [];
    return [{ code: 'reference-unknown', severity: 'error', path: `plan.visits.${visit.visit}`, value: to, message: `Basin ${visit.basin} would be drained into '${to}', which is no return tank of greenhouse.yaml. Plan again.` }];
  });
}

function checkBerths(state: GreenhouseState, plan: ApprovedPlan): Refusal[] {
  const away = new Set(plan.visits.map((visit) => visit.basin));
  const taken = new Map(Object.values(state.basins).filter((basin) => !away.has(basin.id)).map((basin) => [basin.berth, basin.id]));
  return plan.visits.flatMap((visit) => {
    const other = taken.get(visit.toBerth);
    taken.set(visit.toBerth, visit.basin);
    if (other === undefined || other === visit.basin) return [];
    return [{ code: 'inconsistent', severity: 'error', path: `plan.visits.${visit.visit}.toBerth`, value: visit.toBerth, message: `Berth ${visit.toBerth} is meant for basin ${visit.basin}, but ${other} stands there then. Plan again.` } satisfies Refusal];
  });
}
