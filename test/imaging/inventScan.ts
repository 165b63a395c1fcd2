import type { ScanMeasured } from '../../src/greenhouse/scanEvents.ts';
import { plantColumns, positionColumns, type ScanPlant } from '../../src/planning/imaging/scanPlants.ts';
import { SCAN_VERSION } from '../../src/science/scan/scanResult.ts';
import { startRandom } from '../../src/science/seededRandom.ts';

const PER_RAFT = 12;
const PITCH_MM = 150;

/** Twenty-four plants on two rafts, alike but for a little of their own. */
export function inventPlants(seed = 1, size = 1): ScanPlant[] {
  const random = startRandom(seed);
  return Array.from({ length: 2 * PER_RAFT }, (_, i): ScanPlant => {
    const own = size * Math.exp(0.05 * random.normal());
    return {
      raft: 1 + Math.floor(i / PER_RAFT), position: 1 + (i % PER_RAFT), xMm: PITCH_MM * (i % 4), yMm: PITCH_MM * Math.floor(i / 4), areaMm2: 9000 * own, volumeMm3: 400_000 * own, heightP95Mm: 60, heightMaxMm: 70,
      diameterMm: 120, sharedOutline: 0, points: 800, colour: { red: 90, green: 140, blue: 70 },
    };
  });
}

/** The same plants a scan later: so much larger in volume, each with a little of its own. */
export function growPlants(plants: readonly ScanPlant[], factor: number, seed = 2): ScanPlant[] {
  const random = startRandom(seed);
  return plants.map((plant) => ({ ...plant, volumeMm3: plant.volumeMm3 * factor * Math.exp(0.02 * random.normal()) }));
}

/** What the journal would say of a scan of these plants; of basin B001 on the first of March unless told otherwise. */
export function inventScan(plants: readonly ScanPlant[], change: Partial<ScanMeasured> = {}): ScanMeasured {
  const grown = new Set(plants.map(({ raft, position }) => `${raft}/${position}`));
  const empty = inventPlants().filter(({ raft, position }) => !grown.has(`${raft}/${position}`));
  return {
    scan: '0123456789abcdef', basin: 'B001', takenAt: '2026-03-01T08:00:00.000Z', lot: 'L1', crop: 'butterhead', stage: 'finish', ageDays: 30, cloud: { sha256: '0'.repeat(64), name: 'a.ply', bytes: 1 },
    quality: { version: SCAN_VERSION, cellMm: 3, unit: 'm', points: 1e6, pointsInside: 9e5, emptyShare: 0, coloured: true, rimPoints: 900, rimSides: 4, rimFlatnessMm: 2, rimLineMm: 3, rimWidthMm: 25, sizeRatio: 1, tiltDeg: 0, yawDeg: 0, rafts: [] },
    plants: plantColumns(plants), empty: positionColumns(empty), mass: { from: 'nothing', reason: 'invented' }, ...change,
  };
}
