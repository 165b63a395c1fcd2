import { describe, expect, it } from 'vitest';
import type { BasinAccount } from './basinAccount.ts';
import type { ApprovedVisit, StopEffect } from './events.ts';
import { closeAccount, fillBasin, washBasin } from './moveWater.ts';
import type { BasinState, GreenhouseState } from './state.ts';
import { bookedAt, EMPTY_BOOK } from './waterBook.ts';

const FILLED = { at: '2026-03-01T06:00:00Z', volumeL: 400, mmolPerL: { K: 5, Na: 1 } };
const AT = '2026-03-10T06:00:00.000Z';
const stateOf = (filled: BasinState['filled'], washedAt?: string): GreenhouseState => ({ basins: { B1: { id: 'B1', filled, washedAt } as unknown as BasinState }, water: EMPTY_BOOK }) as unknown as GreenhouseState;
/** 400 L less 30 transpired less 10 that a level took away; potassium 2000 - 306 taken up + 6. */
const ACCOUNT: BasinAccount = { at: AT, from: '2026-03-01T06:00:00.000Z', volumeL: 360, mmol: { K: 1700, Na: 400 }, transpiredL: 30, uptakeMmol: { K: 306 }, unexplainedL: -10, unexplainedMmol: { K: 6 }, volumeSdL: 4, strengthSdShare: 0.03 };
const visit = (account?: BasinAccount): ApprovedVisit => ({ visit: 'F-B1', basin: 'B1', fromBerth: '', toBerth: '', stops: [], ...(account === undefined ? {} : { account }) });
const FILLING: Extract<StopEffect, { kind: 'filling' }> = {
  kind: 'filling', drainL: 60, drainTo: 'r', drawL: { tap: 98, k: 2 }, drawMmol: { tap: { Na: 49 }, k: { K: 300 } },
  resultVolumeL: 400, resultMmolPerL: { K: (1700 * 300 / 360 + 300) / 400, Na: (400 * 300 / 360 + 49) / 400 },
};

describe('closeAccount', () => {
  it('books what the crop took and what nobody can explain, and goes on from what is there', () => {
    const state = closeAccount(stateOf(FILLED), visit(ACCOUNT));
    expect(state.water.flows.map(({ from, to, litres, mmol }) => [from, to, litres, mmol.K])).toEqual([['basin:B1', 'crops', 30, 306], ['unexplained', 'basin:B1', -10, 6]]);
    expect(state.basins.B1!.filled).toEqual({ at: AT, volumeL: 360, mmolPerL: { K: 1700 / 360, Na: 400 / 360 }, counted: { volumeSdL: 4, strengthSdShare: 0.03 } });
  });
  it('books water that no filling was recorded for as found, with what has left it since', () => {
    const state = closeAccount(stateOf(undefined), visit(ACCOUNT));
    expect(state.water.flows[0]).toMatchObject({ from: 'found', to: 'basin:B1', litres: 400, mmol: { K: 2000, Na: 400 } });
    expect(bookedAt(state.water, 'basin:B1')).toEqual({ litres: 360, mmol: { K: 1700, Na: 400 } });
    // Another 20 L than the last filling on record, which is not the one that the balance started from.
    expect(closeAccount(stateOf({ ...FILLED, at: '2026-02-01T06:00:00Z', volumeL: 380 }), visit(ACCOUNT)).water.flows[0]).toMatchObject({ from: 'found', litres: 20 });
  });
  it('closes once: not when the basin was filled, washed or closed since', () => {
    const closed = closeAccount(stateOf(FILLED), visit(ACCOUNT));
    expect(closeAccount(closed, visit(ACCOUNT))).toBe(closed);
    const washed = stateOf(undefined, '2026-03-10T07:00:00Z');
    expect(closeAccount(washed, visit(ACCOUNT))).toBe(washed);
    expect(closeAccount(closed, visit())).toBe(closed);
  });
});

describe('fillBasin', () => {
  it('drains into the tank of the ticket, draws from the sources, and leaves nothing unexplained', () => {
    const state = fillBasin(closeAccount(stateOf(FILLED), visit(ACCOUNT)), 'B1', FILLING, undefined, '2026-03-10T08:00:00Z');
    expect(state.water.flows.slice(2).map(({ from, to, litres }) => [from, to, litres])).toEqual([['basin:B1', 'tank:r', 60], ['tank:tap', 'basin:B1', 98], ['tank:k', 'basin:B1', 2]]);
    expect(bookedAt(state.water, 'tank:r').mmol.K).toBeCloseTo((1700 * 60) / 360, 9);
    expect(state.basins.B1!.filled).toEqual({ at: '2026-03-10T08:00:00Z', volumeL: 400, mmolPerL: FILLING.resultMmolPerL });
  });
  it('books a volume other than the ticket\'s as unexplained, and discharges where no tank is named', () => {
    const { drainTo: _, ...nowhere } = FILLING;
    const state = fillBasin(closeAccount(stateOf(FILLED), visit(ACCOUNT)), 'B1', nowhere, 390, '2026-03-10T08:00:00Z');
    expect(state.water.flows.at(-1)).toMatchObject({ from: 'unexplained', litres: -10 });
    expect(state.water.flows.at(-1)!.mmol.Na).toBeCloseTo(-10 * FILLING.resultMmolPerL.Na!, 9);
    expect(bookedAt(state.water, 'discharge').litres).toBe(60);
  });
});

describe('washBasin', () => {
  it('drains all that the balance says, to discharge or into the tank named', () => {
    const state = closeAccount(stateOf(FILLED), visit(ACCOUNT));
    expect(washBasin(state, 'B1', undefined, AT).water.flows.at(-1)).toMatchObject({ from: 'basin:B1', to: 'discharge', litres: 360, mmol: { Na: 400 } });
    const washed = washBasin(state, 'B1', 'r', AT);
    expect(washed.water.flows.at(-1)).toMatchObject({ to: 'tank:r' });
    expect(washed.basins.B1).toMatchObject({ washedAt: AT, needsWash: false, filled: undefined });
    expect(washBasin(washed, 'B1', 'r', AT).water).toBe(washed.water);
  });
});
