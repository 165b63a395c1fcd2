import { describe, expect, it } from 'vitest';
import { greenhouseFile, type SourceDescription } from '../../../greenhouse/schema/greenhouseFile.ts';
import type { AnalysisRow } from '../../../greenhouse/schema/tableRows.ts';
import { judgeTreatment } from './judgeTreatment.ts';

const NOW = Date.parse('2026-03-10T06:00:00Z');
/** As the schema reads it, with its defaults. */
function tank(treatment: Record<string, unknown>): SourceDescription {
  return greenhouseFile.shape.sources.parse([{ id: 'r', title: 'Return tank', kind: 'return', capacityL: 1000, availableL: 800, treatment }])[0]!;
}
const row = (analysis: string, at: string, more: Partial<AnalysisRow>): AnalysisRow => ({ analysis, at, place: 'tank:r', ...more });
const LAMP = { lampUvcW: 100, agedShare: 1, layerCm: 2, flowLPerMin: 40 };

describe('judgeTreatment', () => {
  it('lets a tank pass whose lamp gives 117 of 100 mJ/cm2, and takes off the iron that it loses', () => {
    // 100,000 mW x 2 cm x 0.390865 / (40,000 / 60 cm3/s) = 117.26.
    const verdict = judgeTreatment(tank({ uvC: { ...LAMP, ironLossShare: 0.3 }, filterUm: 50 }), [], NOW);
    expect(verdict.forbids).toBeUndefined();
    expect(verdict.ironShareKept).toBeCloseTo(0.7, 12);
    expect(verdict.cautions).toEqual(['ultraviolet']);
    expect(verdict.basis).toBe('filter 50 um, UV-C 117 mJ/cm2 at 40 L/min (absorbance 0.5 /cm, as described); 100 needed against fungi and bacteria');
  });

  it('refuses the same lamp against viruses, with the flow that would do: 117.26 x 40 / 250 = 18.76', () => {
    const { forbids, isHeld } = judgeTreatment(tank({ uvC: { ...LAMP, against: 'viruses' } }), [], NOW);
    expect(forbids).toContain('Let it flow at 18.7 L/min at most');
    expect(isHeld).toBe(false);
  });

  it('takes the absorbance of the latest analysis that states one', () => {
    const analyses = [row('old', '2026-03-01T00:00:00Z', { absorbance254PerCm: 0.1 }), row('dark', '2026-03-09T00:00:00Z', { absorbance254PerCm: 2 }), row('later', '2026-03-12T00:00:00Z', { absorbance254PerCm: 0.1 }), row('silent', '2026-03-09T12:00:00Z', {})];
    const { forbids } = judgeTreatment(tank({ uvC: LAMP }), analyses, NOW);
    // a L = 4: (1 - 0.0001) / 9.21034 = 0.108563; x 200,000 / 666.67 = 32.6.
    expect(forbids).toContain('UV-C 33 mJ/cm2 at 40 L/min (absorbance 2 /cm, analysis dark)');
    expect(judgeTreatment(tank({ uvC: LAMP }), analyses.slice(0, 1), NOW).forbids).toBeUndefined();
  });

  it('holds heat to 95 C for 30 s, and refuses what nothing at hand speaks for', () => {
    expect(judgeTreatment(tank({ heat: { temperatureC: 95, holdS: 30 } }), [], NOW)).toMatchObject({ cautions: ['heat'], ironShareKept: 1 });
    expect(judgeTreatment(tank({ heat: { temperatureC: 95, holdS: 30 } }), [], NOW).forbids).toBeUndefined();
    expect(judgeTreatment(tank({ heat: { temperatureC: 90, holdS: 30 } }), [], NOW).forbids).toContain('74 s are needed');
    expect(judgeTreatment(tank({ heat: { temperatureC: 70, holdS: 600 } }), [], NOW).forbids).toContain('below 85 C');
  });

  it('holds a tank until a test is back, clear and young enough', () => {
    const held = (rows: readonly AnalysisRow[]) => judgeTreatment(tank({ testEveryDays: 7 }), rows, NOW);
    expect(held([])).toMatchObject({ isHeld: true, forbids: expect.stringContaining('none is recorded') });
    expect(held([row('t1', '2026-03-08T00:00:00Z', { pathogens: 'clear' })])).toMatchObject({ isHeld: false, basis: 'pathogens clear in analysis t1 of 2026-03-08' });
    expect(held([row('t1', '2026-03-01T00:00:00Z', { pathogens: 'clear' })]).forbids).toContain('9 days old, 7 are allowed');
    expect(held([row('t1', '2026-03-08T00:00:00Z', { pathogens: 'clear' }), row('t2', '2026-03-09T00:00:00Z', { pathogens: 'found' })]).forbids).toContain('pathogens found in analysis t2');
    expect(held([row('t1', '2026-03-11T00:00:00Z', { pathogens: 'clear' })]).isHeld).toBe(true);
  });

  it('looks at return tanks only', () => {
    expect(judgeTreatment({ ...tank({ testEveryDays: 7 }), kind: 'fresh' }, [], NOW).forbids).toBeUndefined();
  });
});
