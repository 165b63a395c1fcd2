import { basinLayoutOf } from '../../greenhouse/basinLayoutOf.ts';
import type { BasinType } from '../../greenhouse/schema/greenhouseFile.ts';
import { seedFor, startRandom } from '../../science/seededRandom.ts';
import type { PlantType } from '../scan/growPlant.ts';
import { growthOfLitres, scanGrown, type GrownPlant } from '../scan/scanGrown.ts';
import { writePly } from '../scan/writePly.ts';
import { addDays, HISTORY_DAYS } from './demoCalendar.ts';
import { inventBayHistories } from './demoClimate.ts';
import { dryShare, growStand, type GrowthDays } from './demoGrowth.ts';
import { standOnDate } from './demoStands.ts';
import type { Stand } from './demoTypes.ts';
import { inventYear } from './demoYear.ts';

/** A point cloud of the demonstration. */
export interface DemoScan { readonly path: string; readonly bytes: Uint8Array }

/** Which basins were imaged, and how many days before the morning of the demonstration. */
const SCANNED: readonly { readonly crop: string; readonly type: PlantType; readonly basins: number; readonly daysAgo: readonly number[] }[] = [
  { crop: 'butterhead', type: 'butterhead', basins: 2, daysAgo: [8, 5, 1] },
  { crop: 'oakleaf', type: 'red', basins: 1, daysAgo: [7, 2] },
];
/** Invented: fresh mass for each litre of canopy. */
const FRESH_G_PER_L = 40;
const PIXEL_MM = 4.6;

/** The demo's only type of basin as greenhouse.yaml describes it; rafts and rim as their defaults. */
const BASIN: BasinType = { id: 'standard', lengthMm: 2400, widthMm: 1200, depthMm: 190, emptyKg: 58, rafts: 6, raftKg: 1.6, levelMinShare: 0.8, raftGapMm: 10, rimAboveRaftsMm: 60 };

/** Clouds of a few basins on several days, made one after another: plants grow as the invented truth says; one lags, one turns yellow. */
export function* demoScans(seed: number, date: string): Generator<DemoScan> {
  const bays = inventBayHistories(seed, date, inventYear(seed, Number(date.slice(0, 4)) - 1));
  const stands = standOnDate(seed, date);
  for (const { crop, type, basins, daysAgo } of SCANNED) {
    const first = HISTORY_DAYS - daysAgo[0]!;
    const chosen = stands.filter((stand) => stand.crop.id === crop && stand.stage === 'finish' && stand.placedDay < first).filter((stand, i, all) => all.findIndex(({ lot }) => lot === stand.lot) === i).sort((a, b) => b.placedDay - a.placedDay).slice(0, basins);
    for (const stand of chosen) {
      const growth = growStand(stand, bays);
      for (const ago of daysAgo) yield scanOf(seed, date, stand, growth, type, ago);
    }
  }
}

function scanOf(seed: number, date: string, stand: Stand, growth: GrowthDays, type: PlantType, ago: number): DemoScan {
  const layout = basinLayoutOf(BASIN, { stage: undefined, plants: stand.plants });
  const day = addDays(date, -ago), dryG = growth[HISTORY_DAYS - ago - 1] ?? 0.1;
  const plants = plantsOf(seed, stand, layout.rafts.length * layout.rafts[0]!.positions.length, type, (dryG / dryShare(dryG)) / FRESH_G_PER_L, ago === 1 || ago === 2);
  const cloud = scanGrown({ layout, plants, plantSeed: seedFor(seed, stand.basin), scanSeed: seedFor(seed, `${stand.basin} ${ago}`), pixelMm: PIXEL_MM });
  return { path: `scans/${stand.basin}_${day}T09-${String(10 + (stand.basin.charCodeAt(3) % 40))}-00Z.ply`, bytes: writePly(cloud) };
}

/** Positions left empty, and what has befallen two of the plants by the last scan. */
function plantsOf(seed: number, { basin, plants }: Stand, places: number, type: PlantType, litres: number, isLast: boolean): GrownPlant[] {
  const random = startRandom(seedFor(seed, `positions ${basin}`));
  const order = Array.from({ length: places }, (_, place) => ({ place, key: random.uniform() })).sort((a, b) => a.key - b.key).map(({ place }) => place);
  return order.slice(0, plants).map((place, i) => ({
    place, type, growth: growthOfLitres(isLast && i === 0 ? litres * 0.55 : litres), ...(isLast && i === 1 ? { yellow: 0.6 } : {}),
  })).sort((a, b) => a.place - b.place);
}
