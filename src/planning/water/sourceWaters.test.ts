import { describe, expect, it } from 'vitest';
import type { SourceDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import type { ProductDescription } from '../../greenhouse/schema/productsFile.ts';
import type { AnalysisRow } from '../../greenhouse/schema/tableRows.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { WaterFlow } from '../../greenhouse/waterBook.ts';
import { readSourceWaters } from './sourceWaters.ts';

const source = (id: string, kind: SourceDescription['kind'], more: Partial<SourceDescription> = {}): SourceDescription => ({ id, title: `Tank ${id}`, kind, capacityL: 1000, availableL: 800, costPerM3: 2, pumpMinimumL: 0, ...more });
const product = (id: string, salt: string, pricePerKg: number): ProductDescription => ({ id, title: id, salt, purityPct: 100, pricePerKg });
const PRODUCTS = Object.fromEntries([product('kno3', 'KNO3', 1.35), product('ca', 'Ca(NO3)2.4H2O', 1), product('mg', 'MgSO4.7H2O', 1), product('odd', 'Unobtainium', 1)].map((is) => [is.id, is]));
const analysis = (name: string, at: string, more: Partial<AnalysisRow> = {}): AnalysisRow => ({ analysis: name, at, place: 'tank:tap', calciumMmolPerL: 1, sodiumMmolPerL: 0.5, chlorideMmolPerL: 0.5, ...more });
const DAY = Date.parse('2026-03-10T00:00:00Z');
const NOW = Date.parse('2026-03-10T06:00:00Z');
const stateOf = (sources: readonly SourceDescription[], analyses: readonly AnalysisRow[] = [], flows: readonly WaterFlow[] = []) => ({ file: { sources }, products: PRODUCTS, analyses, water: { flows, earlier: {} } }) as unknown as GreenhouseState;

describe('readSourceWaters', () => {
  it('takes the latest analysis up to now, missing negative charge as bicarbonate', () => {
    const rows = [analysis('old', '2026-03-01T00:00:00Z'), analysis('new', '2026-03-08T00:00:00Z', { calciumMmolPerL: 1.2 }), analysis('tomorrow', '2026-03-11T00:00:00Z')];
    const { usable } = readSourceWaters(stateOf([source('tap', 'fresh')], rows), [], NOW, DAY);
    expect(usable[0]).toMatchObject({ mmolPerL: { Ca: 1.2, Na: 0.5, Cl: 0.5, HCO3: 2.4 }, costPerL: 0.002, availableL: 800, basis: 'analysis new of 2026-03-08; volume as described' });
  });
  it('knows a stock by what was weighed into it: 101.1 g of KNO3 a litre are one mole, and cost 0.1365', () => {
    const { usable } = readSourceWaters(stateOf([source('k', 'stock', { products: { kno3: 101.103 }, costPerM3: 0 })]), [], NOW, DAY);
    expect(usable[0]!.mmolPerL.K).toBeCloseTo(1000, 0);
    expect(usable[0]!.costPerL).toBeCloseTo(0.13649, 5);
  });
  it('does not draw from what nobody knows, or from what must not be mixed, and says why', () => {
    const sources = [source('tap', 'fresh'), source('x', 'stock', { products: { odd: 10 } }), source('y', 'stock'), source('z', 'stock', { products: { ca: 100, mg: 100 } })];
    const { usable, unusable } = readSourceWaters(stateOf(sources), [], NOW, DAY);
    expect(usable).toEqual([]);
    expect(unusable.map(({ reason }) => reason)).toEqual([
      'No analysis of Tank tap (tank:tap) is recorded, so nobody knows what is in it.', 'Tank x holds odd, whose composition is not known.',
      'Tank y does not say what it is made of (products).', expect.stringContaining('puts together what must be kept apart (ca with mg: calcium phosphate and gypsum come out of solution)'),
    ]);
  });
  it('reads the volume at hand, never more than the tank holds, less what was drawn since', () => {
    const level = (at: string, value: number) => ({ at, place: 'tank:k', quantity: 'volumeL', value });
    const drawn = (atMs: number, litres: number, id = 'k'): WaterFlow => ({ at: new Date(atMs).toISOString(), from: `tank:${id}`, to: 'basin:B1', litres, mmol: {} });
    const at = (readings: readonly ReturnType<typeof level>[], flows: readonly WaterFlow[] = []) =>
      readSourceWaters(stateOf([source('k', 'stock', { products: { kno3: 100 } })], [], flows), readings, NOW, DAY).usable[0]!.availableL;
    expect(at([level('2026-03-09T06:00:00Z', 500), level('2026-03-10T05:00:00Z', 450), level('2026-03-10T07:00:00Z', 100)])).toBe(450);
    expect(at([level('2026-03-09T06:00:00Z', 5000)])).toBe(1000);
    const days = [drawn(NOW - 86_400_000, 50), drawn(NOW - 60_000, 20), drawn(NOW - 60_000, 99, 'other'), drawn(NOW + 60_000, 7)];
    expect(at([level('2026-03-10T05:00:00Z', 450)], days)).toBe(430);
    expect(at([level('2026-03-08T05:00:00Z', 450)], days)).toBe(380);
    expect(at([], days)).toBe(780);
    expect(at([], [drawn(NOW, 900)])).toBe(0);
  });
  it('takes off the iron that UV-C destroys, and keeps a tank back whose lamp is too weak, with what it holds', () => {
    const lamp = (flowLPerMin: number): Partial<SourceDescription> => ({ treatment: { testEveryDays: 0, uvC: { against: 'fungi and bacteria', lampUvcW: 100, agedShare: 1, layerCm: 2, flowLPerMin, absorbance254PerCm: 0.5, ironLossShare: 0.25 } } });
    const rows = [analysis('r1', '2026-03-08T00:00:00Z', { place: 'tank:r', ironUmolPerL: 12 }), { analysis: 'test', at: '2026-03-09T00:00:00Z', place: 'tank:r', pathogens: 'clear' as const }];
    const { usable } = readSourceWaters(stateOf([source('r', 'return', lamp(40))], rows), [], NOW, DAY);
    expect(usable[0]!.mmolPerL.Fe).toBeCloseTo(0.009, 9);
    expect(usable[0]!.mmolPerL.Ca).toBeCloseTo(1, 9);
    expect(usable[0]!.treatmentCautions).toEqual(['ultraviolet']);
    const weak = readSourceWaters(stateOf([source('r', 'return', lamp(70))], rows), [], NOW, DAY);
    expect(weak.usable).toEqual([]);
    expect(weak.unusable[0]).toMatchObject({ isHeld: false, water: { availableL: 800 }, reason: expect.stringContaining('UV-C 67 mJ/cm2 at 70 L/min') });
    // 67.0055 x 70 / 100.
    expect(weak.unusable[0]!.reason).toContain('46.9 L/min at most');
  });
});
