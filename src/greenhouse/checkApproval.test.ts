import { describe, expect, it } from 'vitest';
import { shortDemo } from '../../test/greenhouse/shortDemo.ts';
import { basinWeightKg } from './basinGeometry.ts';
import { checkApproval } from './checkApproval.ts';
import type { ApprovedPlan, GreenhouseEvent } from './events.ts';
import { foldEvents } from './evolve.ts';
import { readGreenhouseFolder } from './files/readGreenhouseFolder.ts';
import { importFolder } from './importFolder.ts';

const folder = readGreenhouseFolder(shortDemo(5));
if (!folder.ok) throw new Error(folder.refusals[0]?.message);
const at = '2026-03-03T06:00:00.000Z';
const state = foldEvents(importFolder(folder.value, [], at).map((draft, i) => ({ ...draft, id: `e${i}`, sequence: i + 1, recordedAt: at, previousHash: '', hash: '' }) as GreenhouseEvent));

function planWith(drawL: Record<string, number>, resultVolumeL = 500, toBerth = state.basins.B050!.berth): ApprovedPlan {
  const effect = { kind: 'filling' as const, drainL: 0, drawL, resultMmolPerL: {}, resultVolumeL };
  return { planId: 'p', at, approvedBy: 'mirel', upToSequence: state.sequence, visits: [{ visit: 'F-B050', basin: 'B050', fromBerth: state.basins.B050!.berth, toBerth, stops: [{ stop: 0, kind: 'filling', station: 'filling', startAt: at, endAt: at, effect }] }] };
}
const codes = (plan: ApprovedPlan) => checkApproval(state, plan).map((refusal) => refusal.code);

describe('hard limits at approval', () => {
  it('lets a dose at its limit pass', () => expect(codes(planWith({ rain: 40, acid: 2, 'stock-ca': 6 }))).toEqual([]));
  it('refuses one millilitre more than forgiven', () => expect(codes(planWith({ acid: 2.002 }))).toEqual(['value-out-of-range']));
  it('refuses a dose that is negative or no number', () => expect(codes(planWith({ acid: -1, base: NaN }))).toEqual(['value-out-of-range', 'value-out-of-range']));
  it('refuses to fill beyond full (2.4 m x 1.2 m x 0.19 m = 547.2 L)', () => {
    expect(codes(planWith({}, 548))).toEqual([]);
    expect(codes(planWith({}, 549))).toEqual(['value-out-of-range']);
  });
  it('refuses to drain into anything but a return tank', () => {
    const into = (drainTo: string): ApprovedPlan => { const plan = planWith({}); return { ...plan, visits: plan.visits.map((visit) => ({ ...visit, stops: visit.stops.map((stop) => ({ ...stop, kind: 'washing', effect: { kind: 'washing', drainTo } })) })) }; };
    expect(codes(into('return-1'))).toEqual([]);
    expect([codes(into('rain')), codes(into('nowhere'))]).toEqual([['reference-unknown'], ['reference-unknown']]);
  });
  it('refuses numbers that are none', () => {
    expect(codes(planWith({}, NaN))).toEqual(['value-not-a-number']);
    expect(codes(planWith({}, -1))).toEqual(['value-not-a-number']);
    const plan = planWith({});
    const spoilt = (effect: object): ApprovedPlan => ({ ...plan, visits: plan.visits.map((visit) => ({ ...visit, stops: visit.stops.map((stop) => ({ ...stop, effect: { ...stop.effect, ...effect } as typeof stop.effect })) })) });
    expect(codes(spoilt({ drainL: Infinity }))).toEqual(['value-not-a-number']);
    expect(codes(spoilt({ resultMmolPerL: { K: NaN, Ca: 3 } }))).toEqual(['value-not-a-number']);
  });
  it('refuses a source that nobody knows, and more than a tank can hold', () => {
    expect(codes(planWith({ magic: 1 }))).toEqual(['reference-unknown']);
    const small = { ...state, file: { ...state.file!, sources: state.file!.sources.map((source) => ({ ...source, capacityL: 30 })) } };
    expect(checkApproval(small, planWith({ rain: 30.9 }))).toEqual([]);
    expect(checkApproval(small, planWith({ rain: 31.1 })).map(({ code, path }) => `${code} ${path}`)).toEqual(['value-out-of-range plan.sources.rain']);
  });
  it('refuses acid and stocks without water for them: a fifth of the basin at most', () => {
    expect(codes(planWith({ acid: 2 }, 10))).toEqual([]);
    expect(codes(planWith({ acid: 2 }, 9.9))).toEqual(['value-out-of-range']);
    expect(codes(planWith({ acid: 1, 'stock-ca': 1 }, 9.9))).toEqual(['value-out-of-range']);
    expect(codes(planWith({ acid: 1, rain: 1 }, 2))).toEqual(['value-out-of-range']);
  });
  it('refuses what no vehicle may carry', () => {
    const weak = { ...state, file: { ...state.file!, vehicles: state.file!.vehicles.map((vehicle) => ({ ...vehicle, maximumLoadKg: 400 })) } };
    const most = 400 - basinWeightKg(state.basins.B050!.type, 0);
    expect(checkApproval(weak, planWith({}, most + 0.9))).toEqual([]);
    expect(checkApproval(weak, planWith({}, most + 1.1)).map(({ code }) => code)).toEqual(['value-out-of-range']);
  });
  it('refuses a berth on which another basin stands', () => expect(codes(planWith({}, 500, state.basins.B051!.berth))).toEqual(['inconsistent']));
});
