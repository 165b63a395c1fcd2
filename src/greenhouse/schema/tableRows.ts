import { z } from 'zod';
import { calendarDate, count, identifier, instant, quantity, words } from './quantity.ts';

const grams = (meaning: string, max: number) => quantity({ unit: 'g', min: 0, max, meaning });

/** orders.csv */
export const orderRow = z.strictObject({
  order: identifier,
  line: count({ min: 1, max: 999, meaning: 'Line of the order' }),
  customer: words('Customer'),
  crop: identifier,
  units: quantity({ unit: '1', min: 0.001, max: 1e6, meaning: 'Units ordered, in what the crop card sells by' }),
  due: calendarDate,
  pricePerUnit: quantity({ unit: '1', min: 0, max: 10_000, meaning: 'Price in the greenhouse currency' }).optional(),
});
export type OrderLine = z.output<typeof orderRow>;

/** lots.csv: what grows where; one row for each basin of a lot. */
export const lotRow = z.strictObject({
  lot: identifier,
  crop: identifier,
  basin: identifier,
  stage: identifier,
  sown: calendarDate,
  placed: calendarDate.meta({ description: 'Day on which these plants came into this basin' }),
  plants: count({ min: 1, max: 100_000, meaning: 'Plants in this basin' }),
});
export type LotRow = z.output<typeof lotRow>;

/** readings.csv */
export const readingRow = z.strictObject({
  at: instant,
  place: z.string().regex(/^(basin|tank|bay):[A-Za-z0-9_.-]+$|^outdoor$/, { message: 'basin:ID, tank:ID, bay:ID or outdoor' }),
  quantity: z.enum(['ecMsPerCm25', 'pH', 'levelMm', 'volumeL', 'waterC', 'airC', 'rhPct', 'co2Ppm', 'ppfdUmolM2S', 'globalWm2']),
  value: z.number(),
  sd: z.number().min(0).optional(),
  instrument: words('Instrument').optional(),
});
export type ReadingRow = z.output<typeof readingRow>;

/** samples.csv: destructive samples. */
export const sampleRow = z.strictObject({
  date: calendarDate,
  lot: identifier,
  basin: identifier.optional(),
  plant: count({ min: 1, max: 9999, meaning: 'Number of the plant in this sample' }),
  freshG: grams('Fresh shoot mass', 10_000),
  dryG: grams('Dry shoot mass', 2000).optional(),
});
export type SampleRow = z.output<typeof sampleRow>;

const macro = (name: string) => quantity({ unit: 'mmol/L', min: 0, max: 20_000, meaning: name }).optional();
const micro = (name: string) => quantity({ unit: 'umol/L', min: 0, max: 1e6, meaning: name }).optional();

/** water-analyses.csv: a laboratory's analysis of a source, a tank or a basin. Empty means not analysed. */
export const analysisRow = z.strictObject({
  analysis: identifier,
  at: instant,
  place: z.string().regex(/^(basin|tank):[A-Za-z0-9_.-]+$/, { message: 'basin:ID or tank:ID' }),
  laboratory: words('Laboratory').optional(),
  pH: quantity({ unit: '[pH]', min: 0, max: 14, meaning: 'pH' }).optional(),
  ecMsPerCm25: quantity({ unit: 'mS/cm', min: 0, max: 200, meaning: 'Conductivity at 25 C' }).optional(),
  ammoniumMmolPerL: macro('Ammonium'), potassiumMmolPerL: macro('Potassium'), calciumMmolPerL: macro('Calcium'),
  magnesiumMmolPerL: macro('Magnesium'), sodiumMmolPerL: macro('Sodium'), nitrateMmolPerL: macro('Nitrate'),
  chlorideMmolPerL: macro('Chloride'), sulfateMmolPerL: macro('Sulfate'), phosphateMmolPerL: macro('Phosphate, as phosphorus'),
  bicarbonateMmolPerL: macro('Bicarbonate'), siliconMmolPerL: macro('Silicon'),
  ironUmolPerL: micro('Iron'), manganeseUmolPerL: micro('Manganese'), zincUmolPerL: micro('Zinc'),
  boronUmolPerL: micro('Boron'), copperUmolPerL: micro('Copper'), molybdenumUmolPerL: micro('Molybdenum'),
});
export type AnalysisRow = z.output<typeof analysisRow>;
