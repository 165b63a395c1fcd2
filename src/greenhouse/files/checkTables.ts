import type { Refusal } from '../../science/refusal.ts';
import { basinAreaM2 } from '../basinGeometry.ts';
import { basinsOf } from '../basinsOf.ts';
import { compositionOfAnalysis } from '../compositionOfAnalysis.ts';
import { findingsIn } from './findings.ts';
import type { ReadFolder } from './greenhouseFolder.ts';

/** Whether tables name what is described, and say nothing twice or against each other. */
export function checkTables(read: ReadFolder): Refusal[] {
  return [...checkLots(read), ...checkSowings(read), ...checkOrders(read), ...checkPlaces(read), ...checkSamples(read), ...checkAnalyses(read)];
}

/** A density this much above its stage's is worth a word. */
const CROWDED = 1.15;

function checkLots({ lots = [], crops, greenhouse }: ReadFolder): Refusal[] {
  const { found, refuse, warn, mustBeKnown, mustDiffer } = findingsIn('lots.csv');
  mustDiffer(lots, (row) => row.value.basin, 'basin', (row) => row.placeOf('basin'));
  const cropOfLot = new Map<string, string>();
  const basins = new Map((greenhouse === undefined ? [] : basinsOf(greenhouse.value)).map((basin) => [basin.id, basin]));
  const names = [...basins.keys()];
  for (const { value, placeOf } of lots) {
    const card = crops.find((crop) => crop.value.id === value.crop)?.value;
    if (crops.length > 0) mustBeKnown(value.crop, crops.map((crop) => crop.value.id), 'crop', placeOf('crop'));
    if (names.length > 0) mustBeKnown(value.basin, names, 'basin', placeOf('basin'));
    const stage = card?.stages.find((each) => each.id === value.stage);
    if (card !== undefined && stage === undefined) mustBeKnown(value.stage, card.stages.map((each) => each.id), `stage of ${card.id}`, placeOf('stage'));
    if (value.sown > value.placed) refuse('inconsistent', placeOf('sown'), `Lot ${value.lot} was placed on ${value.placed}, before it was sown on ${value.sown}.`, { value: value.sown, limit: value.placed });
    const before = cropOfLot.get(value.lot);
    if (before !== undefined && before !== value.crop) refuse('inconsistent', placeOf('crop'), `Lot ${value.lot} is '${before}' in another row; one lot is one crop.`, { value: value.crop, limit: before });
    cropOfLot.set(value.lot, before ?? value.crop);
    const basin = basins.get(value.basin);
    if (basin === undefined || stage === undefined) continue;
    const perM2 = value.plants / basinAreaM2(basin.type);
    if (perM2 > stage.plantsPerM2 * CROWDED) warn('inconsistent', placeOf('plants'), `${value.plants} plants in basin ${value.basin} are ${perM2.toFixed(0)}/m2; stage '${stage.id}' plans ${stage.plantsPerM2}/m2.`, { value: Math.round(perM2), limit: stage.plantsPerM2, unit: '/m2' });
  }
  return found;
}

function checkSowings({ sowings = [], lots = [], crops }: ReadFolder): Refusal[] {
  const { found, refuse, warn, mustBeKnown, mustDiffer } = findingsIn('sowings.csv');
  mustDiffer(sowings, (row) => row.value.lot, 'lot', (row) => row.placeOf('lot'));
  const standing = new Map(lots.map(({ value }) => [value.lot, value]));
  for (const { value, placeOf } of sowings) {
    if (crops.length > 0) mustBeKnown(value.crop, crops.map((crop) => crop.value.id), 'crop', placeOf('crop'));
    if (value.plants > value.seeds) refuse('inconsistent', placeOf('plants'), `${value.seeds} seeds of lot ${value.lot} cannot give ${value.plants} seedlings.`, { value: value.plants, limit: value.seeds });
    const inBasin = standing.get(value.lot);
    if (inBasin !== undefined) warn('inconsistent', placeOf('lot'), `Lot ${value.lot} stands in basin ${inBasin.basin} by lots.csv, so it has left its trays: this row is not counted.`, { value: value.lot });
  }
  return found;
}

function checkOrders({ orders = [], crops }: ReadFolder): Refusal[] {
  const { found, mustBeKnown, mustDiffer } = findingsIn('orders.csv');
  mustDiffer(orders, (row) => `${row.value.order}/${row.value.line}`, 'order line', (row) => row.placeOf('line'));
  if (crops.length > 0) for (const { value, placeOf } of orders) mustBeKnown(value.crop, crops.map((crop) => crop.value.id), 'crop', placeOf('crop'));
  return found;
}

/** What each quantity can be at all: beyond this the instrument or the unit is wrong, not the basin. */
const POSSIBLE: Readonly<Record<string, readonly [low: number, high: number, unit: string]>> = {
  ecMsPerCm25: [0, 30, 'mS/cm'], pH: [0, 14, '[pH]'], levelMm: [0, 2000, 'mm'], volumeL: [0, 1e7, 'L'], waterC: [-5, 60, 'Cel'],
  airC: [-40, 70, 'Cel'], rhPct: [0, 100, '%'], co2Ppm: [0, 10_000, '[ppm]'], ppfdUmolM2S: [0, 3000, 'umol/(m2.s)'], globalWm2: [0, 1500, 'W/m2'],
};

function checkPlaces({ readings = [], greenhouse }: ReadFolder): Refusal[] {
  const { found, refuse, mustBeKnown } = findingsIn('readings.csv');
  const known = placesOf(greenhouse);
  for (const { value, placeOf } of readings) {
    if (greenhouse !== undefined && !known.has(value.place)) mustBeKnown(value.place, [...known], 'place', placeOf('place'));
    const [low, high, unit] = POSSIBLE[value.quantity]!;
    if (value.value < low || value.value > high) refuse('value-out-of-range', placeOf('value'), `${value.quantity} cannot be ${value.value} ${unit}; ${low} to ${high} is possible.`, { value: value.value, limit: `${low} to ${high}`, unit });
    if (found.length > 200) break;
  }
  return found;
}

function placesOf(greenhouse: ReadFolder['greenhouse']): Set<string> {
  if (greenhouse === undefined) return new Set();
  const { bays, sources } = greenhouse.value;
  return new Set(['outdoor', ...bays.map((bay) => `bay:${bay.id}`), ...sources.map((source) => `tank:${source.id}`), ...basinsOf(greenhouse.value).map((basin) => `basin:${basin.id}`)]);
}

function checkSamples({ samples = [] }: ReadFolder): Refusal[] {
  const { found, refuse, mustDiffer } = findingsIn('samples.csv');
  mustDiffer(samples, ({ value }) => `${value.date} ${value.lot} ${value.basin ?? ''} plant ${value.plant}`, 'sample', (row) => row.placeOf('plant'));
  for (const { value, placeOf } of samples) {
    if (value.dryG !== undefined && value.dryG >= value.freshG) refuse('inconsistent', placeOf('dryG'), `A plant of ${value.freshG} g fresh cannot weigh ${value.dryG} g dry.`, { value: value.dryG, limit: value.freshG, unit: 'g' });
  }
  return found;
}

/** Laboratory analyses balance within 5 %; beyond this one an ion is missing or in another unit (common practice, no source). */
const BALANCE_PCT = 10;

function checkAnalyses({ analyses = [], greenhouse }: ReadFolder): Refusal[] {
  const { found, warn, mustBeKnown, mustDiffer } = findingsIn('water-analyses.csv');
  mustDiffer(analyses, (row) => row.value.analysis, 'analysis', (row) => row.placeOf('analysis'));
  const known = placesOf(greenhouse);
  for (const { value, placeOf } of analyses) {
    if (greenhouse !== undefined && !known.has(value.place)) mustBeKnown(value.place, [...known], 'place', placeOf('place'));
    const pct = compositionOfAnalysis(value).chargeErrorPct;
    if (pct !== undefined && Math.abs(pct) > BALANCE_PCT) warn('inconsistent', placeOf('analysis'), `Cations and anions of analysis ${value.analysis} differ by ${pct.toFixed(0)} %; an ion is missing or stands in another unit.`, { value: Number(pct.toFixed(1)), limit: BALANCE_PCT, unit: '%' });
  }
  return found;
}
