import { beforeAll, describe, expect, it } from 'vitest';
import type { OrderLine } from '../../src/greenhouse/schema/tableRows.ts';
import type { GreenhouseState } from '../../src/greenhouse/state.ts';
import type { ActionCandidate, LotActions } from '../../src/planning/actions/lotActions.ts';
import { fillOrders, tabulateUnits } from '../../src/planning/actions/fillOrders.ts';
import { planActions } from '../../src/planning/actions/planActions.ts';
import { simulateBays, type BayClimates } from '../../src/planning/climate/bayClimates.ts';
import { addDays, clockMs, shiftDay } from '../../src/planning/day/shiftDay.ts';
import { forecastLots, type LotExpectation } from '../../src/planning/lots/forecastLots.ts';
import { viewLots } from '../../src/planning/lots/lotViews.ts';
import { lotSupply } from '../../src/planning/orders/lotSupply.ts';
import { openLines, outlookOrders } from '../../src/planning/orders/outlookOrders.ts';
import { readingsByPlace } from '../../src/planning/planMorning.ts';
import { DEMO_AT, DEMO_DATE, demoFolder } from './demoFolder.ts';

const FUTURES = 60;
const SEED = 3;
const { state: demo, readings } = demoFolder();
const file = demo.file!;
let climates: BayClimates;

/** Oakleaf at the end of its last stage, not yet heavy enough; and a butterhead that is ready and more. */
const LATE = 'OL-261014';
const READY = 'BH-261009';

beforeAll(() => {
  const day = shiftDay(file, DEMO_AT);
  const span = { fromMs: day.atMs - 60 * 86_400_000, atMs: day.atMs, toMs: clockMs(addDays(day.date, 63), '12:00', day.timeZone) };
  const outcome = simulateBays(demo, file, readingsByPlace(readings, day.atMs), span);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  climates = outcome.value;
});

interface House { readonly state: GreenhouseState; readonly lots: readonly LotExpectation[] }

/** The demonstration greenhouse with one lot only, its orders, and a card changed for the case. */
function houseOf(lot: string, orders: readonly Partial<OrderLine>[], latestFreshG?: number): House {
  const crop = Object.values(demo.basins).find(({ planting }) => planting?.lot === lot)!.planting!.crop;
  const card = demo.crops[crop]!;
  const changed = latestFreshG === undefined ? card : { ...card, harvest: { ...card.harvest, latestFreshG } };
  const lines = orders.map((order, i): OrderLine => ({ order: `T${i}`, line: 1, customer: 'Test', crop, units: 100, due: DEMO_DATE, ...order }));
  const state: GreenhouseState = {
    ...demo, crops: { ...demo.crops, [crop]: changed }, delivered: {}, orders: Object.fromEntries(lines.map((line) => [`${line.order}/1`, line])),
    basins: Object.fromEntries(Object.entries(demo.basins).map(([id, basin]) => [id, basin.planting === undefined || basin.planting.lot === lot ? basin : { ...basin, planting: undefined }])),
  };
  return { state, lots: forecastLots(viewLots(state, climates), state, climates, { date: DEMO_DATE, seed: SEED, members: FUTURES }) };
}

function actionsOf({ state, lots }: House, forced?: 'at risk'): LotActions | undefined {
  const supplies = new Map(lots.map((lot) => [lot.view.lot, lotSupply(lot, SEED, FUTURES)!]));
  const orders = outlookOrders(state, DEMO_DATE, [...supplies.values()], FUTURES, 'orders').map((order) => (forced === undefined ? order : { ...order, status: forced }));
  return planActions({ state, file, date: DEMO_DATE, climates, lots, basins: [], supplies, orders, seed: SEED, futures: FUTURES }).lots[0];
}

const find = (actions: LotActions, action: ActionCandidate['action']): ActionCandidate => {
  const found = actions.candidates.find((is) => is.action === action);
  if (found === undefined) throw new Error(`${action} is not among ${actions.candidates.map((is) => is.action).join(', ')}; ${JSON.stringify(actions.notPossible)}`);
  return found;
};

describe('a lot that is late for its order', () => {
  let house: House;
  let actions: LotActions;
  beforeAll(() => {
    house = houseOf(LATE, [{ units: 240, due: addDays(DEMO_DATE, 8) }]);
    actions = actionsOf(house)!;
  });

  it('is named with its reason, and every candidate has its figures', () => {
    expect(actions.reasons.join(' ')).toMatch(/Behind: 1 order line at risk waits for it/);
    expect(JSON.stringify(actions)).not.toMatch(/:null|NaN|Infinity/);
    for (const { gain, costs, unitsOn, chanceBetter } of actions.candidates) {
      for (const { low, middle, high } of [gain, unitsOn.units, ...Object.values(costs)]) expect(low <= middle && middle <= high).toBe(true);
      expect(chanceBetter >= 0 && chanceBetter <= 1).toBe(true);
    }
  });

  it('gets faster, heavier and surer with more light, at the price of its electricity; faster still with more', () => {
    const [none, more] = [find(actions, 'none'), find(actions, 'more-light')];
    console.log(`more light: ${JSON.stringify(more.daysSooner)} days sooner, chance ${more.orders[0]!.chance} instead of ${none.orders[0]!.chance}, ${more.electricityKWh.middle} kWh`);
    expect(more.daysSooner!.middle).toBeGreaterThanOrEqual(1);
    expect(more.daysSooner!.low).toBeGreaterThanOrEqual(0);
    expect(more.unitsOn.units.middle).toBeGreaterThan(none.unitsOn.units.middle);
    expect(more.orders[0]!.chance).toBeGreaterThanOrEqual(none.orders[0]!.chance);
    expect(more.costs.shortage.middle).toBeLessThanOrEqual(0);
    expect(more.costs.electricity.middle).toBeCloseTo(more.electricityKWh.middle * file.prices.electricityPerKWh, 0);
    expect(more.kgCo2e.middle).toBeCloseTo(more.electricityKWh.middle * file.prices.electricityKgCo2ePerKWh, 0);
    const most = actions.candidates.find(({ action }) => action === 'most-light');
    if (most !== undefined) expect(most.unitsOn.units.middle).toBeGreaterThanOrEqual(more.unitsOn.units.middle);
  });

  it('grows faster and has fewer plants when thinned', () => {
    const thin = find(actions, 'thin');
    expect(thin.daysSooner!.middle).toBeGreaterThanOrEqual(1);
    expect(thin.unitsOn.units.high).toBeLessThan(find(actions, 'none').unitsOn.units.high);
  });

  it('leaves all of the order short when it is discarded, and frees its basins', () => {
    const discard = find(actions, 'discard');
    expect(discard.orders[0]!.chance).toBe(0);
    expect(discard.meanGain).toBeLessThan(0);
    expect(discard.costs.basins.high).toBeLessThan(0);
    expect(discard.unitsOn.units.high).toBe(0);
  });

  it('is ranked by expected gain, and the gain is the sum of what is saved', () => {
    const gains = actions.candidates.map(({ meanGain }) => meanGain);
    expect([...gains].sort((a, b) => b - a)).toEqual(gains);
    expect(find(actions, 'none')).toMatchObject({ meanGain: 0, chanceBetter: 0 });
  });

  it('is the same bit for bit when it is asked again', () => {
    expect(JSON.stringify(actionsOf(house))).toBe(JSON.stringify(actions));
  });

  it('knows nothing of nitrogen, and says so where nobody knows the water', () => {
    expect(actions.notPossible.map(({ title }) => title)).toContain('More nitrogen or other conductivity');
  });
});

describe('a lot that is ahead', () => {
  it('loses nothing by an earlier harvest for an order of tomorrow, and frees its basins sooner', () => {
    const actions = actionsOf(houseOf(READY, [{ units: 100, due: addDays(DEMO_DATE, 1) }], 262))!;
    expect(actions.reasons.join(' ')).toMatch(/Ahead: by 2026-11-\d\d its mean plant passes 262 g/);
    const early = find(actions, 'cut-early');
    console.log(`cut early: gain ${JSON.stringify(early.gain)}, basins ${JSON.stringify(early.costs.basins)}`);
    expect(early.costs.shortage).toEqual({ low: 0, middle: 0, high: 0 });
    expect(early.costs.basins.middle).toBeLessThanOrEqual(0);
    expect(early.meanGain).toBeGreaterThanOrEqual(0);
  });

  it('gains by being held where its order leaves after it would have grown too heavy', () => {
    const actions = actionsOf(houseOf(READY, [{ units: 300, due: addDays(DEMO_DATE, 7) }], 262))!;
    const late = find(actions, 'cut-late');
    expect(late.orders.find(({ order }) => order === 'T0')!.chance).toBeGreaterThan(find(actions, 'none').orders.find(({ order }) => order === 'T0')!.chance);
    expect(late.meanGain).toBeGreaterThan(0);
    expect(late.leftOut.join(' ')).toContain('no loss of price is counted');
  });
});

describe('a lot on target', () => {
  const house = (): House => houseOf(READY, [{ units: 50, due: addDays(DEMO_DATE, 1) }]);
  it('is left alone', () => expect(actionsOf(house())).toBeUndefined());
  it('gains nothing by anything that costs: doing nothing is before all of it', () => {
    const actions = actionsOf(houseOf(LATE, [{ units: 60, due: addDays(DEMO_DATE, 9) }, { units: 120, due: addDays(DEMO_DATE, 16) }]), 'at risk')!;
    expect(actions.candidates[0]!.action).toBe('none');
    for (const { look, worth, cost } of actions.looks) expect(worth, look).toBeLessThan(Math.max(cost, 9));
  });
});

describe('serving orders by tables', () => {
  it('gives each line the chance that the orders page shows', () => {
    const house = houseOf(LATE, [{ units: 90, due: addDays(DEMO_DATE, 6) }, { units: 90, due: addDays(DEMO_DATE, 8) }, { units: 90, due: addDays(DEMO_DATE, 9) }]);
    const supplies = house.lots.map((lot) => lotSupply(lot, SEED, FUTURES)!);
    const lines = openLines(house.state, DEMO_DATE);
    const { short } = fillOrders(lines, supplies.map((supply) => tabulateUnits((date, m) => supply.unitsOn(date, m), lines, FUTURES)), 0, FUTURES);
    const outlook = outlookOrders(house.state, DEMO_DATE, supplies, FUTURES, 'orders');
    lines.forEach(({ line }, l) => {
      const filled = short.subarray(l * FUTURES, (l + 1) * FUTURES).filter((units) => units <= 1e-9).length / FUTURES;
      expect(outlook.find(({ order }) => order === line.order)!.chance).toBeCloseTo(filled, 3);
    });
    expect(new Set(outlook.map(({ chance }) => chance)).size).toBeGreaterThan(1);
  });
});
