import { seedFor, startRandom } from '../../science/seededRandom.ts';
import { DEMO_CROPS, TRAY_DAYS } from './demoCrops.ts';
import { addDays, dayNumber, HISTORY_DAYS } from './demoCalendar.ts';
import type { DemoCrop, DemoStage, Stand } from './demoTypes.ts';

const FIRST_BASIN = { nursery: 1, 'glass-west': 41, 'glass-east': 141 } as const;
const BASINS = { nursery: 40, 'glass-west': 100, 'glass-east': 100 } as const;
type Bay = keyof typeof BASINS;

/**
 * What grows where on the morning of `date`: lots started every second day, moved on at the end of each stage. A lot whose
 * harvest began yesterday still has some of its basins; the day's own moves and harvests are still to be done.
 */
export function standOnDate(seed: number, date: string): readonly Stand[] {
  const free = freeBasins(seed);
  const today = dayNumber(date);
  const stands: Stand[] = [];
  for (const crop of DEMO_CROPS) {
    const total = crop.stages.reduce((sum, stage) => sum + stage.days, 0);
    for (let age = total + 1; age >= 1; age -= 1) {
      if ((today - age) % 2 !== crop.evenDay) continue;
      stands.push(...standsOfLot(seed, date, crop, age, total, free));
    }
  }
  return stands;
}

/** A lot that is still in its trays, the first of them due in basins this morning. */
export interface TrayLot { readonly lot: string; readonly crop: DemoCrop; readonly sown: string; readonly seeds: number; readonly plants: number }

/** Lots of the same rhythm that were sown in the last days. */
export function traysOnDate(date: string): readonly TrayLot[] {
  const today = dayNumber(date);
  return DEMO_CROPS.flatMap((crop) => Array.from({ length: TRAY_DAYS }, (_, i) => i).filter((toWait) => Math.abs(today + toWait) % 2 === crop.evenDay).map((toWait): TrayLot => {
    const sown = addDays(date, toWait - TRAY_DAYS);
    const plants = Math.floor(TRAY_SHARE * crop.stages[0]!.plantsInBasins.reduce((sum, each) => sum + each, 0));
    return { lot: lotCode(crop, sown), crop, sown, plants, seeds: Math.ceil(plants / SOWN_TO_STAND) };
  }));
}

/** Seedlings for each place of the first basins, and what comes up of the seeds at worst (invented). */
const TRAY_SHARE = 0.985;
const SOWN_TO_STAND = 0.86;

const lotCode = (crop: DemoCrop, sown: string): string => `${crop.code}-${sown.slice(2).replaceAll('-', '')}`;

function standsOfLot(seed: number, date: string, crop: DemoCrop, age: number, total: number, free: Record<Bay, number[]>): Stand[] {
  const sown = addDays(date, -age - TRAY_DAYS);
  const lot = lotCode(crop, sown);
  const random = startRandom(seedFor(seed, `lot ${lot}`));
  const vigour = Math.exp(0.07 * random.normal());
  const { stage, start } = stageAt(crop, Math.min(age, total));
  const harvested = age > total ? Math.ceil(stage.plantsInBasins.length / 2) : 0;
  return stage.plantsInBasins.slice(harvested).map((plants) => {
    const bay = stage.bay === 'nursery' ? 'nursery' : emptier(free);
    const basin = free[bay].shift();
    if (basin === undefined) throw new Error(`the demo has no free basin in ${bay}`);
    return {
      lot, crop, bay, basin: `B${String(basin).padStart(3, '0')}`, stage: stage.id, plants: plants - random.below(Math.ceil(plants * 0.02)),
      sownDay: HISTORY_DAYS - age - TRAY_DAYS, startDay: HISTORY_DAYS - age, placedDay: HISTORY_DAYS - age + start, vigour,
    };
  });
}

/** The stage that a lot of this age stands in; on the day a stage ends it still stands there, to be moved today. */
function stageAt(crop: DemoCrop, age: number): { stage: DemoStage; start: number } {
  let start = 0;
  for (const stage of crop.stages) {
    if (age <= start + stage.days) return { stage, start };
    start += stage.days;
  }
  throw new Error(`age ${age} d lies beyond the stages of ${crop.id}`);
}

/** Basins in a shuffled order, so that a lot is spread over the bay as it is in life. */
function freeBasins(seed: number): Record<Bay, number[]> {
  const random = startRandom(seedFor(seed, 'berths'));
  const shuffled = (bay: Bay) => Array.from({ length: BASINS[bay] }, (_, i) => ({ number: FIRST_BASIN[bay] + i, key: random.uniform() }))
    .sort((a, b) => a.key - b.key).map((each) => each.number);
  return { nursery: shuffled('nursery'), 'glass-west': shuffled('glass-west'), 'glass-east': shuffled('glass-east') };
}

const emptier = (free: Record<Bay, number[]>): Bay => (free['glass-west'].length >= free['glass-east'].length ? 'glass-west' : 'glass-east');
