import { describe, expect, it } from 'vitest';
import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { BasinType, GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { BasinState, Floor, GreenhouseState } from '../../greenhouse/state.ts';
import type { ShiftDay } from '../day/shiftDay.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import type { BasinView } from '../needs/basinView.ts';
import { weekLoads } from './weekLoads.ts';

/** An invented house: 2 m2 basins of 400 L, one imaging place and one filling place, 100 minutes of shift less 10 of break. */
const TYPE: BasinType = { id: 'small', lengthMm: 2000, widthMm: 1000, depthMm: 200, emptyKg: 50, rafts: 4, raftKg: 1.5, levelMinShare: 0.8, raftGapMm: 10, rimAboveRaftsMm: 60 };
const station = (id: string, kind: string, fixedS: number, more = {}) => ({ id, title: id, kind, node: 'S', places: 1, queuePlaces: 1, crew: 1, service: { fixedS, perPlantS: 0, ...more } });
const FILE = {
  imagingEveryDays: 7, washAfterHarvest: true, bays: [{ id: 'glass', kind: 'glass' }],
  stations: [station('I1', 'imaging', 30 * 60), station('F1', 'filling', 0, { flowLPerMin: 10 }), station('H1', 'harvest', 1200), station('W1', 'washing', 600)],
  vehicles: [{ id: 'V', title: 'V', home: 'S', speedEmptyMS: 1, speedLoadedMS: 0.5, pickS: 10, dropS: 10, maximumLoadKg: 1000 }],
} as unknown as GreenhouseFile;
/** 60 m between station and berths: 60 s empty + 120 s loaded + 20 s: 200 s a trip. */
const FLOOR = { nodes: { S: {}, B: {} }, edges: [{ from: 'S', to: 'B', oneWay: false, lengthM: 60 }], berths: [{ id: 'B', node: 'B', bay: 'glass' }] } as unknown as Floor;
const CARD = { id: 'leaf', soldBy: 'head', plantsPerUnit: 1, handling: { imagingEveryDays: 7 }, stages: [{ id: 'finish', title: 'Finishing', bay: 'glass', plantsPerM2: 25 }], harvest: { readyFreshG: 150, readyShare: 0.8, latestFreshG: 330, lossShare: 0, keepsDays: 2 }, cultivar: 'none', kind: 'leafy', growth: { model: 'two-state-lettuce', parameters: {}, seedlingDryMg: 1, seedlingSpread: 0.1 } } as unknown as CropCard;
const DAY_MS = 86_400_000;
const at = (clock: string) => Date.parse(`2026-03-10T${clock}:00Z`);
const DAY: ShiftDay = { date: '2026-03-10', timeZone: 'UTC', atMs: at('05:00'), startMs: at('06:00'), endMs: at('07:40'), pickMs: at('12:00'), breaks: [{ fromMs: at('06:30'), toMs: at('06:40') }] };

function planted(id: string, imagedAt: string, more: { litresPerDay?: number; known?: boolean } = {}): BasinView {
  const basin: BasinState = { id, type: TYPE, bay: 'glass', berth: 'B', planting: { lot: 'L', crop: 'leaf', basin: id, stage: 'finish', sown: '2026-01-20', placed: '2026-02-20', plants: 50 }, filled: undefined, imagedAt, scans: [], washedAt: undefined, needsWash: false };
  const solution = { volumeL: 400, transpirationFactor: 1, uptakeFactor: 1, mmolPerL: {}, strengthSdShare: 0, ecMsPerCm25: 1, pH: 6, exhausted: [] };
  return { basin, card: { ...CARD, water: { target: { mmolPerL: {}, umolPerL: {} }, ecMsPerCm25: [0, 9], pH: [1, 12], tolerance: 1, traceTolerance: 1, sodiumMaxMmolPerL: 9, chlorideMaxMmolPerL: 9 } } as unknown as CropCard, lot: undefined,
    water: (more.known === false ? { known: false, reason: 'none', flags: [] } : { known: true, solution }) as unknown as BasinView['water'], litresBetween: (from, to) => ((more.litresPerDay ?? 0) * (to - from)) / DAY_MS };
}
const week = (basins: readonly BasinView[], lots: readonly LotExpectation[] = [], state: Partial<GreenhouseState> = {}) =>
  weekLoads({ state: { orders: {}, delivered: {}, decisions: [], trays: {}, crops: { leaf: CARD }, ...state } as GreenhouseState, file: FILE, floor: FLOOR, day: DAY, lots, basins, today: [], todayVehicleMin: 12 });
const row = (of: ReturnType<typeof week>, id: string) => of.resources.find((each) => each.id === id)!;

describe('weekLoads', () => {
  it('counts the empty basins that take seedlings out of their trays on the day on which they are due', () => {
    const empty = (id: string): BasinView => { const view = planted(id, '2026-03-09T10:00:00Z', { known: false }); return { ...view, basin: { ...view.basin, planting: undefined } }; };
    const card = { ...CARD, sowing: { trayDays: 5 } } as unknown as CropCard;
    const trays = { T1: { lot: 'T1', crop: 'leaf', sown: '2026-03-08', seeds: 100, plants: 80 } };
    const seen = week([empty('B1'), empty('B2'), empty('B3')], [], { crops: { leaf: card }, trays });
    // Sown on the 8th, five days in trays; 80 seedlings at 50 a basin.
    expect(seen.visits).toMatchObject([{ basin: 'B1', kinds: ['filling', 'transplanting'], date: '2026-03-13', latest: '2026-03-15', why: 'a basin takes 50 seedlings of T1 from their trays' }, { basin: 'B2', why: 'a basin takes 30 seedlings of T1 from their trays' }]);
  });

  // Imaging has 90 min, three basins a day; five basins are due on 13 March, each within two days.
  const five = ['B1', 'B2', 'B3', 'B4', 'B5'].map((id) => planted(id, '2026-03-06T10:00:00Z', { known: false }));

  it('finds the day on which imaging overruns, and moves as many visits as it must to days of their windows', () => {
    const seen = week(five);
    expect(row(seen, 'imaging').capacityMin.slice(0, 2)).toEqual([90, 90]);
    expect(row(seen, 'imaging').loadMin).toEqual([0, 0, 0, 150, 0, 0, 0, 0, 0, 0, 150, 0, 0, 0]);
    // The emptiest day of 11 to 15 March, the earlier of equals: B1 to the 11th, B2 to the 12th.
    expect(seen.visits.filter(({ to, date }) => to !== undefined && date === '2026-03-13')).toMatchObject([{ basin: 'B1', earliest: '2026-03-11', latest: '2026-03-15', to: '2026-03-11' }, { basin: 'B2', to: '2026-03-12' }]);
    expect(seen.overruns.find(({ resource }) => resource === 'imaging')!.sentence).toBe('Imaging stations on 2026-03-13 need 150 min and have 90: moving B1 to 2026-03-11 and B2 to 2026-03-12 brings them within the shift.');
    expect(row(seen, 'imaging').levelledMin.slice(0, 6)).toEqual([0, 30, 30, 90, 0, 0]);
    expect(seen.sentence).toBe('10 visits expected in 14 days; 2 days ask for more than the shift has; moving 4 visits within their windows brings all of them within the shift.');
  });

  it('says how much stays over when the windows have no room', () => {
    const many = Array.from({ length: 17 }, (_, i) => planted(`C${String(i).padStart(2, '0')}`, '2026-03-06T10:00:00Z', { known: false }));
    const over = week(many).overruns.find(({ resource, date }) => resource === 'imaging' && date === '2026-03-13')!;
    // 5 days x 3 places take 15 of 17.
    expect(over).toMatchObject({ loadMin: 510, capacityMin: 90, staysOverMin: 60 });
    expect(over.sentence).toContain('helps, but 60 min stay over.');
  });

  it('counts trips of the mean way, loaded and empty, and the crew by people at the places', () => {
    const seen = week([planted('B1', '2026-03-06T10:00:00Z', { known: false })]);
    expect(row(seen, 'vehicles').loadMin[3]).toBeCloseTo((2 * 200) / 60, 1);
    expect([row(seen, 'vehicles').loadMin[0], row(seen, 'vehicles').capacityMin[1]]).toEqual([12, 100]);
    expect([row(seen, 'crew').loadMin[3], row(seen, 'crew').capacityMin[1]]).toEqual([30, 360]);
  });

  it('refills before the level is too low, on the visit that takes the basin out anyway', () => {
    // 10 L a day from 400 L: below 320 L at the end of 18 March (8 days and 160 minutes), nearest image on 17 March.
    const [image, both] = week([planted('B1', '2026-03-03T10:00:00Z', { litresPerDay: 10 })]).visits;
    expect(image).toMatchObject({ date: '2026-03-11', kinds: ['imaging'] });
    expect(both).toMatchObject({ kinds: ['imaging', 'filling'], date: '2026-03-18', earliest: '2026-03-16', latest: '2026-03-18' });
  });

  it('moves plants on with the basins that take them as one, and images those by their interval', () => {
    const from = planted('B1', '2026-03-09T10:00:00Z', { known: false });
    const card = { ...CARD, stages: [{ id: 'finish', title: 'Nursery', bay: 'glass', plantsPerM2: 25 }, { id: 'next', title: 'Next', bay: 'glass', plantsPerM2: 15 }] };
    const lot = { view: { lot: 'L', card, stage: card.stages[0], stageIndex: 0, stageEnds: '2026-03-12' } } as unknown as LotExpectation;
    const seen = week([{ ...from, lot }]);
    // 50 plants at 15/m2 x 2 m2: basins of 30 and 20.
    expect(seen.visits.map(({ date, kinds }) => `${date} ${kinds.join(' ')}`)).toEqual(['2026-03-12 transplanting washing', '2026-03-12 filling transplanting', '2026-03-12 filling transplanting', '2026-03-19 imaging', '2026-03-19 imaging']);
    expect(seen.visits[0]).toMatchObject({ earliest: '2026-03-12', latest: '2026-03-14' });
    expect(seen.sentence).toContain('Fullest after today: filling stations on 2026-03-12, 89 % of the shift.');
  });

  it('cuts for an order on the day it leaves, or earlier as far as the crop keeps, and washes', () => {
    const view = planted('B1', '2026-03-09T10:00:00Z', { known: false });
    const quantiles = (g: number) => ({ p05: g, p25: g, p50: g, p75: g, p95: g });
    const lot = {
      view: { lot: 'L', card: CARD, basins: [view.basin], sown: '2026-01-20', stageIndex: 0, densities: [{ date: '2026-02-20', plantsPerM2: 25 }], plants: 50 }, input: { at: '2026-03-10' }, refusals: [],
      forecast: { basis: { plantLogSd: 0.01 }, dates: Array.from({ length: 30 }, (_, i) => ({ date: new Date(at('00:00') + i * DAY_MS).toISOString().slice(0, 10), freshG: quantiles(200), readyShare: 1 })) },
    } as unknown as LotExpectation;
    const order = { order: 'A', line: 1, customer: 'Inn', crop: 'leaf', units: 30, due: '2026-03-16' };
    const seen = week([view], [lot], { orders: { 'A/1': order } } as unknown as Partial<GreenhouseState>);
    expect(seen.visits).toMatchObject([{ basin: 'B1', kinds: ['harvest', 'washing'], date: '2026-03-16', earliest: '2026-03-14', latest: '2026-03-16', why: 'L for A/1, leaves 2026-03-16' }]);
    // Past its best on the 15th: it is cut the day before and keeps for the order; past it on the 13th it cannot.
    const heavyFrom = (date: string) => ({ ...lot, forecast: { ...lot.forecast, dates: lot.forecast!.dates.map((day) => (day.date < date ? day : { ...day, freshG: quantiles(340) })) } } as LotExpectation);
    const cut = (date: string) => week([view], [heavyFrom(date)], { orders: { 'A/1': order } } as unknown as Partial<GreenhouseState>).visits;
    expect(cut('2026-03-15')).toMatchObject([{ date: '2026-03-14', latest: '2026-03-14', why: 'L for A/1, leaves 2026-03-16' }]);
    expect(cut('2026-03-13')).toMatchObject([{ date: '2026-03-12', why: 'L passes 330 g on 2026-03-13; no order waits for it' }]);
  });
});
