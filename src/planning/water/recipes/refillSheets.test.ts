import { describe, expect, it } from 'vitest';
import type { ProductDescription } from '../../../greenhouse/schema/productsFile.ts';
import type { SourceDescription } from '../../../greenhouse/schema/greenhouseFile.ts';
import { refillSheets, type RefillQuestion } from './refillSheets.ts';

const product = (id: string, salt: string): ProductDescription => ({ id, title: id, salt, purityPct: 100, pricePerKg: 1 });
const PRODUCTS = { 'calcium-nitrate': product('calcium-nitrate', '5Ca(NO3)2.NH4NO3.10H2O'), 'monopotassium-phosphate': product('monopotassium-phosphate', 'KH2PO4'), 'nitric-acid': { ...product('nitric-acid', 'HNO3'), purityPct: 60 } };
const tank = (id: string, products: Record<string, number>, kind: SourceDescription['kind'] = 'stock'): SourceDescription => ({ id, title: id, kind, capacityL: 500, availableL: 400, costPerM3: 0, pumpMinimumL: 0, products });
const sheetsOf = (sources: SourceDescription[], more: Partial<RefillQuestion> = {}) => refillSheets({ sources, presentL: {}, drawnTodayL: {}, products: PRODUCTS, crops: [], waterMmolPerL: {}, coldestC: 10, ...more });

describe('refilling the tanks of the greenhouse', () => {
  it('weighs the grams a litre for the litres that are missing, water before salt', () => {
    const [sheet] = sheetsOf([tank('calcium', { 'calcium-nitrate': 180 })]);
    expect(sheet!.steps.map(({ words }) => words)).toEqual([
      'Read the level (about 400 L expected), then fill with water to 460 L.', 'Add calcium-nitrate and stir until it is dissolved.', 'Top up with water to 500 L, stir, and write name, date and lots on the tank.']);
    expect(sheet!.steps[1]!.grams).toBeCloseTo(18_000, 9);
  });
  it('takes the level that was read, and passes over waters', () => {
    const sheets = sheetsOf([tank('calcium', { 'calcium-nitrate': 180 }), tank('rain', {}, 'fresh')], { presentL: { calcium: 450 }, drawnTodayL: { calcium: 10 } });
    expect(sheets).toHaveLength(1);
    expect(sheets[0]!.steps[1]!.grams).toBeCloseTo(9000, 9);
    expect(sheets[0]!.yields.at(-1)).toBe('450 L are in it now; today\'s feeds draw 10 L, so 440 L are left over tonight, enough for 44 more such days.');
  });
  it('gives no steps but the reason where products must be kept apart', () => {
    const [sheet] = sheetsOf([tank('both', { 'calcium-nitrate': 100, 'monopotassium-phosphate': 50 })]);
    expect(sheet!.steps).toEqual([]);
    expect(sheet!.refusals.map(({ code }) => code)).toContain('incompatible-products');
  });
  it('gives no steps where it is not known what goes in', () => {
    const sheets = sheetsOf([tank('none', {}), tank('strange', { magic: 3 })]);
    expect(sheets.map(({ steps, refusals }) => [steps.length, refusals[0]!.code])).toEqual([[0, 'value-missing'], [0, 'reference-unknown']]);
  });
  it('refuses more than dissolves in the cold', () => {
    expect(sheetsOf([tank('strong', { 'monopotassium-phosphate': 150 })], { coldestC: 5 })[0]!.refusals.map(({ code }) => code)).toContain('not-soluble');
  });
  it('says what a diluted stock should read', () => {
    // 1 g/L of KH2PO4 is 7.35 mmol/L: limiting conductivities 73.5 and 36 S.cm2/mol less a tenth at this strength (CRC Handbook, from memory).
    const sheets = sheetsOf([tank('p', { 'monopotassium-phosphate': 101 }), tank('acid', { 'nitric-acid': 60 }, 'acid')]);
    expect(sheets[0]!.dilutedMsPerCm25).toBeGreaterThan(0.68);
    expect(sheets[0]!.dilutedMsPerCm25).toBeLessThan(0.78);
    expect(sheets[1]!.dilutedMsPerCm25).toBeUndefined();
  });
  it('says what a full tank of acid takes', () => {
    // 60 g/L of 60 % nitric acid: 60 x 0.6 / 63.012 = 0.5713 eq/L.
    expect(sheetsOf([tank('acid', { 'nitric-acid': 60 }, 'acid')])[0]!.yields[0]).toBe('A full tank takes 1 meq/L of alkalinity from 285.7 m³ of water, at 1.75 L a cubic metre.');
  });
});
