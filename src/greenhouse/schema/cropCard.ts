import { z } from 'zod';
import { band, count, identifier, quantity, quantityOr, words } from './quantity.ts';

const PRACTICE = 'common practice, no source';
const mmol = (meaning: string, max = 60) => quantity({ unit: 'mmol/L', min: 0, max, meaning });
const umol = (meaning: string) => quantity({ unit: 'umol/L', min: 0, max: 2000, meaning });

const MACRO = { NH4: 'Ammonium', K: 'Potassium', Ca: 'Calcium', Mg: 'Magnesium', NO3: 'Nitrate', SO4: 'Sulfate', P: 'Phosphate (as phosphorus)' } as const;
const MICRO = { Fe: 'Iron (chelated)', Mn: 'Manganese', Zn: 'Zinc', B: 'Boron', Cu: 'Copper', Mo: 'Molybdenum' } as const;

function table(what: string) {
  const macro = Object.fromEntries(Object.entries(MACRO).map(([key, name]) => [key, mmol(`${name}, ${what}`)])) as Record<keyof typeof MACRO, ReturnType<typeof mmol>>;
  const micro = Object.fromEntries(Object.entries(MICRO).map(([key, name]) => [key, umol(`${name}, ${what}`)])) as Record<keyof typeof MICRO, ReturnType<typeof umol>>;
  return z.strictObject({
    source: words('Where this table comes from: author, year, table'),
    mmolPerL: z.strictObject(macro),
    umolPerL: z.strictObject(micro),
  });
}

/** A model parameter that differs from the model's published default: a number with the reason for it. */
const sourcedNumber = z.strictObject({ value: z.number(), source: words('Where the value comes from') });

const stage = z.strictObject({
  id: identifier,
  title: words('Name of the stage'),
  bay: z.enum(['nursery', 'glass']),
  plantsPerM2: quantity({ unit: '/m2', min: 0.2, max: 3000, meaning: 'Plants per square metre of basin in this stage' }),
  days: quantity({ unit: 'd', min: 1, max: 400, meaning: 'Planned duration' }).optional(),
  degreeDays: quantity({ unit: 'Cel.d', min: 1, max: 10_000, meaning: 'Planned duration as thermal time above baseC' }).optional(),
  baseC: quantityOr({ unit: 'Cel', min: -5, max: 20, default: 4, meaning: 'Base temperature of thermal time', source: PRACTICE }),
  raftPattern: z.strictObject({
    along: count({ min: 1, max: 200, meaning: 'Positions of a raft along the length of the basin' }),
    across: count({ min: 1, max: 200, meaning: 'Positions of a raft across the basin' }),
  }).optional().meta({ description: 'Planting positions of one raft, evenly spaced; where absent, the pattern nearest to square that takes the plants' }),
}).refine((is) => (is.days === undefined) !== (is.degreeDays === undefined), { message: 'give either days or degreeDays' });

/** crops/*.yaml: one crop, its stages, its growth model, its water. */
export const cropCard = z.strictObject({
  id: identifier,
  title: words('Name of the crop'),
  kind: z.enum(['leafy', 'herb', 'fruiting', 'vine']),
  cultivar: words('Cultivar or type'),
  soldBy: z.enum(['head', 'bunch', 'kg']).meta({ description: 'Unit in which orders count this crop' }),
  gramsPerUnit: quantity({ unit: 'g', min: 1, max: 5000, meaning: 'Fresh mass that one unit sold must weigh' }),
  plantsPerUnit: quantityOr({ unit: '1', min: 0.001, max: 500, default: 1, meaning: 'Plants that make one unit sold' }),
  stages: z.array(stage).min(1),
  harvest: z.strictObject({
    readyFreshG: quantity({ unit: 'g', min: 1, max: 5000, meaning: 'Fresh mass of a plant that is ready' }),
    readyShare: quantityOr({ unit: '1', min: 0.1, max: 1, default: 0.8, meaning: 'A lot is ready when this share of its plants is', source: PRACTICE }),
    latestFreshG: quantity({ unit: 'g', min: 1, max: 10_000, meaning: 'Mean fresh mass above which quality falls' }),
    lossShare: quantityOr({ unit: '1', min: 0, max: 0.9, default: 0.05, meaning: 'Plants lost or unsaleable between planting and sale', source: PRACTICE }),
    keepsDays: quantityOr({ unit: 'd', min: 0, max: 60, default: 2, meaning: 'Days that the harvested crop may wait for its order', source: PRACTICE }),
  }),
  growth: z.strictObject({
    model: words('Id of the growth model, for example two-state-lettuce'),
    parameters: z.record(z.string(), sourcedNumber).default({}),
    seedlingDryMg: quantity({ unit: 'mg', min: 0.1, max: 5000, meaning: 'Dry shoot mass of one seedling when it leaves the nursery tray for a basin' }),
    seedlingSpread: quantityOr({ unit: '1', min: 0.01, max: 1, default: 0.25, meaning: 'Relative spread of that mass between lots', source: PRACTICE }),
  }),
  water: z.strictObject({
    target: table('kept around the roots'),
    feed: table('of the water that replaces what the crop took'),
    uptake: table('taken up with each litre of water absorbed'),
    tolerance: quantityOr({ unit: '1', min: 0.02, max: 0.9, default: 0.3, meaning: 'A component may differ from its target by this share', source: PRACTICE }),
    traceTolerance: quantityOr({ unit: '1', min: 0.02, max: 10, default: 3, meaning: 'A trace element may exceed its target by this share: one trace stock serves crops of different needs', source: PRACTICE }),
    ecMsPerCm25: band({ unit: 'mS/cm', min: 0, max: 10, meaning: 'Conductivity at 25 C kept around the roots' }),
    pH: band({ unit: '[pH]', min: 4, max: 8.5, meaning: 'pH kept around the roots' }),
    sodiumMaxMmolPerL: mmol('Highest sodium'),
    chlorideMaxMmolPerL: mmol('Highest chloride'),
  }),
  climate: z.strictObject({
    dliMolM2: band({ unit: 'mol/(m2.d)', min: 0, max: 60, meaning: 'Daily light integral' }),
    airC: band({ unit: 'Cel', min: 0, max: 45, meaning: 'Air temperature' }),
    waterC: band({ unit: 'Cel', min: 0, max: 40, meaning: 'Water temperature' }),
  }),
  tipBurn: z.strictObject({
    dliMolM2: quantityOr({ unit: 'mol/(m2.d)', min: 1, max: 80, default: 17, meaning: 'Daily light above which each mole counts towards tip-burn', source: 'Albright, Both & Chiu 2000 (from memory, unverified)' }),
    airC: quantityOr({ unit: 'Cel', min: 10, max: 45, default: 28, meaning: 'Air above which all light of the hour counts', source: 'Carotti et al. 2021, Front. Plant Sci. 11:592171' }),
    warmRootC: quantityOr({ unit: 'Cel', min: 10, max: 40, default: 26, meaning: 'Water from which hot hours no longer count by themselves', source: PRACTICE }),
    growthGPerM2D: quantityOr({ unit: 'g/(m2.d)', min: 1, max: 80, default: 15, meaning: 'Dry growth of the stand above which each gram counts as the light that made it', source: PRACTICE }),
    fromFreshG: quantityOr({ unit: 'g', min: 0, max: 5000, default: 30, meaning: 'Fresh mass of a plant from which its heart is closed enough to burn', source: PRACTICE }),
    halfMolM2: quantityOr({ unit: 'mol/m2', min: 1, max: 1000, default: 40, meaning: 'Counted light after which half of the plants cannot be sold', source: PRACTICE }),
  }).optional().meta({ description: 'When leaf edges burn; absent for crops that do not' }),
  sowing: z.strictObject({
    trayDays: quantityOr({ unit: 'd', min: 0, max: 60, default: 5, meaning: 'Days from sowing until the seedlings come from their tray into a basin', source: PRACTICE }),
    cellsPerTray: quantityOr({ unit: '1', min: 1, max: 5000, default: 240, meaning: 'Seeds in one tray', source: PRACTICE }),
    germinationShare: quantityOr({ unit: '1', min: 0.05, max: 1, default: 0.92, meaning: 'Share of seeds that give a seedling fit to be moved on, on average', source: PRACTICE }),
    germinationSpread: quantityOr({ unit: '1', min: 0, max: 0.4, default: 0.03, meaning: 'Standard deviation of that share between lots', source: PRACTICE }),
    saleableSpread: quantityOr({ unit: '1', min: 0, max: 0.5, default: 0.04, meaning: 'Relative standard deviation between lots of the plants that can be sold, beside growth', source: PRACTICE }),
    seedCost: quantityOr({ unit: '1', min: 0, max: 50, default: 0.02, meaning: 'Price of one seed in the greenhouse currency', source: PRACTICE }),
    pricePerUnit: quantityOr({ unit: '1', min: 0, max: 10_000, default: 1, meaning: 'Price of one unit sold where an order names none, in the greenhouse currency', source: PRACTICE }),
  }).prefault({}),
  handling: z.strictObject({
    imagingEveryDays: quantityOr({ unit: 'd', min: 1, max: 60, default: 7, meaning: 'Imaged at least this often', source: PRACTICE }),
    freshGPerCanopyL: quantityOr({ unit: 'g/L', min: 1, max: 500, default: 40, meaning: 'Fresh mass for each litre between raft and upper surface of the leaves, until plants were weighed', source: 'from memory, unverified: weigh plants of a scan instead' }),
    freshGPerCanopyLSpread: quantityOr({ unit: '1', min: 0.05, max: 2, default: 0.5, meaning: 'Standard deviation of the logarithm of that figure', source: 'from memory, unverified' }),
  }).prefault({}),
}).meta({ title: 'crop card', description: 'One crop: stages, growth model, water, climate, market weight' });

export type CropCard = z.output<typeof cropCard>;
export type CropStage = CropCard['stages'][number];
export type SolutionTable = CropCard['water']['target'];
