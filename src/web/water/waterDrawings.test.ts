import { describe, expect, it } from 'vitest';
import type { ComponentName, WaterAccount } from '../../desk/contract.ts';
import { amountWords, measuredWords, weighedWords } from './amounts.ts';
import { balanceOf } from './balanceOf.ts';
import { layBalance } from './layBalance.ts';
import { laySalt } from './laySalt.ts';
import { mainParts } from './mainParts.ts';
import { printedUnits } from './printedUnits.ts';
import { tankStanding } from './tankStanding.ts';

const NITRATE: ComponentName = { id: 'NO3', name: 'nitrate', element: 'N', label: 'N-NO₃', gPerMol: 14.007, trace: false };
const flow = (from: string, to: string, litres: number, NO3: number) => ({ from, to, litres, mmol: { NO3 } });
const ACCOUNT: WaterAccount = {
  from: '2026-04-01T05:00:00Z', to: '2026-04-14T05:00:00Z', titles: { 'tank:rain': 'Rainwater', 'tank:back': 'Returned solution' },
  flows: [flow('tank:rain', 'basins', 3000, 30), flow('tank:back', 'basins', 1000, 8000), flow('basins', 'crops', 2500, 5000), flow('basins', 'tank:back', 800, 6400), flow('basins', 'discharge', 200, 1600), flow('basins', 'unexplained', -50, -100), flow('tank:back', 'discharge', 70, 500)],
  contents: [{ place: 'basins', startL: 10_000, startMmol: { NO3: 80_000 }, endL: 10_550, endMmol: { NO3: 75_130 } }],
  today: [flow('tank:rain', 'basins', 100, 1)], closesWithin: 0, sentence: '', why: 'water-account',
};

describe('the balance', () => {
  it('has what came in, what left, and what stays, and closes', () => {
    const { ins, outs, beside, basins } = balanceOf(ACCOUNT, 'past', undefined);
    expect(ins.map(({ title, amount, kind }) => [title, amount, kind])).toEqual([['Rainwater', 3000, 'in'], ['Returned solution', 1000, 'in'], ['unexplained', 50, 'unexplained']]);
    expect(outs.map(({ title, amount, kind }) => [title, amount, kind])).toEqual([['crops', 2500, 'crops'], ['back into Returned solution', 800, 'returned'], ['discharged', 200, 'discharged'], ['stays in the basins', 550, 'store']]);
    expect(beside).toEqual([{ key: 'tank:back discharge', words: 'Returned solution → discharged', amount: 70 }]);
    expect(basins).toEqual({ start: 10_000, end: 10_550 });
  });
  it('weighs a component as its element, and takes from the basins what they lost', () => {
    const { ins, outs } = balanceOf(ACCOUNT, 'past', NITRATE);
    expect(outs[0]!.amount).toBeCloseTo((6400 * 14.007) / 1000, 9);
    expect(ins.find(({ kind }) => kind === 'store')).toMatchObject({ title: 'from what was in the basins', amount: expect.closeTo((4870 * 14.007) / 1000, 9) as number });
  });
  it('has for today what the plan moves', () => {
    const { ins, outs, basins } = balanceOf(ACCOUNT, 'today', undefined);
    expect([ins.length, outs, basins]).toEqual([1, [{ key: 'store', kind: 'store', amount: 100, title: 'stays in the basins, as planned' }], undefined]);
  });
  it('draws bands as thick as their amounts, that fill the trunk and keep labels apart', () => {
    const balance = balanceOf(ACCOUNT, 'past', undefined);
    const laid = layBalance(balance, { width: 1000, gutter: 200, trunk: 100, most: 300, slot: 40, top: 10 })!;
    const heights = new Map(laid.bands.map((band) => [band.key, band.bar.height]));
    expect(heights.get('in tank:rain')! / heights.get('in tank:back')!).toBeCloseTo(3, 9);
    expect(laid.bands.filter(({ label }) => label.anchor === 'end').reduce((sum, { bar }) => sum + bar.height, 0)).toBeCloseTo(laid.trunk.height, 6);
    for (const anchor of ['start', 'end'] as const) {
      const ys = laid.bands.filter(({ label }) => label.anchor === anchor).map(({ label }) => label.y);
      ys.slice(1).forEach((y, i) => expect(y - ys[i]!).toBeGreaterThanOrEqual(40));
    }
    for (const { bar } of laid.bands) expect(bar.y >= 0 && bar.y + bar.height <= laid.height).toBe(true);
    expect(layBalance({ ...balance, ins: [], outs: [] }, { width: 1000, gutter: 200, trunk: 100, most: 300, slot: 40, top: 10 })).toBeUndefined();
  });
});

describe('salt over the coming days', () => {
  const days = Array.from({ length: 31 }, (_, i) => ({ date: `2026-05-${String(i + 1).padStart(2, '0')}`, mmolPerL: 1 + i / 10, low: 0.9 + i / 10, high: 1.1 + i / 10 }));
  it('meets the limit where the date of discharge is drawn', () => {
    const laid = laySalt({ component: 'Na', limitMmolPerL: 3, days, dischargeBy: '2026-05-21', sentence: '' }, { width: 500, height: 200, left: 40, right: 10, top: 20, bottom: 20 })!;
    const at = laid.line.slice(1).split('L').map((point) => point.split(' ').map(Number)).find(([x]) => x === laid.dischargeX)!;
    expect(at[1]).toBeCloseTo(laid.limitY, 6);
    expect(laid.ticks.at(-1)!.value).toBe(4);
    expect(laid.dates[0]!.date).toBe('2026-05-01');
  });
  it('draws nothing from one day', () => expect(laySalt({ component: 'Na', limitMmolPerL: 3, days: days.slice(0, 1), sentence: '' }, { width: 500, height: 200, left: 40, right: 10, top: 20, bottom: 20 })).toBeUndefined());
});

describe('tanks in words', () => {
  const tank = { flags: [], projections: [], volumeL: 300, drawnTodayL: 0, putInTodayL: 0, capacityL: 500 } as const;
  it('say the most pressing first', () => {
    const projection = { component: 'Na', limitMmolPerL: 3, days: [], sentence: '', dischargeBy: '2026-05-01' };
    expect(tankStanding(tank, '2026-04-14').words).toBe('ready');
    expect(tankStanding({ ...tank, volumeL: 20 }, '2026-04-14').words).toBe('nearly empty');
    expect(tankStanding({ ...tank, drawnTodayL: 300 }, '2026-04-14').words).toBe('used up today');
    expect(tankStanding({ ...tank, projections: [projection] }, '2026-04-14').words).toBe('salt limit in 17 days');
    expect(tankStanding({ ...tank, projections: [projection] }, '2026-05-02').words).toBe('at its salt limit');
    expect(tankStanding({ ...tank, reason: 'no test is back', treatment: { words: '', held: true } }, '2026-04-14').words).toBe('held for its test');
    expect(tankStanding({ ...tank, reason: 'nobody knows', projections: [projection] }, '2026-04-14').words).toBe('not drawn from');
  });
  it('name what there is most of', () => {
    expect(mainParts({ NO3: 8.1, K: 4, Na: 0 } as never, [NITRATE, { ...NITRATE, id: 'K', label: 'K' }, { ...NITRATE, id: 'Na', label: 'Na' }])).toBe('Mostly N-NO₃ 8.10, K 4.00 mmol/L.');
    expect(mainParts({}, [NITRATE])).toBe('Nothing was found in it.');
  });
  it('print their units', () => expect(printedUnits('filter 50 um, UV-C 139 mJ/cm2')).toBe('filter 50 µm, UV-C 139 mJ/cm²'));
  it('weigh and measure in units that are read easily', () => {
    expect([weighedWords(16_200), weighedWords(3.9), weighedWords(0.1234), measuredWords(3578), measuredWords(88.14)]).toEqual(['16.20\u202fkg', '3.900\u202fg', '0.123\u202fg', '3.578\u202fL', '88.1\u202fmL']);
    expect([amountWords(3082, 'water'), amountWords(0.5, 'water'), amountWords(1234, 'mass'), amountWords(0.02, 'mass')]).toEqual(['3.08\u202fm³', '0.500\u202fL', '1.23\u202fkg', '20.0\u202fmg']);
  });
});
