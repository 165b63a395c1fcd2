import { z } from 'zod';
import { calendarDate, count, identifier, instant, quantity, words } from './quantity.ts';
import { READING_QUANTITIES, type ReadingQuantity } from './readingQuantities.ts';

const grams = (meaning: string, max: number) => quantity({ unit: 'g', min: 0, max, meaning });

/** orders.csv */
export const orderRow = z.strictObject({
  order: identifier.meta({ description: 'Number of the order' }),
  line: count({ min: 1, max: 999, meaning: 'Line of the order' }),
  customer: words('Customer'),
  crop: identifier.meta({ description: 'Id of the crop card' }),
  units: quantity({ unit: '1', min: 0.001, max: 1e6, meaning: 'Units ordered, in what the crop card sells by' }),
  due: calendarDate.meta({ description: 'Day on which the order leaves, YYYY-MM-DD' }),
  pricePerUnit: quantity({ unit: '1', min: 0, max: 10_000, meaning: 'Price in the greenhouse currency' }).optional(),
});
export type OrderLine = z.output<typeof orderRow>;

/** lots.csv: what grows where; one row for each basin of a lot. */
export const lotRow = z.strictObject({
  lot: identifier.meta({ description: 'Code of the lot, kept from seed to shipment' }),
  crop: identifier.meta({ description: 'Id of the crop card' }),
  basin: identifier.meta({ description: 'Basin in which these plants stand' }),
  stage: identifier.meta({ description: 'Id of the stage on the crop card' }),
  sown: calendarDate.meta({ description: 'Day of sowing, YYYY-MM-DD' }),
  placed: calendarDate.meta({ description: 'Day on which these plants came into this basin, YYYY-MM-DD' }),
  plants: count({ min: 1, max: 100_000, meaning: 'Plants in this basin' }),
  imaged: calendarDate.optional().meta({ description: 'Day on which this basin was last imaged, YYYY-MM-DD' }),
});
export type LotRow = z.output<typeof lotRow>;

/** sowings.csv: what was sown and is still in its trays; a lot that stands in basins is in lots.csv. */
export const sowingRow = z.strictObject({
  lot: identifier.meta({ description: 'Code of the lot, kept from seed to shipment' }),
  crop: identifier.meta({ description: 'Id of the crop card' }),
  sown: calendarDate.meta({ description: 'Day of sowing, YYYY-MM-DD' }),
  seeds: count({ min: 1, max: 1_000_000, meaning: 'Seeds sown' }),
  plants: count({ min: 1, max: 1_000_000, meaning: 'Seedlings that are to go into basins' }),
});
export type SowingRow = z.output<typeof sowingRow>;

/** readings.csv */
export const readingRow = z.strictObject({
  at: instant,
  place: z.string().max(60).regex(/^(basin|tank|bay):[A-Za-z0-9_.-]+$|^outdoor$/, { message: 'basin:ID, tank:ID, bay:ID or outdoor' })
    .meta({ description: 'Where it was read: basin:ID, tank:ID, bay:ID or outdoor' }),
  quantity: z.enum(Object.keys(READING_QUANTITIES) as [ReadingQuantity, ...ReadingQuantity[]]).meta({ description: 'What was read, with its unit in the name' }),
  value: z.number().meta({ description: 'The value, in the unit of its quantity' }),
  sd: z.number().min(0).optional().meta({ description: 'One standard deviation, in the unit of the value, where the instrument states it' }),
  instrument: words('Instrument').optional(),
});
export type ReadingRow = z.output<typeof readingRow>;

/** samples.csv: destructive samples. */
export const sampleRow = z.strictObject({
  date: calendarDate.meta({ description: 'Day of the sample, YYYY-MM-DD' }),
  lot: identifier.meta({ description: 'Code of the lot' }),
  basin: identifier.optional().meta({ description: 'Basin that the plant stood in, where known' }),
  plant: count({ min: 1, max: 9999, meaning: 'Number of the plant in this sample' }),
  freshG: grams('Fresh shoot mass', 10_000),
  dryG: grams('Dry shoot mass', 2000).optional(),
  raft: count({ min: 1, max: 60, meaning: 'Raft that it stood on, as scans number them; teaches scans what plants weigh' }).optional(),
  position: count({ min: 1, max: 40_000, meaning: 'Its position on the raft, as scans number them' }).optional(),
});
export type SampleRow = z.output<typeof sampleRow>;

const macro = (name: string) => quantity({ unit: 'mmol/L', min: 0, max: 20_000, meaning: name }).optional();
const micro = (name: string) => quantity({ unit: 'umol/L', min: 0, max: 1e6, meaning: name }).optional();

/** water-analyses.csv: a laboratory's analysis of a source, a tank or a basin. Empty means not analysed. */
export const analysisRow = z.strictObject({
  analysis: identifier.meta({ description: 'Number of the analysis' }),
  at: instant,
  place: z.string().max(60).regex(/^(basin|tank):[A-Za-z0-9_.-]+$/, { message: 'basin:ID or tank:ID' })
    .meta({ description: 'Where the sample was taken: basin:ID or tank:ID' }),
  laboratory: words('Laboratory').optional(),
  pH: quantity({ unit: '[pH]', min: 0, max: 14, meaning: 'pH' }).optional(),
  ecMsPerCm25: quantity({ unit: 'mS/cm', min: 0, max: 200, meaning: 'Conductivity at 25 C' }).optional(),
  ammoniumMmolPerL: macro('Ammonium'), potassiumMmolPerL: macro('Potassium'), calciumMmolPerL: macro('Calcium'),
  magnesiumMmolPerL: macro('Magnesium'), sodiumMmolPerL: macro('Sodium'), nitrateMmolPerL: macro('Nitrate'),
  chlorideMmolPerL: macro('Chloride'), sulfateMmolPerL: macro('Sulfate'), phosphateMmolPerL: macro('Phosphate, as phosphorus'),
  bicarbonateMmolPerL: macro('Bicarbonate'), siliconMmolPerL: macro('Silicon'),
  ironUmolPerL: micro('Iron'), manganeseUmolPerL: micro('Manganese'), zincUmolPerL: micro('Zinc'),
  boronUmolPerL: micro('Boron'), copperUmolPerL: micro('Copper'), molybdenumUmolPerL: micro('Molybdenum'),
  absorbance254PerCm: quantity({ unit: '/cm', min: 0, max: 10, meaning: 'Decadic absorbance at 254 nm, filtered' }).optional(),
  pathogens: z.enum(['clear', 'found']).optional().meta({ description: 'Result of a test for plant pathogens: clear or found' }),
});
export type AnalysisRow = z.output<typeof analysisRow>;
