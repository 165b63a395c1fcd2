import { describe, expect, it } from 'vitest';
import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { BasinType, GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { BasinState, GreenhouseState } from '../../greenhouse/state.ts';
import type { Composition } from '../../science/chemistry/composition.ts';
import type { ShiftDay } from '../day/shiftDay.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import type { LotView } from '../lots/lotViews.ts';
import type { LotSupply } from '../orders/lotSupply.ts';
import type { OpenLine } from '../orders/outlookOrders.ts';
import type { KnownSolution } from '../water/solutionEstimate.ts';
import type { BasinView } from './basinView.ts';
import { fillingNeed, lowLevelDate } from './fillingNeed.ts';
import { harvestNeeds } from './harvestNeeds.ts';
import { imagingNeed } from './imagingNeed.ts';
import { transplantNeeds } from './transplantNeeds.ts';
import { washingNeed } from './washingNeed.ts';

/** 2 m2, 400 L full, 320 L at least. */
const TYPE: BasinType = { id: 'small', lengthMm: 2000, widthMm: 1000, depthMm: 200, emptyKg: 50, rafts: 4, raftKg: 1.5, levelMinShare: 0.8, raftGapMm: 10, rimAboveRaftsMm: 60 };
const NONE = { source: 'test', mmolPerL: { NH4: 0, K: 0, Ca: 0, Mg: 0, NO3: 0, SO4: 0, P: 0 }, umolPerL: { Fe: 0, Mn: 0, Zn: 0, B: 0, Cu: 0, Mo: 0 } };
const CARD = {
  id: 'leaf', title: 'Leaf', soldBy: 'head', plantsPerUnit: 1, sowing: { trayDays: 5 }, handling: { imagingEveryDays: 7 },
  stages: [{ id: 'nursery', title: 'Nursery', bay: 'nursery', plantsPerM2: 100, days: 14, baseC: 4 }, { id: 'finish', title: 'Finishing', bay: 'glass', plantsPerM2: 25, days: 20, baseC: 4 }],
  harvest: { readyFreshG: 150, readyShare: 0.8, latestFreshG: 330, lossShare: 0.05, keepsDays: 2 },
  water: { target: { ...NONE, mmolPerL: { ...NONE.mmolPerL, K: 5, NO3: 5 } }, feed: NONE, uptake: NONE, tolerance: 0.3, traceTolerance: 3, ecMsPerCm25: [0.5, 2], pH: [5.5, 6.3], sodiumMaxMmolPerL: 4, chlorideMaxMmolPerL: 4 },
} as unknown as CropCard;
const DAY_MS = 86_400_000;
const DAY: ShiftDay = { date: '2026-03-10', timeZone: 'UTC', atMs: Date.parse('2026-03-10T05:00:00Z'), startMs: Date.parse('2026-03-10T06:00:00Z'), endMs: Date.parse('2026-03-10T14:00:00Z'), pickMs: Date.parse('2026-03-10T12:00:00Z'), breaks: [] };

const planting = (basin: string, more: Partial<NonNullable<BasinState['planting']>> = {}) => ({ lot: 'L1', crop: 'leaf', basin, stage: 'finish', sown: '2026-01-20', placed: '2026-02-20', plants: 50, ...more });
const basin = (id: string, more: Partial<BasinState> = {}): BasinState => ({ id, type: TYPE, bay: 'glass', berth: `G${id}`, planting: planting(id), filled: undefined, imagedAt: undefined, scans: [], washedAt: undefined, needsWash: false, ...more });
const GOOD: Composition = { K: 5, NO3: 5 };
function view(more: { basin?: Partial<BasinState>; water?: Partial<KnownSolution>; litresPerDay?: number } = {}): BasinView {
  const water = { volumeL: 390, volumeSdL: 2, transpirationFactor: 1, uptakeFactor: 1, mmolPerL: GOOD, strengthSdShare: 0.02, ecMsPerCm25: 1, pH: 6, basis: 'test', flags: [], exhausted: [], ...more.water } as unknown as KnownSolution;
  return { basin: basin('B1', more.basin), card: CARD, lot: undefined, water: { known: true, solution: water }, litresBetween: (from, to) => ((more.litresPerDay ?? 4) * (to - from)) / DAY_MS };
}

describe('fillingNeed', () => {
  it('asks for nothing while level and water are within their bands', () => {
    expect(fillingNeed(view(), DAY)).toBeUndefined();
  });
  it('must be filled when the level falls below the least by tomorrow, should when within three days', () => {
    // 4 L a day: 322 L lasts until tomorrow's end of the shift (5.5 L), 326 L two days.
    expect(fillingNeed(view({ water: { volumeL: 322 } }), DAY)).toMatchObject({ urgency: 'must', dueDate: '2026-03-10', reason: '322 L falls below the least of 320 L on 2026-03-11' });
    expect(fillingNeed(view({ water: { volumeL: 330 } }), DAY)).toMatchObject({ urgency: 'should', dueDate: '2026-03-13' });
    expect(fillingNeed(view({ water: { volumeL: 310 } }), DAY)!.reason).toContain('310 L is below the least of 320 L (full 400 L)');
    expect(lowLevelDate(view({ water: { volumeL: 330, transpirationFactor: 2 } }), DAY)).toBe('2026-03-11');
  });
  it('weighs conductivity and pH by how far they are out', () => {
    expect(fillingNeed(view({ water: { ecMsPerCm25: 2.1 } }), DAY)).toMatchObject({ urgency: 'should', reason: 'conductivity 2.1 mS/cm is above 2' });
    expect(fillingNeed(view({ water: { ecMsPerCm25: 2.3 } }), DAY)!.urgency).toBe('must');
    expect(fillingNeed(view({ water: { pH: 6.5 } }), DAY)).toMatchObject({ urgency: 'should', reason: 'pH 6.5 is above 6.3' });
    expect(fillingNeed(view({ water: { pH: 4.9 } }), DAY)!.urgency).toBe('must');
  });
  it('counts a component only as far as the balance is sure of it', () => {
    expect(fillingNeed(view({ water: { mmolPerL: { ...GOOD, K: 3.4 }, strengthSdShare: 0.02 } }), DAY)).toMatchObject({ urgency: 'may' });
    expect(fillingNeed(view({ water: { mmolPerL: { ...GOOD, K: 3.4 }, strengthSdShare: 0.2 } }), DAY)).toBeUndefined();
    expect(fillingNeed(view({ water: { mmolPerL: { ...GOOD, Na: 7 } } }), DAY)).toMatchObject({ urgency: 'should', reason: 'Na 7 mmol/L is above 4.14' });
    expect(fillingNeed(view({ water: { exhausted: ['K', 'NH4'] } }), DAY)!.reason).toBe('K used up by the balance');
  });
  it('says nothing about water that nobody knows', () => {
    expect(fillingNeed({ ...view(), water: { known: false, reason: 'none', flags: [] } }, DAY)).toBeUndefined();
  });
});

describe('imagingNeed', () => {
  const of = (imagedAt: string | undefined, placed = '2026-02-20') => imagingNeed(view({ basin: { imagedAt, planting: planting('B1', { placed }) } }), 7, DAY);
  it('is due by its interval from the last image, or from when the plants came', () => {
    expect(of('2026-03-03T10:00:00Z')).toMatchObject({ urgency: 'should', dueDate: '2026-03-10' });
    expect(of('2026-03-05T10:00:00Z')).toMatchObject({ urgency: 'may', dueDate: '2026-03-12' });
    expect(of('2026-03-06T10:00:00Z')).toBeUndefined();
    expect(of('2026-02-20T10:00:00Z')).toMatchObject({ urgency: 'should', reason: 'last imaged 2026-02-20, every 7 days: due 2026-02-27, 11 days late' });
    expect(of('2026-02-10T10:00:00Z', '2026-02-01')).toMatchObject({ urgency: 'must' });
    expect(of('2026-02-10T10:00:00Z', '2026-03-02')).toMatchObject({ dueDate: '2026-03-09', reason: expect.stringContaining('not imaged since the plants came on 2026-03-02') });
  });
});

describe('washingNeed', () => {
  it('asks to wash an emptied basin, and not one in which plants stand', () => {
    expect(washingNeed(view({ basin: { needsWash: true, planting: undefined } }), DAY)).toMatchObject({ kind: 'washing', urgency: 'should' });
    expect(washingNeed(view({ basin: { needsWash: true } }), DAY)).toBeUndefined();
  });
});

const FILE = { bays: [{ id: 'nursery', kind: 'nursery' }, { id: 'glass', kind: 'glass' }] } as unknown as GreenhouseFile;
const lotView = (basins: readonly BasinState[], stageIndex: number, more: Partial<LotView> = {}): LotView => ({
  lot: 'L1', card: CARD, basins, sown: '2026-01-20', placed: '2026-02-20', stage: CARD.stages[stageIndex]!, stageIndex, plants: 200, planting: '2026-01-25', densities: [], stageEnds: '2026-03-09', ...more,
});
const nursery = basin('N1', { bay: 'nursery', berth: 'N1', planting: planting('N1', { stage: 'nursery', plants: 120 }) });
const stateOf = (basins: readonly BasinState[], trays: GreenhouseState['trays'] = {}) => ({ crops: { leaf: CARD }, trays, basins: Object.fromEntries(basins.map((is) => [is.id, is])), floor: { nodes: {}, edges: [], berths: [{ id: 'free', node: 'free', bay: 'glass' }] } }) as unknown as GreenhouseState;
const empty = (id: string, more: Partial<BasinState> = {}) => basin(id, { planting: undefined, ...more });

describe('transplantNeeds', () => {
  it('moves plants into as many empty clean basins of the next bay as the density asks for, and fills those first', () => {
    // 25 plants/m2 x 2 m2: 50 a basin.
    const basins = [nursery, empty('B1'), empty('B2'), empty('B3'), empty('B4', { needsWash: true })];
    const { needs, withoutPlace } = transplantNeeds([lotView([nursery], 0)], stateOf(basins), FILE, DAY, new Set());
    expect(withoutPlace).toEqual([]);
    expect(needs[0]!.move!.targets).toEqual([{ basin: 'B1', plants: 50, toBerth: 'GB1' }, { basin: 'B2', plants: 50, toBerth: 'GB2' }, { basin: 'B3', plants: 20, toBerth: 'GB3' }]);
    expect(needs.map(({ basin: id, kind }) => `${id} ${kind}`)).toEqual(['N1 transplanting', 'B1 filling', 'B1 transplanting', 'B2 filling', 'B2 transplanting', 'B3 filling', 'B3 transplanting']);
    expect(needs[0]!.reason).toBe('Nursery stage of L1 ended 2026-03-09, 1 day ago: 120 plants move on at 25/m2');
  });
  it('fetches an empty basin from another bay when a berth is free there', () => {
    const spare = empty('S1', { bay: 'nursery', berth: 'S1' });
    const few = { ...nursery, planting: planting('N1', { stage: 'nursery', plants: 80 }) };
    const { needs } = transplantNeeds([lotView([few], 0)], stateOf([few, empty('B1'), spare]), FILE, DAY, new Set());
    expect(needs[0]!.move!.targets).toEqual([{ basin: 'B1', plants: 50, toBerth: 'GB1' }, { basin: 'S1', plants: 30, toBerth: 'free' }]);
  });
  it('sets seedlings out of their trays into empty basins of their first stage when they are due, less what is under way', () => {
    const sown = (date: string, plants = 250) => ({ T1: { lot: 'T1', crop: 'leaf', sown: date, seeds: 300, plants } });
    const house = [empty('N1', { bay: 'nursery', berth: 'N1' }), empty('N2', { bay: 'nursery', berth: 'N2' })];
    const needsOf = (trays: GreenhouseState['trays'], underWay = new Map<string, number>()) => transplantNeeds([], stateOf(house, trays), FILE, DAY, new Set(), [], new Map(), underWay);
    // 100 plants/m2 x 2 m2: 200 a basin; five days in trays.
    const { needs } = needsOf(sown('2026-03-05'));
    expect(needs.map(({ basin: id, kind, urgency }) => `${id} ${kind} ${urgency}`)).toEqual(['N1 filling must', 'N1 transplanting must', 'N2 filling must', 'N2 transplanting must']);
    expect(needs[0]!.move).toEqual({ lot: 'T1', crop: 'leaf', sown: '2026-03-05', stage: 'nursery', plants: 250, targets: [{ basin: 'N1', plants: 200, toBerth: 'N1' }, { basin: 'N2', plants: 50, toBerth: 'N2' }] });
    expect(needsOf(sown('2026-03-03')).needs[0]!.reason).toBe('250 seedlings of T1, sown 2026-03-03, should have left their trays 2 days ago: N1 takes 200');
    expect(needsOf(sown('2026-03-06')).needs).toEqual([]);
    expect(needsOf(sown('2026-03-05'), new Map([['T1', 200]])).needs[0]!.move!.plants).toBe(50);
    expect(needsOf(sown('2026-03-05', 500))).toEqual({ needs: [], withoutPlace: [{ lot: 'T1', reason: '500 plants need more basins in a nursery bay, and only 2 are empty and clean' }] });
  });
  it('says so when there is no place, and moves nothing before its time', () => {
    const { needs, withoutPlace } = transplantNeeds([lotView([nursery], 0)], stateOf([nursery, empty('B1')]), FILE, DAY, new Set());
    expect(needs).toEqual([]);
    expect(withoutPlace[0]!.reason).toBe('120 plants need more basins in a glass bay, and only 1 is empty and clean');
    expect(transplantNeeds([lotView([nursery], 0, { stageEnds: '2026-03-11' })], stateOf([nursery, empty('B1')]), FILE, DAY, new Set()).needs).toEqual([]);
    expect(transplantNeeds([lotView([nursery], 1)], stateOf([nursery]), FILE, DAY, new Set())).toEqual({ needs: [], withoutPlace: [] });
  });
});

describe('harvestNeeds', () => {
  const stands = ['B1', 'B2', 'B3'].map((id) => basin(id));
  const expectation = (freshG: number, readyShare: number, lot = 'L1'): LotExpectation => ({
    view: lotView(stands, 1, { lot }), refusals: [],
    forecast: { dates: [{ date: '2026-03-10', freshG: { p05: 0, p25: 0, p50: freshG, p75: 0, p95: 0 }, readyShare }] },
  } as unknown as LotExpectation);
  const supply: LotSupply = { lot: 'L1', crop: 'leaf', sown: '2026-01-20', unitsOn: () => 120, unitsPerPlant: () => 0.8 };
  const line = (order: string, openUnits: number, leaves: string): OpenLine => ({ key: `${order}/1`, card: CARD, openUnits, leaves, line: { order, line: 1, customer: 'Inn', crop: 'leaf', units: openUnits, due: leaves } });
  const needs = (lot: LotExpectation, lines: readonly OpenLine[]) => harvestNeeds([lot], new Map([['L1', supply]]), lines, DAY);

  it('opens basin after basin for what leaves today and tomorrow: 40 heads in each', () => {
    const found = needs(expectation(180, 0.9), [line('A', 50, '2026-03-10'), line('B', 25, '2026-03-11')]);
    expect(found.map(({ basin: id, urgency }) => `${id} ${urgency}`)).toEqual(['B1 must', 'B2 must', 'B3 may']);
    expect(found[0]!.harvest!.orders).toEqual([{ order: 'A', line: 1, units: 40 }]);
    expect(found[1]!.harvest!.orders).toEqual([{ order: 'A', line: 1, units: 10 }, { order: 'B', line: 1, units: 25 }]);
    expect(found[1]!.endByMs).toBe(DAY.pickMs);
    expect(found[1]!.reason).toBe('L1 weighs 180 g a plant, 90 % ready; 35 heads for 2 order lines leaving 2026-03-10 and 2026-03-11');
  });
  it('cuts for tomorrow without today\'s hurry, opens nothing for later, and gives later lines what is over', () => {
    expect(needs(expectation(180, 0.9), [line('A', 10, '2026-03-11')])[0]).toMatchObject({ urgency: 'should', dueDate: '2026-03-11' });
    expect(needs(expectation(180, 0.9), [line('A', 10, '2026-03-12')]).every(({ urgency }) => urgency === 'may')).toBe(true);
    expect(needs(expectation(180, 0.9), [line('A', 10, '2026-03-11'), line('B', 10, '2026-03-12'), line('C', 10, '2026-03-13')])[0]!.harvest!.orders.map(({ order }) => order)).toEqual(['A', 'B']);
  });
  it('cuts what is nearly ready only for what leaves today, and what is overgrown in any case', () => {
    expect(needs(expectation(140, 0.6), [line('A', 10, '2026-03-11')])).toEqual([]);
    expect(needs(expectation(140, 0.6), [line('A', 10, '2026-03-10')])).toHaveLength(1);
    expect(needs(expectation(140, 0.3), [line('A', 10, '2026-03-10')])).toEqual([]);
    expect(needs(expectation(350, 1), [])).toMatchObject([{ urgency: 'must', reason: 'L1 weighs 350 g a plant, 100 % ready, above 330 g; no order waits for it' }, { urgency: 'must' }, { urgency: 'must' }]);
  });
});
