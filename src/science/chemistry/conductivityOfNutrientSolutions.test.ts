import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cationSumMeqPerL, chargeErrorPct, type Component, type Composition } from './composition.ts';
import { ec25UsPerCm } from './conductivity.ts';

const FOLDER = '../shared/data/tomato-2019';
const present = existsSync(FOLDER);
const MACRO: Record<string, Component> = { NH4: 'NH4', K: 'K', Na: 'Na', Ca: 'Ca', Mg: 'Mg', Si: 'Si', NO3: 'NO3', Cl: 'Cl', SO4: 'SO4', HCO3: 'HCO3', PO4: 'P' };
const MICRO: Component[] = ['Fe', 'Mn', 'Zn', 'B', 'Cu', 'Mo'];

interface Measured { readonly mmolPerL: Composition; readonly pH: number; readonly ecMsPerCm: number }

/** One analysis of the supply ("irr_") or drain ("drain_") columns of a row: mmol/L, micro-nutrients umol/L. */
function analysis(row: Record<string, number>, prefix: string): Measured {
  const macro = Object.entries(MACRO).map(([column, name]) => [name, row[prefix + column]!]);
  const micro = MICRO.map((name) => [name, row[prefix + name]! / 1000]);
  return { mmolPerL: Object.fromEntries([...macro, ...micro].filter(([, v]) => Number.isFinite(v))), pH: row[`${prefix}PH`]!, ecMsPerCm: row[`${prefix}EC`]! };
}

function readAnalyses(): Measured[] {
  return [1, 2, 3, 4, 5, 6].flatMap((compartment) => {
    const [head, ...lines] = readFileSync(`${FOLDER}/lab-analyses-${compartment}.csv`, 'utf8').trim().split(/\r?\n/);
    const columns = head!.split(',');
    return lines.flatMap((line) => {
      const row = Object.fromEntries(line.split(',').map((cell, i) => [columns[i]!, cell.trim() === '' ? Number.NaN : Number(cell)]));
      return ['irr_', 'drain_'].map((prefix) => analysis(row, prefix));
    });
  });
}

function score(all: readonly Measured[], estimate: (measured: Measured) => number): { bias: number; rmse: number } {
  const errors = all.map((measured) => estimate(measured) - measured.ecMsPerCm);
  return { bias: errors.reduce((a, b) => a + b, 0) / errors.length, rmse: Math.sqrt(errors.reduce((a, e) => a + e * e, 0) / errors.length) };
}

describe.skipIf(!present)('conductivity of 120 analysed supply and drain solutions (Autonomous Greenhouse Challenge 2019)', () => {
  const all = present ? readAnalyses().filter(({ ecMsPerCm, pH }) => Number.isFinite(ecMsPerCm) && Number.isFinite(pH)) : [];
  const cations = ({ mmolPerL }: Measured): number => cationSumMeqPerL(mmolPerL);
  const speciated = ({ mmolPerL, pH }: Measured): number => ec25UsPerCm(mmolPerL, { pH }) / 1000;
  /** Sonneveld et al. 1999 (from memory). */
  const linear = (measured: Measured): number => 0.19 + 0.095 * cations(measured);
  /** Rule of thumb. */
  const tenth = (measured: Measured): number => cations(measured) / 10;

  it('reads all of them', () => expect(all).toHaveLength(120));
  it('beats both linear rules in bias and RMSE', () => {
    for (const [name, part] of [['all', all], ['EC up to 4', all.filter(({ ecMsPerCm }) => ecMsPerCm <= 4)], ['EC above 4', all.filter(({ ecMsPerCm }) => ecMsPerCm > 4)]] as const) {
      const [ions, rule, thumb] = [score(part, speciated), score(part, linear), score(part, tenth)];
      const line = ({ bias, rmse }: { bias: number; rmse: number }): string => `bias ${bias.toFixed(3)} RMSE ${rmse.toFixed(3)}`;
      console.log(`EC of real solutions, ${name} (${part.length}), mS/cm: by ions ${line(ions)}; 0.19 + 0.095 C+ ${line(rule)}; C+/10 ${line(thumb)}`);
      if (name === 'all') {
        expect(ions.rmse).toBeLessThan(Math.min(rule.rmse, thumb.rmse));
        expect(Math.abs(ions.bias)).toBeLessThan(Math.min(Math.abs(rule.bias), Math.abs(thumb.bias)));
      }
    }
  });
  it('has charges that balance as laboratories balance', () => {
    const errors = all.map(({ mmolPerL }) => chargeErrorPct(mmolPerL)!);
    expect(Math.max(...errors.map(Math.abs))).toBeLessThan(5);
  });
});
