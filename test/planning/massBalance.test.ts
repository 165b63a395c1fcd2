import { beforeAll, describe, expect, it } from 'vitest';
import type { WaterFlow } from '../../src/greenhouse/waterBook.ts';
import { addWater, NO_WATER, type WaterAmount } from '../../src/greenhouse/waterBook.ts';
import { loadLinearSolver } from '../../src/planning/solver/loadLinearSolver.ts';
import { waterLedger, type WaterLedger } from '../../src/planning/water/waterLedger.ts';
import { entriesOf } from '../../src/science/chemistry/composition.ts';
import { DEMO_AT, demoFolder } from './demoFolder.ts';
import { randomWaterDays, type WaterMorning } from './randomWaterDays.ts';

const DAY_MS = 86_400_000;
const SEEDS = [11, 12, 13, 14];
const DAYS = 12;
/** Bookings left out one by one: every so many, and the first of each kind. */
const EVERY = 7;
let runs: WaterMorning[][];

/** Sixteen planted basins and four empty ones of the demonstration greenhouse. */
function smallHouse() {
  const { state } = demoFolder();
  const all = Object.values(state.basins);
  const kept = [...all.filter(({ planting }) => planting !== undefined).filter((_, i) => i % 12 === 0).slice(0, 16), ...all.filter(({ planting }) => planting === undefined).slice(0, 4)];
  return { ...state, basins: Object.fromEntries(kept.map((basin) => [basin.id, basin])) };
}

beforeAll(async () => {
  const solver = await loadLinearSolver();
  runs = SEEDS.map((seed) => randomWaterDays(smallHouse(), Date.parse(DEMO_AT), DAYS, seed, solver));
}, 60_000);

const ledgerOf = ({ state, basins, sources, atMs }: WaterMorning, fromMs: number): WaterLedger => waterLedger({ state, basins, tanks: sources.tanks, fromMs, atMs });

/** In + unexplained - crops - discharge against what basins and return tanks hold more than before: all terms beside each other. */
function wholeHouse({ flows, contents }: WaterLedger): { readonly miss: WaterAmount; readonly turned: WaterAmount } {
  const isInside = (place: string) => place in contents;
  const sum = (of: readonly WaterFlow[]) => of.reduce((total, flow) => addWater(total, flow), NO_WATER);
  const came = sum(flows.filter(({ from, to }) => !isInside(from) && isInside(to)));
  const went = sum(flows.filter(({ from, to }) => isInside(from) && !isInside(to)));
  const grown = Object.values(contents).reduce((total, { start, end }) => addWater(addWater(total, end), start, -1), NO_WATER);
  const held = Object.values(contents).reduce((total, { end }) => addWater(total, end), NO_WATER);
  return { miss: addWater(addWater(grown, came, -1), went), turned: addWater(addWater(held, came), went) };
}

function largestShare({ miss, turned }: ReturnType<typeof wholeHouse>): number {
  return Math.max(Math.abs(miss.litres / turned.litres), ...entriesOf(miss.mmol).map(([name, mmol]) => Math.abs(mmol) / Math.max(1, Math.abs(turned.mmol[name] ?? 0))));
}

describe('the mass balance of random days', () => {
  it('closes for water and every ion to 1e-9: sources, basins, crops, tanks, discharge, unexplained', () => {
    let worst = 0;
    let flows = 0;
    for (const mornings of runs) for (const [day, morning] of mornings.entries()) for (const back of [DAYS, 3]) {
      const ledger = ledgerOf(morning, morning.atMs - back * DAY_MS);
      flows += ledger.flows.length;
      const share = Math.max(largestShare(wholeHouse(ledger)), ledger.closesWithin);
      worst = Math.max(worst, share);
      expect(share, `day ${day}, ${back} days back`).toBeLessThan(1e-9);
    }
    console.log(`${SEEDS.length * DAYS * 2} ledgers of ${flows} flows close within ${worst.toExponential(1)}`);
  });

  it('has every kind of flow in it, and some of each that a reading corrected', () => {
    const kinds = new Set(runs.flatMap((mornings) => ledgerOf(mornings.at(-1)!, 0).flows.map(kindOf)));
    expect([...kinds].sort()).toEqual(['basin>crops', 'basin>discharge', 'basin>tank', 'tank>basin', 'tank>treatment', 'unexplained>basin', 'unexplained>tank']);
    expect(runs.every((mornings) => mornings.some(({ basins }) => basins.some(({ water }) => water.known && water.solution.flags.length > 0)))).toBe(true);
  });

  it('notices any one booking that is left out', () => {
    const last = runs[0]!.at(-1)!;
    const { flows } = last.state.water;
    const kinds = new Set<string>();
    for (const [i, flow] of flows.entries()) {
      if (i % EVERY !== 0 && kinds.has(kindOf(flow)) || isNothing(flow)) continue;
      const without = { ...last, state: { ...last.state, water: { ...last.state.water, flows: flows.filter((_, other) => other !== i) } } };
      expect(ledgerOf(without, 0).closesWithin, `${flow.from} to ${flow.to} at ${flow.at}`).toBeGreaterThan(1e-9);
      kinds.add(kindOf(flow));
    }
    console.log(`every ${EVERY}th of ${flows.length} bookings left out: ${[...kinds].sort().join(', ')}`);
    expect([...kinds].sort()).toEqual(['basin>crops', 'basin>discharge', 'basin>tank', 'found>basin', 'tank>basin', 'unexplained>basin']);
  });

  it('notices a correction of a tank that is not booked, and a basin whose water is not counted', () => {
    const last = runs.map((mornings) => mornings.at(-1)!).find(({ sources }) => sources.tanks.get('return-1')!.corrections.length > 1)!;
    const tank = last.sources.tanks.get('return-1')!;
    for (const [i, correction] of tank.corrections.entries()) {
      if (isNothing(correction)) continue;
      const tanks = new Map([['return-1', { ...tank, corrections: tank.corrections.filter((_, other) => other !== i) }]]);
      expect(ledgerOf({ ...last, sources: { ...last.sources, tanks } }, 0).closesWithin).toBeGreaterThan(1e-9);
    }
    const basins = last.basins.map((view, i) => (i === 0 && view.water.known ? { ...view, water: { ...view.water, solution: { ...view.water.solution, volumeL: view.water.solution.volumeL + 1e-3 } } } : view));
    expect(ledgerOf({ ...last, basins }, 0).closesWithin).toBeGreaterThan(1e-9);
  });

  it('never counts less than nothing', () => {
    for (const { basins, sources } of runs.flat()) {
      for (const { water } of basins) if (water.known) for (const [name, mmol] of entriesOf(water.solution.mmolPerL)) if (name !== 'HCO3') expect(mmol).toBeGreaterThan(-1e-9);
      const tank = sources.tanks.get('return-1')!;
      expect(tank.volumeL).toBeGreaterThan(0);
      for (const [name, mmol] of entriesOf(tank.mmolPerL ?? {})) if (name !== 'HCO3') expect(mmol, name).toBeGreaterThan(-1e-9);
    }
  });
});

const isNothing = ({ litres, mmol }: WaterAmount): boolean => Math.abs(litres) < 1e-6 && entriesOf(mmol).every(([, is]) => Math.abs(is) < 1e-6);
const kindOf = ({ from, to }: WaterFlow): string => [from, to].map((place) => place.split(':')[0]).join('>');
