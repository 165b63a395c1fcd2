import { addWater, NO_WATER, type WaterAmount, type WaterFlow } from '../../greenhouse/waterBook.ts';
import type { SourceDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import type { Component, Composition } from '../../science/chemistry/composition.ts';
import { expectedLossL, type BasinView } from '../needs/basinView.ts';
import { uptakeComposition } from './feedLimits.ts';
import type { SaltCircuit } from './projectSalts.ts';
import type { TankState } from './tankState.ts';

export interface CircuitQuestion {
  readonly basins: readonly BasinView[];
  readonly tanks: readonly { readonly source: SourceDescription; readonly state: TankState }[];
  /** Flows on record, and those of today as planned. */
  readonly recorded: readonly WaterFlow[];
  readonly today: readonly WaterFlow[];
  readonly atMs: number;
}

/** Means of a day of everything that moves, and what stands in basins and tanks. */
export interface DayCircuit {
  readonly of: (name: Component) => SaltCircuit;
  /** Days on record that the flows are means of; absent where today's plan stands for every day. */
  readonly days: number | undefined;
}

/** The flows on record are used once they cover so many days, and no more than so many of them (common practice, no source). */
const LEAST_DAYS = 7;
const MOST_DAYS = 28;
const AHEAD_DAYS = 7;
const DAY_MS = 86_400_000;
/** Spent solution against the mean of the basins: beyond these it is a single odd batch. */
const SPENT_FACTOR: readonly [number, number] = [0.5, 3];

/** How water goes round: from the record where it is long enough, else from today's plan; transpiration of the coming week. */
export function saltCircuit(question: CircuitQuestion): DayCircuit {
  const { basins, tanks, atMs } = question;
  const { flows, days } = flowsOfADay(question);
  const sum = (of: (flow: WaterFlow) => boolean): WaterAmount => flows.filter(of).reduce((total, flow) => addWater(total, flow), NO_WATER);
  const returns = new Set(tanks.map(({ source }) => `tank:${source.id}`));
  const isDraw = ({ from, to }: WaterFlow) => from.startsWith('tank:') && to.startsWith('basin:');
  const makeUp = sum((flow) => isDraw(flow) && !returns.has(flow.from));
  const spent = sum(({ from, to }) => from.startsWith('basin:') && (to === 'discharge' || to.startsWith('tank:')));
  const standing = basins.reduce((total, { water }) => (water.known ? addWater(total, { litres: 1, mmol: water.solution.mmolPerL }, water.solution.volumeL) : total), NO_WATER);
  const absorbed = basins.reduce((total, view) => addWater(total, absorbedPerDay(view, atMs)), NO_WATER);
  const concentration = (is: WaterAmount, name: Component): number => (is.litres > 1e-6 ? (is.mmol[name] ?? 0) / is.litres : 0);
  const spentFactor = (name: Component): number => {
    const mean = concentration(standing, name);
    return spent.litres > 1e-6 && mean > 1e-9 ? Math.min(SPENT_FACTOR[1], Math.max(SPENT_FACTOR[0], concentration(spent, name) / mean)) : 1;
  };
  return {
    days,
    of: (name) => ({
      basinsL: standing.litres, basinsMmolPerL: concentration(standing, name), absorbedLPerDay: absorbed.litres, uptakeMmolPerL: concentration(absorbed, name),
      dischargedLPerDay: sum(({ from, to }) => from.startsWith('basin:') && to === 'discharge').litres / (days ?? 1), makeUpMmolPerL: concentration(makeUp, name), spentFactor: spentFactor(name),
      tanks: tanks.map(({ source, state }) => ({
        volumeL: state.volumeL, capacityL: source.capacityL, mmolPerL: state.mmolPerL?.[name] ?? 0,
        returnedLPerDay: sum(({ to }) => to === `tank:${source.id}`).litres / (days ?? 1), drawnLPerDay: sum((flow) => isDraw(flow) && flow.from === `tank:${source.id}`).litres / (days ?? 1),
      })),
    }),
  };
}

function flowsOfADay({ recorded, today, atMs }: CircuitQuestion): { flows: readonly WaterFlow[]; days: number | undefined } {
  const recent = recorded.filter(({ at, from }) => from !== 'found' && Date.parse(at) > atMs - MOST_DAYS * DAY_MS && Date.parse(at) <= atMs);
  const firstMs = recent.reduce((first, { at }) => Math.min(first, Date.parse(at)), atMs);
  const days = (atMs - firstMs) / DAY_MS;
  return days < LEAST_DAYS ? { flows: today, days: undefined } : { flows: recent, days };
}

function absorbedPerDay(view: BasinView, atMs: number): WaterAmount {
  if (view.card === undefined || !view.water.known || view.basin.planting === undefined) return NO_WATER;
  const uptake: Composition = uptakeComposition(view.card);
  return addWater(NO_WATER, { litres: 1, mmol: uptake }, expectedLossL(view, atMs, atMs + AHEAD_DAYS * DAY_MS) / AHEAD_DAYS);
}
