import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { BasinType } from '../../greenhouse/schema/greenhouseFile.ts';
import type { AnalysisRow } from '../../greenhouse/schema/tableRows.ts';
import type { BasinState } from '../../greenhouse/state.ts';
import { ec25UsPerCm } from '../../science/chemistry/conductivity.ts';
import { entriesOf, type Composition } from '../../science/chemistry/composition.ts';
import { estimateSolution, type SolutionInputs } from './estimateSolution.ts';
import type { KnownSolution } from './solutionEstimate.ts';

/** 2 m x 1 m x 0.2 m of water: 400 L, 2 L a millimetre. */
const TYPE: BasinType = { id: 'small', lengthMm: 2000, widthMm: 1000, depthMm: 200, emptyKg: 50, rafts: 4, raftKg: 1.5, levelMinShare: 0.8, raftGapMm: 10, rimAboveRaftsMm: 60 };
/** Half of Sonneveld & Straver 1994, lettuce in recirculating water culture (from memory); uptake of Neocleous et al. 2024. */
const HALF: Composition = { NH4: 0.625, K: 5.5, Ca: 2.25, Mg: 0.5, NO3: 9.5, SO4: 0.5625, P: 1 };
const UPTAKE: Composition = { NH4: 1, K: 10.2, Ca: 3.13, Mg: 0.86, NO3: 12.4, P: 1.72 };
const DAY = 86_400_000;
const START = Date.parse('2026-03-01T06:00:00Z');

const at = (days: number): string => new Date(START + days * DAY).toISOString();
const reading = (days: number, quantity: string, value: number, sd?: number): Reading => ({ at: at(days), place: 'basin:B1', quantity, value, ...(sd === undefined ? {} : { sd }) });
const basin = (filled: BasinState['filled']): BasinState => ({ id: 'B1', type: TYPE, bay: 'g', berth: 'G1', planting: undefined, filled, imagedAt: undefined, scans: [], washedAt: undefined, needsWash: false });

function inputs(more: Partial<SolutionInputs> & { days: number; filled?: BasinState['filled'] }): SolutionInputs {
  const { days, filled = { at: at(0), volumeL: 400, mmolPerL: HALF }, ...rest } = more;
  return { basin: basin(filled), readings: [], analyses: [], uptakeMmolPerL: UPTAKE, likelyMmolPerL: HALF, litresBetween: (from, to) => (4 * (to - from)) / DAY, atMs: START + days * DAY, ...rest };
}

function known(asked: SolutionInputs): KnownSolution {
  const estimate = estimateSolution(asked);
  if (!estimate.known) throw new Error(estimate.reason);
  return estimate.solution;
}

/** Start - uptake + unexplained = now, for water and every component. */
function expectBalanced({ balance, volumeL, mmolPerL }: KnownSolution): void {
  expect(Math.abs(balance.startL - balance.transpiredL + balance.unexplainedL - volumeL)).toBeLessThanOrEqual(1e-9 * balance.startL);
  for (const [name, concentration] of entriesOf(mmolPerL)) {
    const now = (balance.startMmol[name] ?? 0) - (balance.uptakeMmol[name] ?? 0) + (balance.unexplainedMmol[name] ?? 0);
    expect(Math.abs(now - concentration * volumeL)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(balance.startMmol[name] ?? 0)));
  }
}

describe('estimateSolution', () => {
  it('takes off transpiration and the uptake that goes with it', () => {
    const solution = known(inputs({ days: 10 }));
    expect(solution.volumeL).toBeCloseTo(360, 9);
    // 400 x 5.5 - 40 x 10.2 = 1792 mmol in 360 L.
    expect(solution.mmolPerL.K).toBeCloseTo(1792 / 360, 9);
    expect(solution.mmolPerL.SO4).toBeCloseTo((400 * 0.5625) / 360, 9);
    expect(solution.basis).toContain('filled 2026-03-01 06:00 UTC with 400 L, less 40 L transpired');
    expectBalanced(solution);
  });

  it('lets nothing fall below zero and names what is used up', () => {
    const solution = known(inputs({ days: 70 }));
    expect(solution.mmolPerL.NH4).toBe(0);
    expect(solution.exhausted).toContain('NH4');
    expectBalanced(solution);
  });

  it('moves transpiration, and uptake with it, when a level says that more was lost', () => {
    const plain = known(inputs({ days: 10 }));
    const solution = known(inputs({ days: 10, readings: [reading(10, 'levelMm', 175, 0.5)] }));
    expect(solution.volumeL).toBeLessThan(plain.volumeL);
    expect(solution.volumeL).toBeGreaterThan(350);
    expect(solution.balance.transpiredL).toBeGreaterThan(45);
    expect(solution.balance.unexplainedL).toBe(0);
    expect(solution.transpirationFactor).toBeGreaterThan(1.05);
    expect(solution.volumeSdL).toBeLessThan(plain.volumeSdL);
    expectBalanced(solution);
  });

  it('learns how this basin differs from the model, and expects it from then on', () => {
    const levels = Array.from({ length: 10 }, (_, i) => reading(i + 1, 'volumeL', 400 - 6 * (i + 1), 1));
    const solution = known(inputs({ days: 20, readings: levels }));
    expect(solution.transpirationFactor).toBeCloseTo(1.5, 1);
    expect(solution.volumeL).toBeCloseTo(280, -1);
    expect(solution.flags).toEqual([]);
  });

  it('flags a level that cannot be, says why, and does not use it', () => {
    const solution = known(inputs({ days: 10, readings: [reading(10, 'volumeL', 250, 2)] }));
    expect(solution.volumeL).toBeCloseTo(360, 6);
    expect(solution.flags).toMatchObject([{ quantity: 'volume', measured: 250, likelyCause: 'a probe that drifts, else a leak' }]);
    expect(solution.flags[0]!.sentence).toContain('250 L where filling and transpiration explain 360 L; not used');
  });

  it('starts again from a level that a second reading confirms, and books the difference', () => {
    const solution = known(inputs({ days: 11, readings: [reading(10, 'volumeL', 250, 2), reading(11, 'volumeL', 247, 2)] }));
    expect(solution.volumeL).toBe(247);
    expect(solution.balance.unexplainedL).toBeCloseTo(247 - 356, 6);
    expect(solution.flags[1]!.likelyCause).toBe('a leak, or less was filled than the ticket said');
    expectBalanced(solution);
  });

  it('scales the ions to a conductivity according to both uncertainties', () => {
    const balance = known(inputs({ days: 0.01 }));
    expect(balance.ecMsPerCm25).toBeCloseTo(ec25UsPerCm(HALF) / 1000, 2);
    const solution = known(inputs({ days: 0.01, readings: [reading(0.01, 'ecMsPerCm25', 1.1 * balance.ecMsPerCm25, 0.02)] }));
    expect(solution.ecMsPerCm25 / balance.ecMsPerCm25).toBeGreaterThan(1.07);
    expect(solution.ecMsPerCm25 / balance.ecMsPerCm25).toBeLessThan(1.1);
    expect(solution.mmolPerL.K! / solution.mmolPerL.Ca!).toBeCloseTo(5.5 / 2.25, 3);
    expectBalanced(solution);
  });

  it('flags a conductivity that cannot be, and a probe that drifts a little every day', () => {
    const wrong = known(inputs({ days: 1, readings: [reading(1, 'ecMsPerCm25', 3.2, 0.03)] }));
    expect(wrong.flags).toMatchObject([{ quantity: 'conductivity', likelyCause: 'a probe that drifts or is dirty, else a wrong ticket' }]);
    const start = known(inputs({ days: 0.01 })).ecMsPerCm25;
    const drifting = known(inputs({ days: 20, readings: Array.from({ length: 20 }, (_, i) => reading(i + 1, 'ecMsPerCm25', start * 1.025 ** (i + 1), 0.03)) }));
    expect(drifting.flags.some(({ sentence }) => sentence.includes('all lean above'))).toBe(true);
    const steady = known(inputs({ days: 20, readings: Array.from({ length: 20 }, (_, i) => reading(i + 1, 'ecMsPerCm25', start * (1 - 0.002 * (i + 1)), 0.03)) }));
    expect(steady.flags).toEqual([]);
  });

  it('names the likeliest cause of whatever cannot be reconciled: probe, leak, filling without a record, wrong ticket, drift, sample', () => {
    const causes = (days: number, readings: readonly Reading[], analyses: readonly AnalysisRow[] = []) => known(inputs({ days, readings, analyses })).flags.map(({ likelyCause }) => likelyCause);
    const ec = known(inputs({ days: 0.01 })).ecMsPerCm25;
    // A level above what there can be; twice.
    expect(causes(3, [reading(2, 'volumeL', 330, 2)])).toEqual(['a probe that drifts, else a leak']);
    expect(causes(3, [reading(2, 'volumeL', 330, 2), reading(3, 'volumeL', 327, 2)])[1]).toBe('a leak, or less was filled than the ticket said');
    const half = { at: at(0), volumeL: 300, mmolPerL: HALF };
    const filled = (readings: readonly Reading[]) => known(inputs({ days: 3, readings, filled: half })).flags.map(({ likelyCause }) => likelyCause);
    expect(filled([reading(2, 'volumeL', 390, 2)])).toEqual(['a probe that drifts, else a filling that was not recorded']);
    expect(filled([reading(2, 'volumeL', 390, 2), reading(3, 'volumeL', 387, 2)])[1]).toBe('a filling that was not recorded');
    // A conductivity alone, twice, and together with a level.
    expect(causes(2, [reading(1, 'ecMsPerCm25', 2 * ec, 0.02)])).toEqual(['a probe that drifts or is dirty, else a wrong ticket']);
    expect(causes(2, [reading(1, 'ecMsPerCm25', 2 * ec, 0.02), reading(2, 'ecMsPerCm25', 2 * ec, 0.02)])[1]).toBe('a wrong ticket, or a stock that is not what its label says');
    expect(causes(2, [reading(1, 'volumeL', 250, 2), reading(1, 'ecMsPerCm25', 2 * ec, 0.02)])[1]).toBe('level and conductivity are both off: a filling that was not recorded, or a leak');
    // A drift down, and an analysis of another water.
    const falling = Array.from({ length: 20 }, (_, i) => reading(i + 1, 'ecMsPerCm25', ec * 0.96 ** (i + 1), 0.03));
    expect(causes(20, falling).some((cause) => cause.includes('water that was added without a ticket'))).toBe(true);
    expect(causes(3, [], [{ analysis: 'A9', at: at(3), place: 'basin:B1', potassiumMmolPerL: 12, calciumMmolPerL: 6, nitrateMmolPerL: 22 }])).toEqual(['a wrong ticket, a stock that is not what its label says, or another basin was sampled']);
  });

  it('takes an analysis for what it analysed and keeps the balance for the rest', () => {
    const row: AnalysisRow = { analysis: 'A7', at: at(5), place: 'basin:B1', potassiumMmolPerL: 5, calciumMmolPerL: 2.3 };
    const solution = known(inputs({ days: 5, analyses: [row] }));
    expect(solution.mmolPerL.K).toBeCloseTo(5, 9);
    expect(solution.mmolPerL.Ca).toBeCloseTo(2.3, 9);
    expect(solution.mmolPerL.NO3).toBeCloseTo((400 * 9.5 - 20 * 12.4) / 380, 9);
    expect(solution.basis).toContain('analysis A7');
    expectBalanced(solution);
  });

  it('says that it knows nothing where nothing is recorded, and why', () => {
    const nothing = estimateSolution({ ...inputs({ days: 1 }), basin: basin(undefined) });
    expect(nothing).toEqual({ known: false, reason: 'No filling, level or analysis of this water is recorded.', flags: [] });
    const level = estimateSolution({ ...inputs({ days: 1, readings: [reading(0.5, 'levelMm', 180)] }), basin: basin(undefined) });
    expect(level).toMatchObject({ known: false, reason: 'No filling and no analysis of this water is recorded, only its level.' });
  });

  it('starts from a level and a conductivity with the likely proportions, and is unsure of them', () => {
    const solution = known({ ...inputs({ days: 1, readings: [reading(1, 'levelMm', 180, 1), reading(1, 'ecMsPerCm25', 1.3, 0.02), reading(1, 'pH', 6, 0.05)] }), basin: basin(undefined) });
    expect(solution.volumeL).toBeCloseTo(360, 6);
    expect(solution.ecMsPerCm25).toBeCloseTo(1.3, 1);
    expect(solution.pH).toBe(6);
    expect(solution.strengthSdShare).toBeGreaterThan(0.19);
    expect(solution.basis).toContain('no filling recorded');
  });

  it('ignores readings of before the filling, of after now, and that are no numbers', () => {
    const readings = [reading(-1, 'volumeL', 100), reading(12, 'volumeL', 100), reading(5, 'volumeL', Number.NaN), reading(5, 'levelMm', -3)];
    expect(known(inputs({ days: 10, readings })).volumeL).toBeCloseTo(360, 9);
  });

  it('keeps the balance of water and of every ion, to 1e-9, whatever is read', () => {
    const any = fc.record({ day: fc.integer({ min: 1, max: 300 }), quantity: fc.constantFrom('levelMm', 'volumeL', 'ecMsPerCm25', 'pH'), value: fc.integer({ min: 0, max: 4000 }) });
    fc.assert(fc.property(fc.array(any, { maxLength: 25 }), fc.integer({ min: 0, max: 40 }), (seen, litresPerDay) => {
      const readings = seen.map(({ day, quantity, value }) => reading(day / 10, quantity, quantity === 'volumeL' ? value / 10 : quantity === 'levelMm' ? value / 20 : quantity === 'pH' ? 3 + value / 800 : value / 1000));
      const estimate = estimateSolution(inputs({ days: 30, readings, litresBetween: (from, to) => (litresPerDay * (to - from)) / DAY }));
      if (!estimate.known) return;
      expectBalanced(estimate.solution);
      expect(JSON.stringify(estimate.solution)).not.toContain('null');
      expect(estimate.solution.volumeL).toBeGreaterThan(0);
      for (const [name, value] of entriesOf(estimate.solution.mmolPerL)) if (name !== 'HCO3') expect(value).toBeGreaterThanOrEqual(-1e-12);
    }), { numRuns: 200, seed: 11 });
  });
});
