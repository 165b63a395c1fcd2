import { describe, expect, it } from 'vitest';
import type { TankOutlook, TankProjection } from '../morningPlan.ts';
import type { SolutionFlag } from '../water/solutionEstimate.ts';
import { findRisks, type RiskQuestion } from './findRisks.ts';

const AT = '2026-03-10T06:00:00.000Z';
const flag = (likelyCause: string, quantity: SolutionFlag['quantity'] = 'volume', at = AT): SolutionFlag => ({ at, quantity, expected: 360, measured: 250, unit: 'L', sentence: 'Level: 250 L where 360 L are explained.', likelyCause });
const basin = (id: string, flags: readonly SolutionFlag[], known = true) => ({ basin: { id, planting: known ? {} : undefined }, water: known ? { known, solution: { flags } } : { known, reason: '', flags } });
const tank = (more: Partial<TankOutlook>): TankOutlook => ({ source: 'r', title: 'Returned solution', kind: 'return', capacityL: 1, volumeL: 1, inL: 0, outL: 0, basis: '', flags: [], limits: [], projections: [], why: '', ...more });
const projection = (dischargeBy?: string): TankProjection => ({ component: 'Na', limitMmolPerL: 4, days: [], sentence: 'Sodium rises.', ...(dischargeBy === undefined ? {} : { dischargeBy }) });

const risksOf = ({ routes = [], ...more }: { basins?: readonly unknown[]; tanks?: readonly TankOutlook[]; routes?: readonly unknown[] }) => findRisks({
  basins: [], tanks: [], lots: [], leftOut: [], feeds: [], state: { basins: {}, crops: {} }, file: {}, day: { date: '2026-03-10', atMs: Date.parse(AT) },
  decided: { soFar: undefined, drafts: [], found: { withoutPlace: [] }, orders: [], sources: { unusable: [] }, returned: { routes } }, ...more,
} as unknown as RiskQuestion);

describe('findRisks: water that does not fit', () => {
  it('tells every flag of the last days with its likeliest cause, also where the water is not known', () => {
    for (const cause of ['a leak', 'a wrong ticket', 'a probe that drifts']) for (const known of [true, false]) {
      expect(risksOf({ basins: [basin('B1', [flag(cause)], known)] })).toMatchObject([{ code: 'volume-doubtful', subject: 'B1', severity: 'watch', proposal: `Likeliest: ${cause}.` }]);
    }
    expect(risksOf({ basins: [basin('B1', [flag('a leak', 'volume', '2026-03-01T06:00:00.000Z')])] })).toEqual([]);
  });
  it('tells what the discharge permit does not allow, and only that', () => {
    const routes = [{ basin: 'B1', litres: 120.4, violation: 'nitrate would be 3 mmol/L over the permit.' }, { basin: 'B2', litres: 90 }];
    expect(risksOf({ routes })).toMatchObject([{ code: 'discharge-beyond-permit', subject: 'B1', severity: 'act today', sentence: 'B1: 120 L are to be drained, but nitrate would be 3 mmol/L over the permit.' }]);
  });
  it('tells the latest flag of each quantity', () => {
    const risks = risksOf({ basins: [basin('B1', [flag('first', 'conductivity'), flag('a leak'), flag('a dirty probe', 'conductivity')])] });
    expect(risks.map(({ proposal }) => proposal).sort()).toEqual(['Likeliest: a dirty probe.', 'Likeliest: a leak.']);
  });
  it('tells alike flags of many basins together, and other causes apart', () => {
    const risks = risksOf({ basins: [...['B1', 'B2', 'B3'].map((id) => basin(id, [flag('a dirty probe', 'conductivity')])), basin('B4', [flag('a leak')])] });
    expect(risks.map(({ code, subject }) => [code, subject])).toEqual([['conductivity-doubtful', 'B1'], ['volume-doubtful', 'B4']]);
    expect(risks[0]!.sentence).toContain('3 basins (B1, B2 and B3)');
  });
  it('tells what does not fit in a tank, and a salt limit four weeks ahead', () => {
    const doubt = { at: AT, sentence: 'Level: 1700 L where 2500 L are explained.', likelyCause: 'a leak' };
    expect(risksOf({ tanks: [tank({ flags: [doubt] })] })).toMatchObject([{ code: 'tank-doubtful', subject: 'r', sentence: `Returned solution: ${doubt.sentence}`, proposal: 'Likeliest: a leak.' }]);
    const severities = (by?: string) => risksOf({ tanks: [tank({ projections: [projection(by)] })] }).map(({ code, severity }) => [code, severity]);
    expect([severities('2026-03-10'), severities('2026-04-01'), severities('2026-06-01'), severities()]).toEqual([[['tank-salt', 'act today']], [['tank-salt', 'watch']], [], []]);
  });
});
