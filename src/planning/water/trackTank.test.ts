import { describe, expect, it } from 'vitest';
import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { SourceDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import type { AnalysisRow } from '../../greenhouse/schema/tableRows.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { bookedAt, bookFlows, EMPTY_BOOK, type WaterFlow } from '../../greenhouse/waterBook.ts';
import { entriesOf, scaleComposition, type Composition } from '../../science/chemistry/composition.ts';
import { freeIonMsPerCm25 } from './freeIonConductivity.ts';
import type { KnownWater } from './likelyTankCause.ts';
import type { TankState } from './tankState.ts';
import { trackTank } from './trackTank.ts';
import { pairingFactor } from './waterFigures.ts';

const DAY_MS = 86_400_000;
const START = Date.parse('2026-03-01T06:00:00Z');
const at = (day: number): string => new Date(START + day * DAY_MS).toISOString();
const TANK: SourceDescription = { id: 'r', title: 'Returned solution', kind: 'return', capacityL: 5000, availableL: 2000, costPerM3: 0, pumpMinimumL: 0 };
const SPENT: Composition = { K: 4, Ca: 2.2, Mg: 0.9, Na: 1.5, NO3: 8, Cl: 1.2, SO4: 1, P: 0.7 };
const BATCH: Composition = { K: 2, Ca: 3, Mg: 1.4, Na: 3, NO3: 6, Cl: 2.4, SO4: 1.8, P: 0.4 };
const TAP: KnownWater = { title: 'Mains water', isFresh: true, mmolPerL: { K: 0.05, Ca: 1.35, Mg: 0.4, Na: 0.6, NO3: 0.2, Cl: 0.7, SO4: 0.4, P: 0 } };
const OTHER: KnownWater = { title: 'Herb return', isFresh: false, mmolPerL: { K: 7, Ca: 1, Mg: 2, Na: 0.5, NO3: 9, Cl: 0.3, SO4: 2.5, P: 1.5 } };

const came = (day: number, litres: number, basin = 'B1'): WaterFlow => ({ at: at(day), from: `basin:${basin}`, to: 'tank:r', litres, mmol: scaleComposition(BATCH, litres) });
const went = (day: number, litres: number): WaterFlow => ({ at: at(day), from: 'tank:r', to: 'basin:B9', litres, mmol: scaleComposition(SPENT, litres) });
const row = (name: string, day: number, of: Composition): AnalysisRow => ({
  analysis: name, at: at(day), place: 'tank:r', potassiumMmolPerL: of.K, calciumMmolPerL: of.Ca, magnesiumMmolPerL: of.Mg, sodiumMmolPerL: of.Na,
  nitrateMmolPerL: of.NO3, chlorideMmolPerL: of.Cl, sulfateMmolPerL: of.SO4, phosphateMmolPerL: of.P,
});
const level = (day: number, value: number): Reading => ({ at: at(day), place: 'tank:r', quantity: 'volumeL', value, sd: 20 });
const ec = (day: number, value: number): Reading => ({ at: at(day), place: 'tank:r', quantity: 'ecMsPerCm25', value, sd: 0.02 });

function tracked(flows: readonly WaterFlow[], analyses: readonly AnalysisRow[], readings: readonly Reading[] = [], day = 20): TankState {
  const water = flows.reduce((book, flow) => bookFlows(book, [flow]), EMPTY_BOOK);
  const tank = trackTank(TANK, { water, analyses } as unknown as GreenhouseState, readings, [TAP, OTHER], START + day * DAY_MS);
  // Whatever was read: what the book says, with the corrections, is what is in the tank.
  const booked = bookedAt({ flows: [...water.flows, ...tank.corrections], earlier: water.earlier }, 'tank:r');
  expect(Math.abs(booked.litres - tank.volumeL)).toBeLessThan(1e-9 * 5000);
  for (const [name, mmol] of entriesOf(tank.mmolPerL ?? {})) expect(Math.abs((booked.mmol[name] ?? 0) - mmol * tank.volumeL), name).toBeLessThan(1e-9 * 50_000);
  return tank;
}

const MIXED: Composition = Object.fromEntries(entriesOf(SPENT).map(([name, mmol]) => [name, (2000 * mmol + 500 * BATCH[name]!) / 2500]));
const A1 = row('A1', 0, SPENT);

describe('trackTank', () => {
  it('adds what came, takes off what went, each with its ions', () => {
    const tank = tracked([came(2, 300), came(3, 200, 'B2'), went(4, 400)], [A1]);
    expect(tank.volumeL).toBeCloseTo(2100, 9);
    expect(tank.mmolPerL!.Na).toBeCloseTo((2000 * 1.5 + 500 * 3 - 400 * 1.5) / 2100, 9);
    expect(tank).toMatchObject({ since: at(0), inL: 500, outL: 400, flags: [], basis: 'analysis A1 of 2026-03-01, plus 500 L that came and less 400 L that went since; volume as described' });
    expect(tank.strengthSdShare).toBeGreaterThan(0.04);
  });
  it('takes each observation as it is until the first movement is on record', () => {
    const tank = tracked([], [A1, row('A2', 7, BATCH)], [level(1, 1800), level(8, 2600)]);
    expect(tank).toMatchObject({ volumeL: 2600, flags: [], since: at(7) });
    expect(tank.mmolPerL!.Na).toBeCloseTo(3, 9);
    expect(tank.corrections.map(({ from }) => from)).toEqual(['found']);
  });
  it('is corrected by a level and an analysis that fit, between them and the count, and books the difference', () => {
    const tank = tracked([came(2, 500)], [A1, row('A2', 5, scaleComposition(MIXED, 1.04))], [level(1, 2000), level(5, 2530)]);
    expect(tank.flags).toEqual([]);
    expect(tank.volumeL).toBeGreaterThan(2505);
    expect(tank.volumeL).toBeLessThan(2530);
    expect(tank.mmolPerL!.Na! / MIXED.Na!).toBeGreaterThan(1.01);
    expect(tank.mmolPerL!.Na! / MIXED.Na!).toBeLessThan(1.04);
    expect(tank.corrections.filter(({ from }) => from === 'unexplained')).toHaveLength(2);
  });
  it('flags a level that cannot be, does not use it, and starts again when a second says the same', () => {
    const once = tracked([came(2, 500)], [A1], [level(1, 2000), level(5, 1700)]);
    expect(once).toMatchObject({ volumeL: 2500, flags: [{ quantity: 'volume', likelyCause: 'a probe that drifts, else a leak or a draw without a ticket' }] });
    const twice = tracked([came(2, 500)], [A1], [level(1, 2000), level(5, 1700), level(6, 1690)]);
    expect(twice.volumeL).toBe(1690);
    expect(twice.flags[1]!.likelyCause).toBe('a leak, or solution that was drawn without a ticket');
    expect(twice.mmolPerL!.Na).toBeCloseTo(MIXED.Na!, 9);
    const more = tracked([went(2, 300)], [A1], [level(1, 2000), level(5, 2400), level(6, 2400)]);
    expect(more.flags.map(({ likelyCause }) => likelyCause)).toEqual(['a probe that drifts, else solution or water that came in without a ticket', 'solution or water that came in without a ticket']);
  });
  it('names the wrong ticket when a batch is just what the level misses', () => {
    expect(tracked([came(2, 500), came(3, 200, 'B2')], [A1], [level(1, 2000), level(5, 2210)]).flags[0]!.likelyCause).toBe('a wrong ticket: the 500 L from B1 did not come into this tank');
    expect(tracked([went(2, 400)], [A1], [level(1, 2000), level(5, 2010)]).flags[0]!.likelyCause).toBe('a wrong ticket: the 400 L for B9 were not drawn from this tank');
  });
  it('flags an analysis that cannot be, with the likeliest cause', () => {
    const causeOf = (of: Composition, flows: readonly WaterFlow[] = [came(2, 500)]) => tracked(flows, [A1, row('A2', 5, of)], [level(1, 2000)]).flags.map(({ likelyCause }) => likelyCause);
    const blend = (share: number): Composition => Object.fromEntries(entriesOf(MIXED).map(([name, mmol]) => [name, (1 - share) * mmol + share * (TAP.mmolPerL[name] ?? 0)]));
    expect(causeOf(blend(0.4))).toEqual(['about 1667 L of Mains water ran in without a ticket']);
    expect(causeOf(OTHER.mmolPerL)).toEqual(['the sample was taken from Herb return']);
    expect(causeOf(SPENT, [came(2, 1500)])).toEqual(['the batch of 1500 L from B1 did not come into it: a wrong ticket']);
    expect(causeOf({ ...MIXED, Ca: 0.6 * MIXED.Ca!, P: 0.3 * MIXED.P! })).toEqual(['calcium phosphate came out of solution: look for a deposit, and at the pH of the tank']);
    expect(causeOf({ ...MIXED, K: 9, Mg: 0.2 })).toEqual(['a ticket that was not carried out as written, or a tank that was not stirred before the sample was taken']);
    expect(causeOf(scaleComposition(MIXED, 1.03))).toEqual([]);
  });
  it('does not use a sample that seems to be of another tank, until a second one says the same', () => {
    const wrong = row('A2', 5, OTHER.mmolPerL);
    const once = tracked([came(2, 500)], [A1, wrong]);
    expect(once.mmolPerL!.K).toBeCloseTo(MIXED.K!, 9);
    expect(once.flags[0]!.sentence).toContain('not used until a second one says the same');
    expect(tracked([came(2, 500)], [A1, wrong, row('A3', 6, OTHER.mmolPerL)]).mmolPerL!.K).toBeCloseTo(7, 9);
  });
  it('scales to a conductivity that fits, and flags one that does not', () => {
    const is = pairingFactor(SPENT) * freeIonMsPerCm25(MIXED);
    expect(tracked([came(2, 500)], [A1], [ec(5, is * 1.05)]).mmolPerL!.Na! / MIXED.Na!).toBeGreaterThan(1.02);
    const off = tracked([came(2, 500)], [A1], [ec(5, is * 1.6)]);
    expect(off.mmolPerL!.Na).toBeCloseTo(MIXED.Na!, 9);
    expect(off.flags).toMatchObject([{ quantity: 'conductivity', likelyCause: 'a probe that drifts or is dirty, else a wrong ticket' }]);
    expect(tracked([came(2, 500)], [A1], [ec(5, is * 1.6), ec(6, is * 1.6)]).flags[1]!.likelyCause).toContain('another tank than its ticket says');
  });
  it('loses the iron that a lamp took from what was drawn, and says so', () => {
    const draw: WaterFlow = { at: at(2), from: 'tank:r', to: 'basin:B9', litres: 1500, mmol: { ...scaleComposition(SPENT, 1500), Fe: 0.2 * 1500 * 0.012 } };
    const tank = tracked([draw], [{ ...A1, ironUmolPerL: 12 }]);
    expect(tank.mmolPerL!.Fe).toBeCloseTo(0.012, 12);
    expect(tank.corrections.at(-1)).toMatchObject({ from: 'tank:r', to: 'treatment', litres: 0, mmol: { Fe: expect.closeTo(0.8 * 1500 * 0.012, 9) } });
  });
  it('takes no test for pathogens for an analysis of what is dissolved', () => {
    const test: AnalysisRow = { analysis: 'P1', at: at(5), place: 'tank:r', pH: 6 };
    expect(tracked([came(2, 500)], [A1, test]).since).toBe(at(0));
  });
  it('knows only the volume of a tank that was never analysed', () => {
    const tank = tracked([came(2, 500)], [], [level(3, 2450)]);
    expect(tank.mmolPerL).toBeUndefined();
    expect(tank.basis).toBe('never analysed; volume read 2026-03-04 06:00 UTC');
  });
});
