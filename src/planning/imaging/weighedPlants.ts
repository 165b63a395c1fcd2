import type { ApprovedPlan, GreenhouseEvent } from '../../greenhouse/events.ts';
import type { ScanMeasured } from '../../greenhouse/scanEvents.ts';
import type { SampleRow } from '../../greenhouse/schema/tableRows.ts';
import type { MassPlant, MassSample, WeighedTogether } from '../../science/scan/mass/massSample.ts';
import { scanPlants, type ScanPlant } from './scanPlants.ts';

/** Plants and rafts of plants that were weighed and of which a scan tells the size. */
export interface WeighedPlants { readonly samples: readonly MassSample[]; readonly sums: readonly WeighedTogether[] }

/** What of a plant tells its mass. */
export const MASS_TRAITS = ['areaMm2', 'volumeMm3', 'heightP95Mm'] as const;

/** A scan tells the size of a plant that was cut at most so long after it or before it, days. */
const SAMPLE_DAYS = 1.5;
const HARVEST_DAYS = 2;
/** The last plants and days that are learnt from: the sums grow with the square of the days. */
const MOST_SAMPLES = 600;
const MOST_DAYS = 40;
const DAY_MS = 86_400_000;

/**
 * Joins weights to scans. A sample that names its raft and position is that plant; one that does not counts as a plant of middling size of
 * its basin, so that what plants of a basin differ widens the interval instead of being taken for knowledge. A harvest with its weight counts
 * as the sum of the plants that the last scan saw.
 */
export function weighedPlants(events: readonly GreenhouseEvent[]): WeighedPlants {
  const scans = events.flatMap((event) => (event.kind === 'scan-measured' ? [event.body] : []));
  const rows = events.flatMap((event) => (event.kind === 'sample-taken' ? [event.body.row] : []));
  const samples = rows.flatMap((row) => sampleOf(row, scans));
  const days = [...new Set(samples.map(({ occasion }) => occasion!))].sort().slice(-MOST_DAYS);
  return { samples: samples.filter(({ occasion }) => days.includes(occasion!)).slice(-MOST_SAMPLES), sums: harvestsOf(events, scans).slice(-MOST_DAYS) };
}

function sampleOf(row: SampleRow, scans: readonly ScanMeasured[]): MassSample[] {
  const scan = nearest(scans.filter(({ lot, basin }) => lot === row.lot && (row.basin === undefined || basin === row.basin)), Date.parse(`${row.date}T12:00:00Z`), SAMPLE_DAYS);
  if (scan === undefined || !(row.freshG > 0)) return [];
  const plants = scanPlants(scan).filter(measurable);
  const plant = row.raft === undefined || row.position === undefined ? middling(plants) : plants.find(({ raft, position }) => raft === row.raft && position === row.position);
  return plant === undefined ? [] : [{ ...massPlant(scan, plant), occasion: row.date, massG: row.freshG }];
}

/** The plant whose traits are the medians of all. */
function middling(plants: readonly ScanPlant[]): ScanPlant | undefined {
  if (plants.length === 0) return undefined;
  const median = (trait: (typeof MASS_TRAITS)[number]) => plants.map((plant) => plant[trait]).sort((a, b) => a - b)[plants.length >> 1]!;
  return { ...plants[0]!, areaMm2: median('areaMm2'), volumeMm3: median('volumeMm3'), heightP95Mm: median('heightP95Mm') };
}

const measurable = (plant: ScanPlant): boolean => MASS_TRAITS.every((trait) => plant[trait] > 0);

export const massPlant = ({ crop, ageDays }: Pick<ScanMeasured, 'crop' | 'ageDays'>, { areaMm2, volumeMm3, heightP95Mm }: ScanPlant): MassPlant => ({ cultivar: crop, ageDays, traits: { areaMm2, volumeMm3, heightP95Mm } });

function nearest(scans: readonly ScanMeasured[], atMs: number, withinDays: number): ScanMeasured | undefined {
  const off = ({ takenAt }: ScanMeasured) => Math.abs(Date.parse(takenAt) - atMs);
  const best = scans.reduce<ScanMeasured | undefined>((found, scan) => (found === undefined || off(scan) < off(found) ? scan : found), undefined);
  return best !== undefined && off(best) <= withinDays * DAY_MS ? best : undefined;
}

/** Harvests that were weighed, with the scan that came before them. */
function harvestsOf(events: readonly GreenhouseEvent[], scans: readonly ScanMeasured[]): WeighedTogether[] {
  let plan: ApprovedPlan | undefined;
  const corrected = new Set(events.flatMap(({ corrects }) => corrects ?? []));
  return events.flatMap((event): WeighedTogether[] => {
    if (event.kind === 'plan-approved') plan = event.body.plan;
    if (event.kind !== 'stop-done' || corrected.has(event.id) || event.body.actual?.freshKg === undefined || plan?.planId !== event.body.planId) return [];
    const visit = plan.visits.find(({ visit: id }) => id === event.body.visit), effect = visit?.stops.find(({ stop }) => stop === event.body.stop)?.effect;
    if (visit === undefined || effect?.kind !== 'harvest') return [];
    const cut = Date.parse(event.happenedAt);
    const scan = nearest(scans.filter(({ lot, basin, takenAt }) => lot === effect.lot && basin === visit.basin && Date.parse(takenAt) <= cut), cut, HARVEST_DAYS);
    const plants = scan === undefined ? [] : scanPlants(scan).filter(measurable);
    return plants.length === 0 || !(event.body.actual.freshKg > 0) ? [] : [{ plants: plants.map((plant) => ({ ...massPlant(scan!, plant), occasion: event.happenedAt.slice(0, 10) })), massG: event.body.actual.freshKg * 1000 }];
  });
}
