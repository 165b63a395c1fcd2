import type { ScanMeasured } from '../../greenhouse/scanEvents.ts';
import { watchPlants, type WatchedPlant, type WatchNote } from '../../science/scan/watch/watchPlants.ts';
import { scanPlants } from './scanPlants.ts';

/**
 * Spread of ln growth between plants and in the forecast of growth, beyond which a plant lags the forecast (own judgement, no source): the
 * forecast is for the mean plant.
 */
const FORECAST_LN_SD = 0.15;

/** Whether two scans may be held against each other: same basin and lot, same cells, same version of the measuring. */
export const comparable = (a: ScanMeasured, b: ScanMeasured): boolean => a.basin === b.basin && a.lot === b.lot && a.quality.cellMm === b.quality.cellMm && a.quality.version === b.quality.version;

/** The plants of a scan to look at; `before`: the scan before it of the same plants. What cannot be compared is not. */
export function watchScan(scan: ScanMeasured, before: ScanMeasured | undefined): WatchNote[] {
  const old = before !== undefined && comparable(scan, before) ? before : undefined;
  const forecast = old?.expected === undefined || scan.expected === undefined ? undefined : { lnGrowth: Math.log(scan.expected.p50G / old.expected.p50G), lnSd: FORECAST_LN_SD };
  return watchPlants({ now: watched(scan), ...(old === undefined ? {} : { before: watched(old) }), ...(forecast === undefined ? {} : { forecast }) });
}

const NOTHING = { present: false, areaMm2: 0, volumeMm3: 0, heightP95Mm: 0, heightMaxMm: 0, diameterMm: 0, sharedOutline: 0, points: 0 } as const;

function watched(scan: ScanMeasured): WatchedPlant[] {
  return [...scanPlants(scan).map((plant) => ({ ...plant, present: true })), ...scan.empty.raft.map((raft, i) => ({ raft, position: scan.empty.position[i]!, ...NOTHING }))];
}
