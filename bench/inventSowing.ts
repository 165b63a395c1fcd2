/** An invented greenhouse's sowing problem for benchmarks: the same seed gives the same problem. */
import type { SowingBlock, SowingDemand, SowingOption, SowingProblem } from '../src/planning/sowing/sowingProblem.ts';
import { seedFor, startRandom } from '../src/science/seededRandom.ts';

export interface InventedHouse { readonly seed: number; readonly weeks: number; readonly crops: number; readonly basins: number; readonly sowingsPerWeek: number }

interface InventedCrop {
  readonly id: string; readonly plantsPerBasin: number; readonly nurseryRatio: number; readonly youngRatio: number;
  readonly trayDays: number; readonly nurseryDays: number; readonly youngDays: number; readonly finalDays: number; readonly windowDays: number;
  readonly plantsPerUnit: number; readonly price: number; readonly seedCost: number; readonly share: number;
}

/** Days in glass stretch in winter by this share and shrink in summer by as much. */
const SEASON_SWING = 0.18;
const BASIN_M2 = 2.88;

/** `basins` in glass and a sixth as many in the nursery; demand fills the glass in the dark months. */
export function inventSowing(house: InventedHouse): SowingProblem {
  const random = startRandom(seedFor(house.seed, 'sowing'));
  const crops = Array.from({ length: house.crops }, (_, i) => inventCrop(`crop-${i + 1}`, random));
  const days = (house.weeks + 12) * 7;
  const blocks = blocksOf(days, house.sowingsPerWeek);
  const nursery = Math.round(house.basins / 6);
  const glass = house.basins - nursery;
  const options = crops.flatMap((crop) => Array.from({ length: house.weeks * house.sowingsPerWeek }, (_, s) => optionOf(crop, Math.floor((s * 7) / house.sowingsPerWeek), blocks)));
  return {
    blocks, options: options.filter((option) => option.cuts.length > 0), standing: [],
    places: [
      { id: 'nursery', title: 'Nursery', kind: 'nursery', bays: ['nursery'], basins: nursery, basinM2: BASIN_M2, usableBasins: nursery },
      { id: 'glass', title: 'Glass', kind: 'glass', bays: ['glass'], basins: glass, basinM2: BASIN_M2, usableBasins: glass },
    ],
    demand: demandOf(crops, blocks, glass, options, random),
    limits: Array.from({ length: house.weeks + 12 }, (_, week) => ({ id: `transplanting/${week}`, title: 'Transplanting', unit: 'h', week, amount: house.basins * 0.3 })),
    shortCostPerUnit: Object.fromEntries(crops.map((crop) => [crop.id, 3 * crop.price])),
    thinCostPerUnit: Object.fromEntries(crops.map((crop) => [crop.id, 0.6 * crop.price])),
    wasteCostPerUnit: Object.fromEntries(crops.map((crop) => [crop.id, 0.02 * crop.plantsPerUnit])),
    wasteCostPerPlant: Object.fromEntries(crops.map((crop) => [crop.id, 0.02])),
  };
}

function inventCrop(id: string, random: ReturnType<typeof startRandom>): InventedCrop {
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const isHead = random.uniform() < 0.6;
  const plantsPerBasin = Math.round(between(55, 95) * (isHead ? 1 : 2.5));
  return {
    id, plantsPerBasin, nurseryRatio: plantsPerBasin / (isHead ? 345 : 800), youngRatio: isHead ? plantsPerBasin / 207 : 0,
    trayDays: 5, nurseryDays: Math.round(between(11, 15)), youngDays: isHead ? Math.round(between(9, 13)) : 0, finalDays: Math.round(between(15, 24)), windowDays: Math.round(between(12, 17)),
    plantsPerUnit: isHead ? 1 : Math.round(between(2, 4)), price: between(0.8, 1.4), seedCost: between(0.005, 0.03), share: between(0.5, 1.5),
  };
}

function blocksOf(days: number, perWeek: number): SowingBlock[] {
  const starts = Array.from({ length: (days / 7) * perWeek }, (_, i) => Math.floor((i * 7) / perWeek));
  return starts.map((fromDay, i) => ({ fromDay, toDay: (starts[i + 1] ?? days) - 1, week: Math.floor(fromDay / 7) }));
}

/** Longest around New Year (day 0 is the first of January). */
const season = (day: number): number => 1 + SEASON_SWING * Math.cos((2 * Math.PI * (day - 15)) / 365);

function optionOf(crop: InventedCrop, sowDay: number, blocks: readonly SowingBlock[]): SowingOption {
  const inNursery = sowDay + crop.trayDays;
  const inYoung = inNursery + crop.nurseryDays;
  const inFinal = inYoung + Math.round(crop.youngDays * season(inYoung));
  const readyDay = inFinal + Math.round(crop.finalDays * season(inFinal + 10));
  const cuts = blocks.flatMap((block, i) => (block.fromDay >= readyDay && block.toDay <= readyDay + crop.windowDays
    ? [{ block: i, unitsPerPlant: 0.93 / crop.plantsPerUnit, usableShare: 1, costPerPlant: 0.02, takesPerPlant: {} }] : []));
  const perDay = (day: number) => 0.35 + 0.45 * (1 + Math.cos((2 * Math.PI * (day - 15)) / 365)) / 2;
  const lastDay = cuts.length === 0 ? inFinal : blocks[cuts.at(-1)!.block]!.toDay + 1;
  const stages = [
    { place: 'nursery', basinsPerFinal: crop.nurseryRatio, fromDay: inNursery, toDay: inYoung },
    ...(crop.youngRatio > 0 ? [{ place: 'glass', basinsPerFinal: crop.youngRatio, fromDay: inYoung, toDay: inFinal }] : []),
  ];
  return {
    id: `${crop.id}@${sowDay}`, crop: crop.id, place: 'glass', sowDay, mostBasins: 120, plantsPerBasin: crop.plantsPerBasin, stages, finalFromDay: inFinal, cuts,
    costPerBasin: crop.plantsPerBasin * (crop.seedCost / 0.9 + 0.03) + stages.reduce((sum, stage) => sum + stage.basinsPerFinal * (stage.toDay - stage.fromDay) * perDay(stage.fromDay), 0) + (lastDay - inFinal) * perDay(inFinal),
    basinCostByBlock: Object.fromEntries(cuts.map(({ block }) => [block, perDay(inFinal) * (blocks[block]!.toDay + 1 - blocks[block]!.fromDay)])),
    takes: { [`transplanting/${Math.floor(inFinal / 7)}`]: crop.plantsPerBasin * 0.0015 },
  };
}

/** Buffer of ready plants over the units of a span: about what lots that differ by 15 % ask for at a service level of 0.97. */
const BUFFER_SHARE = 0.25;

/** Orders swing with the season and from block to block; together they would fill about all of the glass in the dark months. */
function demandOf(crops: readonly InventedCrop[], blocks: readonly SowingBlock[], glass: number, options: readonly SowingOption[], random: ReturnType<typeof startRandom>): SowingDemand[] {
  const firstDay = Math.min(...options.filter((option) => option.cuts.length > 0).map((option) => blocks[option.cuts[0]!.block]!.fromDay));
  const shares = crops.reduce((sum, crop) => sum + crop.share, 0);
  return crops.flatMap((crop) => {
    const basinDays = crop.youngRatio * crop.youngDays + crop.finalDays + 5;
    const unitsPerDay = ((0.97 * glass * crop.share) / shares / basinDays) * crop.plantsPerBasin * 0.86 / crop.plantsPerUnit;
    const first = Math.min(...options.filter((option) => option.crop === crop.id && option.cuts.length > 0).map((option) => option.cuts[0]!.block));
    return blocks.flatMap((block, i) => {
      const noise = Math.exp(0.15 * random.normal());
      if (i < first || block.fromDay < firstDay || block.toDay > options.at(-1)!.sowDay + 45) return [];
      const units = unitsPerDay * (block.toDay + 1 - block.fromDay) * (1 - 0.1 * Math.cos((2 * Math.PI * block.fromDay) / 365)) * noise;
      return [{ crop: crop.id, block: i, orderedUnits: Math.round(units), expectedUnits: 0, bufferUnits: Math.round(BUFFER_SHARE * units) }];
    });
  });
}
