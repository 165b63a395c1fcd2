import * as fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { basinFullL, basinWeightKg } from '../../src/greenhouse/basinGeometry.ts';
import { checkApproval } from '../../src/greenhouse/checkApproval.ts';
import type { ApprovedPlan } from '../../src/greenhouse/events.ts';
import { LEAST_WATER_SHARE } from '../../src/greenhouse/leastWaterShare.ts';
import { fertiliserOf } from '../../src/greenhouse/productComposition.ts';
import type { CropCard } from '../../src/greenhouse/schema/cropCard.ts';
import type { BasinType, SourceDescription } from '../../src/greenhouse/schema/greenhouseFile.ts';
import type { ProductDescription } from '../../src/greenhouse/schema/productsFile.ts';
import type { BasinState, GreenhouseState } from '../../src/greenhouse/state.ts';
import { fillingStop } from '../../src/planning/visits/draftVisits.ts';
import { loadLinearSolver } from '../../src/planning/solver/loadLinearSolver.ts';
import type { LinearSolver } from '../../src/planning/solver/linearModel.ts';
import type { Feed, FeedRequest } from '../../src/planning/water/feed.ts';
import { feedTicket, solutionView } from '../../src/planning/water/feedTicket.ts';
import { mixFeeds } from '../../src/planning/water/mixFeeds.ts';
import { readSourceWaters } from '../../src/planning/water/sourceWaters.ts';
import { waterFigures } from '../../src/planning/water/waterFigures.ts';
import { incompatibilityGroups } from '../../src/science/chemistry/incompatibilities.ts';

/**
 * Any greenhouse, sensible or absurd: tanks of any kind with anything in them (an acid that is called a stock, a peroxide, lye beside
 * calcium), waters with any analysis, basins of any size with anything in them. Whatever comes out as a ticket must be safe.
 */
let solver: LinearSolver;
beforeAll(async () => { solver = await loadLinearSolver(); });

const NOW = Date.parse('2026-03-10T06:00:00Z');
const PRODUCTS: Readonly<Record<string, ProductDescription>> = Object.fromEntries(['Ca(NO3)2.4H2O', 'KNO3', 'KH2PO4', 'MgSO4.7H2O', 'K2SO4', 'CaCl2.2H2O', 'Fe-DTPA 6 %', 'HNO3', 'H3PO4', 'H2SO4', 'KOH', 'KHCO3', 'H2O2', 'NH4NO3']
  .map((salt, i) => [`p${i}`, { id: `p${i}`, title: salt, salt, purityPct: 98, pricePerKg: 1 }]));
const groupsOf = (product: string) => incompatibilityGroups(fertiliserOf(PRODUCTS[product]!)!);
const holds = (gramsPerL: Readonly<Record<string, number>>, group: string): boolean => Object.keys(gramsPerL).some((product) => groupsOf(product).includes(group as 'acid'));

const amount = fc.oneof({ weight: 3, arbitrary: fc.integer({ min: 0, max: 120 }).map((n) => n / 10) }, { weight: 1, arbitrary: fc.constantFrom(0, 0, 1e-9, 500) });
const little = fc.oneof({ weight: 3, arbitrary: fc.integer({ min: 0, max: 30 }).map((n) => n / 10) }, { weight: 1, arbitrary: amount });
const litres = fc.oneof({ weight: 4, arbitrary: fc.integer({ min: 500, max: 4000 }) }, { weight: 1, arbitrary: fc.constantFrom(0, 0.05, 3, 60, 1e5) });
const dosing = { capacityL: litres.map((n) => Math.max(1, n)), availableL: litres, costPerM3: fc.integer({ min: 0, max: 50 }), pumpMinimumL: fc.constantFrom(0, 0, 0, 0.005, 0.4, 7), perBasinMaxL: fc.option(fc.integer({ min: 0, max: 900 }).map((n) => n / 30), { nil: undefined }) };
const recipe = fc.dictionary(fc.constantFrom(...Object.keys(PRODUCTS)), fc.constantFrom(0, 1, 60, 200, 900), { minKeys: 1, maxKeys: 2 });
const concentrate = fc.record({ kind: fc.constantFrom('stock', 'stock', 'stock', 'acid', 'base'), products: recipe, ...dosing });
const analysed = fc.record({ calciumMmolPerL: little, magnesiumMmolPerL: little, sodiumMmolPerL: little, potassiumMmolPerL: little, nitrateMmolPerL: little, chlorideMmolPerL: little, sulfateMmolPerL: little, phosphateMmolPerL: little, bicarbonateMmolPerL: little });
const water = fc.record({ kind: fc.constantFrom('fresh', 'fresh', 'return'), analysis: analysed, ...dosing, perBasinMaxL: fc.constantFrom(undefined, undefined, undefined, 12.34) });
const basinType = fc.record({ lengthMm: fc.constantFrom(100, 2400, 2400, 6000), widthMm: fc.constantFrom(100, 1200, 1200), depthMm: fc.constantFrom(10, 190, 190, 400), emptyKg: fc.constantFrom(5, 60), rafts: fc.nat(6), raftKg: fc.constantFrom(1.5, 40), levelMinShare: fc.constantFrom(0, 0.8, 1) });
const target = fc.record({ NH4: amount, K: amount, Ca: amount, Mg: amount, NO3: amount, SO4: amount, P: amount });
const bands = fc.record({ tolerance: fc.constantFrom(0.0005, 0.1, 0.5), pH: fc.constantFrom([5.4, 6.2], [3, 3.1], [8, 9]), ecMsPerCm25: fc.constantFrom([0.2, 5], [0.5, 3], [1.5, 1.6], [20, 30]), sodiumMaxMmolPerL: fc.constantFrom(0, 4, 8), chlorideMaxMmolPerL: fc.constantFrom(0, 4, 8) });
const held = fc.record({ K: amount, Ca: amount, P: amount, SO4: amount, NO3: amount, Na: amount, Cl: amount, HCO3: fc.integer({ min: -200, max: 200 }).map((n) => n / 10) });
const basin = fc.record({ type: basinType, target, bands, share: fc.constantFrom(0, 0, 0.001, 0.5, 0.97, 1, 1.3), held, takesL: fc.constantFrom(0, 60) });
const greenhouse = fc.record({ waters: fc.oneof({ weight: 4, arbitrary: fc.array(water, { minLength: 1, maxLength: 2 }) }, { weight: 1, arbitrary: fc.array(water, { maxLength: 0 }) }), concentrates: fc.array(concentrate, { maxLength: 4 }), basins: fc.oneof({ weight: 6, arbitrary: fc.array(basin, { minLength: 1, maxLength: 1 }) }, { weight: 1, arbitrary: fc.array(basin, { minLength: 2, maxLength: 2 }) }), maximumLoadKg: fc.constantFrom(20, 200, 900, 900) });
type Drawn = typeof greenhouse extends fc.Arbitrary<infer T> ? T : never;

function stateOf({ waters, concentrates, basins, maximumLoadKg }: Drawn): GreenhouseState {
  const described = [...waters, ...concentrates].map(({ perBasinMaxL, ...source }, i): SourceDescription =>
    ({ id: `s${i}`, title: `Tank ${i}`, ...source, ...(perBasinMaxL === undefined ? {} : { perBasinMaxL }) }) as SourceDescription);
  const analyses = waters.map(({ analysis }, i) => ({ analysis: `a${i}`, at: '2026-03-01T00:00:00Z', place: `tank:s${i}`, ...analysis }));
  const states = basins.map(({ type }, i): [string, BasinState] => [`B${i}`, { id: `B${i}`, type: { id: 't', ...type } as BasinType, bay: 'g', berth: `G${i}`, planting: undefined, filled: undefined, imagedAt: undefined, scans: [], washedAt: undefined, needsWash: false }]);
  return { file: { sources: described, vehicles: [{ maximumLoadKg }] }, products: PRODUCTS, analyses, basins: Object.fromEntries(states), sequence: 1, water: { flows: [], earlier: {} } } as unknown as GreenhouseState;
}

function requestsOf({ basins, maximumLoadKg }: Drawn, state: GreenhouseState): FeedRequest[] {
  const none = { source: 'test', mmolPerL: { NH4: 0, K: 0, Ca: 0, Mg: 0, NO3: 0, SO4: 0, P: 0 }, umolPerL: { Fe: 0, Mn: 0, Zn: 0, B: 0, Cu: 0, Mo: 0 } };
  return basins.map(({ target: mmolPerL, bands: limits, share, held: present, takesL }, i): FeedRequest => {
    const known = state.basins[`B${i}`]!;
    const card = { id: 'leaf', title: 'Leaf', water: { target: { ...none, mmolPerL }, feed: none, uptake: none, traceTolerance: 3, ...limits } } as unknown as CropCard;
    return { basin: known, card, present: { volumeL: share * basinFullL(known.type), mmolPerL: present }, maximumLoadKg, uptake: { litres: takesL, mmolPerL: { K: 5, NO3: 5 } } };
  });
}

function ticketOf(feed: Feed) {
  const present = feed.request.present;
  const before = solutionView({ ...present, ...waterFigures(present.mmolPerL) }, 'test');
  return feedTicket(feed, { ticket: 't', visit: 'v', currency: 'EUR', before }, undefined);
}

/** No number of an answer is missing; JSON writes null for one that is. */
function expectNumbers(answer: unknown): void {
  const walk = (value: unknown, path: string): void => {
    if (typeof value === 'number') { if (!Number.isFinite(value)) throw new Error(`${path} is ${value}`); }
    else if (typeof value === 'string') { if (/\b(NaN|Infinity|undefined|null)\b/.test(value)) throw new Error(`${path}: ${value}`); }
    else if (value !== null && typeof value === 'object' && !(value instanceof Set)) for (const [key, inner] of Object.entries(value)) walk(inner, `${path}.${key}`);
  };
  walk(answer, 'answer');
}

function expectHardLimits(feed: Feed): void {
  const { request: { basin: { type }, present, maximumLoadKg }, draws, drainL, after } = feed;
  for (const { from: { source }, litres: drawn } of draws) {
    if (source.perBasinMaxL !== undefined) expect(drawn, source.id).toBeLessThanOrEqual(source.perBasinMaxL);
    expect(drawn).toBeGreaterThanOrEqual(source.pumpMinimumL);
    expect(drawn).toBeGreaterThan(0);
  }
  expect(drainL).toBeGreaterThanOrEqual(0);
  expect(drainL).toBeLessThanOrEqual(present.volumeL);
  const added = draws.reduce((sum, draw) => sum + draw.litres, 0);
  expect(Math.abs(present.volumeL - drainL + added - after.volumeL)).toBeLessThan(1e-8 * (1 + after.volumeL));
  // What is in a basin already may be too much; what is added never makes it so.
  if (added === 0) return;
  expect(after.volumeL).toBeLessThanOrEqual(basinFullL(type) + 1e-9);
  expect(basinWeightKg(type, after.volumeL)).toBeLessThanOrEqual(maximumLoadKg + 1e-9);
}

/** The steps as a person follows them: what stands in the measure and what in the basin. */
function expectSafeSteps(feed: Feed, steps: readonly string[]): void {
  const stock = (step: string) => feed.draws.find(({ from }) => step.includes(`L of ${from.source.title}.`) && Object.keys(from.gramsPerL).length > 0)?.from;
  const water = feed.draws.reduce((sum, { from, litres: drawn }) => sum + (Object.keys(from.gramsPerL).length === 0 ? drawn : 0), feed.request.present.volumeL - feed.drainL);
  const poured = steps.flatMap((step, at) => (stock(step) === undefined ? [] : [{ at, step, from: stock(step)! }]));
  expect(poured).toHaveLength(feed.draws.filter(({ from }) => Object.keys(from.gramsPerL).length > 0).length);
  for (const [n, { at, step, from }] of poured.entries()) {
    // One concentrate a step; into water, all of which is there by then; the measure rinsed since the one before.
    expect(feed.draws.filter(({ from: each }) => step.includes(`L of ${each.source.title}.`))).toHaveLength(1);
    expect(step).toContain('nto the water: ');
    if (n > 0) expect(step).toMatch(/^Stir and rinse the measure/);
    expect(steps.slice(at).some((later) => later.startsWith('Fill in'))).toBe(false);
    const isAcid = holds(from.gramsPerL, 'acid'), isLye = holds(from.gramsPerL, 'alkaline');
    if (isAcid || isLye) for (const later of poured.slice(n + 1)) expect(holds(later.from.gramsPerL, isAcid ? 'acid' : 'alkaline') || later.from.source.kind === (isAcid ? 'acid' : 'base'), 'acid and lye come last').toBe(true);
    if (isAcid) expect(step).toContain('never water into acid');
    for (const [one, other] of [['calcium', 'phosphateOrSulfate'], ['acid', 'alkaline'], ['acid', 'chelate'], ['calcium', 'alkaline']] as const) expect(holds(from.gramsPerL, one) && holds(from.gramsPerL, other)).toBe(false);
    expect(holds(from.gramsPerL, 'oxidiser')).toBe(false);
  }
  if (poured.length > 0) expect(water).toBeGreaterThanOrEqual(LEAST_WATER_SHARE * feed.after.volumeL - 1e-9);
  const drawn = (group: string) => poured.some(({ from }) => holds(from.gramsPerL, group));
  expect(drawn('acid') && drawn('alkaline'), 'acid and lye in one filling').toBe(false);
}

const planOf = (feeds: readonly Feed[]): ApprovedPlan => ({ planId: 'p', at: '2026-03-10T06:00:00Z', approvedBy: 'g', upToSequence: 1, visits: feeds.map((feed, i) => ({
  visit: `v${i}`, basin: feed.request.basin.id, fromBerth: `G${i}`, toBerth: `G${i}`,
  stops: [{ stop: 0, kind: 'filling', station: 'f', startAt: '2026-03-10T06:00:00Z', endAt: '2026-03-10T06:10:00Z', effect: fillingStop(feed, undefined).effect }] })) });

describe('whatever a greenhouse is like', () => {
  it('no ticket is dangerous, beyond a hard limit, or holds a number that is none; and approval passes it as it stands', () => {
    let [tickets, draws, doses, unapproved, unsolved] = [0, 0, 0, 0, 0];
    fc.assert(fc.property(greenhouse, (drawn) => {
      const state = stateOf(drawn);
      const { usable } = readSourceWaters(state, [], NOW, NOW);
      const mixed = mixFeeds(requestsOf(drawn, state), usable, 0.003, solver);
      if (!mixed.ok) { unsolved += 1; expect(mixed.refusals.map(({ code }) => code)).toEqual(['not-converged']); return; }
      expectNumbers(mixed.value.map(({ request: _request, ...feed }) => feed));
      for (const { source, availableL } of usable) {
        const taken = mixed.value.reduce((sum, feed) => sum + (feed.draws.find(({ from }) => from.source.id === source.id)?.litres ?? 0), 0);
        expect(taken).toBeLessThanOrEqual(Math.min(availableL, source.capacityL) + 1e-9);
      }
      for (const feed of mixed.value) {
        const ticket = ticketOf(feed);
        expectNumbers(ticket);
        expectHardLimits(feed);
        expectSafeSteps(feed, ticket.steps);
        [tickets, draws, doses] = [tickets + 1, draws + feed.draws.length, doses + feed.draws.filter(({ from }) => Object.keys(from.gramsPerL).length > 0).length];
      }
      const faults = checkApproval(state, planOf(mixed.value));
      // A basin that is too full or heavy and from which nothing can be drained is what approval is there to stop.
      if (faults.length > 0) { unapproved += 1; expect(faults.every(({ message }) => message.startsWith('The volume of basin'))).toBe(true); }
    }), { seed: 77, numRuns: 500 });
    console.log(`fuzzed tickets: ${tickets} with ${draws} draws, ${doses} of them concentrates; ${unapproved} stopped at approval, ${unsolved} without an answer`);
    expect(doses).toBeGreaterThan(90);
  });

  it('approval stops what somebody has changed', () => {
    const tampering = fc.record({ source: fc.nat(9), times: fc.constantFrom(Number.NaN, -1, Infinity, 50), volume: fc.constantFrom(Number.NaN, -1, 1e6, Infinity), what: fc.constantFrom('dose', 'volume', 'drain', 'amount') });
    let stopped = 0;
    fc.assert(fc.property(greenhouse, tampering, (drawn, { source, times, volume, what }) => {
      const state = stateOf(drawn);
      const id = state.file!.sources[source % Math.max(1, state.file!.sources.length)]?.id ?? 'unknown';
      const changed = { dose: { drawL: { [id]: 40 * times } }, volume: { resultVolumeL: volume }, drain: { drainL: Number.isFinite(volume) ? -1 : volume }, amount: { resultMmolPerL: { K: Number.NaN } } }[what];
      const effect = { kind: 'filling' as const, drainL: 0, drawL: {}, resultMmolPerL: {}, resultVolumeL: 1, ...changed };
      const plan = planOf([]);
      const faults = checkApproval(state, { ...plan, visits: [{ visit: 'v0', basin: 'B0', fromBerth: 'G0', toBerth: 'G0', stops: [{ stop: 0, kind: 'filling', station: 'f', startAt: plan.at, endAt: plan.at, effect }] }] });
      const most = state.file!.sources.find((each) => each.id === id);
      // 2,000 L of a water without a limit of its own are wrong only for the basin's volume, which this effect does not state.
      if (what === 'dose' && times === 50 && most?.perBasinMaxL === undefined && (most?.kind === 'fresh' || most?.kind === 'return')) return;
      expect(faults.length, `${what} ${times} ${volume}`).toBeGreaterThan(0);
      stopped += 1;
    }), { seed: 78, numRuns: 300 });
    console.log(`tampered plans stopped: ${stopped}`);
  });
});
