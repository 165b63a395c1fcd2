import type { Refusal } from '../science/refusal.ts';
import { basinFullL, basinWeightKg } from './basinGeometry.ts';
import type { ApprovedPlan, ApprovedVisit, StopEffect } from './events.ts';
import { LEAST_WATER_SHARE } from './leastWaterShare.ts';
import type { GreenhouseState } from './state.ts';

/** A litre of rounding on a volume is no excess; on a dose nothing is forgiven beyond a millilitre. */
const VOLUME_SLACK_L = 1;
const DOSE_SLACK_L = 0.001;

/**
 * The hard limits that nobody's approval lifts: no dose beyond a source's limit for one filling, none without water for it, no tank drawn
 * beyond what it can hold, no basin beyond full or heavier than a vehicle may carry, no number that is none, nothing
 * drained into what is no return tank, no two basins on one berth at the end of the day.
 */
export function checkApproval(state: GreenhouseState, plan: ApprovedPlan): Refusal[] {
  const fillings = plan.visits.flatMap((visit) => visit.stops.flatMap((stop) => (stop.effect.kind === 'filling' ? [{ visit, filling: stop.effect }] : [])));
  return [...fillings.flatMap(({ visit, filling }) => checkFilling(state, visit, filling)), ...checkTanks(state, fillings.map(({ filling }) => filling)), ...plan.visits.flatMap((visit) => checkDrains(state, visit)), ...checkBerths(state, plan)];
}

type Filling = Extract<StopEffect, { kind: 'filling' }>;

const beyond = (path: string, what: string, value: number, limit: number): Refusal =>
  ({ code: 'value-out-of-range', severity: 'error', path, value, limit, unit: 'L', message: `${what} is ${value.toFixed(3)} L; the hard limit is ${limit} L. Plan again.` });

function checkFilling(state: GreenhouseState, visit: ApprovedVisit, filling: Filling): Refusal[] {
  const path = `plan.visits.${visit.visit}`;
  const litres = Object.entries({ drained: filling.drainL, 'in the basin afterwards': filling.resultVolumeL }).filter(([, value]) => !(Number.isFinite(value) && value >= 0));
  const amounts = [filling.resultMmolPerL, ...Object.values(filling.drawMmol ?? {})].flatMap((each) => Object.entries(each)).filter(([, value]) => !Number.isFinite(value));
  const numbers = [...litres, ...amounts].map(([what, value]) => notANumber(path, `What is ${what} of basin ${visit.basin}`, value));
  const doses = Object.entries(filling.drawL).flatMap(([id, litres]) => checkDose(state, visit, id, litres));
  const faults = [...numbers, ...doses];
  return [...faults, ...(faults.length === 0 ? checkDilution(state, visit, filling) : []), ...checkVolume(state, visit, filling)];
}

const notANumber = (path: string, what: string, value: unknown): Refusal =>
  ({ code: 'value-not-a-number', severity: 'error', path, value, message: `${what} must be a number, and litres none below zero. Plan again.` });

function checkDose(state: GreenhouseState, visit: ApprovedVisit, id: string, litres: number): Refusal[] {
  const path = `plan.visits.${visit.visit}`;
  const source = state.file?.sources.find((each) => each.id === id);
  if (source === undefined) return [{ code: 'reference-unknown', severity: 'error', path, value: id, message: `There is no source ${id}. Plan again.` }];
  const most = source.perBasinMaxL;
  if (!Number.isFinite(litres) || litres < 0) return [beyond(path, `The dose of ${id} for basin ${visit.basin}`, litres, most ?? 0)];
  return most !== undefined && litres > most + DOSE_SLACK_L ? [beyond(path, `The dose of ${id} for basin ${visit.basin}`, litres, most)] : [];
}

/** Acid never goes into an empty basin, and no concentrate into another. */
function checkDilution({ file }: GreenhouseState, visit: ApprovedVisit, { drawL, resultVolumeL }: Filling): Refusal[] {
  const isWater = (id: string): boolean => file?.sources.some((source) => source.id === id && (source.kind === 'fresh' || source.kind === 'return')) === true;
  const dosedL = Object.entries(drawL).reduce((sum, [id, litres]) => sum + (isWater(id) ? 0 : litres), 0);
  const most = (1 - LEAST_WATER_SHARE) * resultVolumeL;
  return dosedL > most + DOSE_SLACK_L ? [beyond(`plan.visits.${visit.visit}`, `All doses for basin ${visit.basin}, which must meet water, together`, dosedL, Number(most.toFixed(1)))] : [];
}

function checkVolume({ basins, file }: GreenhouseState, visit: ApprovedVisit, { resultVolumeL }: Filling): Refusal[] {
  const type = basins[visit.basin]?.type;
  if (type === undefined) return [];
  const carried = Math.min(...(file?.vehicles ?? []).map((vehicle) => vehicle.maximumLoadKg)) - basinWeightKg(type, 0);
  const most = Math.max(0, Math.min(basinFullL(type), carried));
  return resultVolumeL > most + VOLUME_SLACK_L ? [beyond(`plan.visits.${visit.visit}`, `The volume of basin ${visit.basin} after filling`, resultVolumeL, Number(most.toFixed(1)))] : [];
}

/** A return tank takes in solution during the day, so more than it holds may leave it. */
function checkTanks({ file }: GreenhouseState, fillings: readonly Filling[]): Refusal[] {
  return (file?.sources ?? []).filter(({ kind }) => kind !== 'return').flatMap((source): Refusal[] => {
    const drawnL = fillings.reduce((sum, { drawL }) => sum + (drawL[source.id] ?? 0), 0);
    return drawnL > source.capacityL + VOLUME_SLACK_L ? [beyond(`plan.sources.${source.id}`, `What is drawn from ${source.title}`, drawnL, source.capacityL)] : [];
  });
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
