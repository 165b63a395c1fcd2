import { cropCard } from '../schema/cropCard.ts';
import { greenhouseFile } from '../schema/greenhouseFile.ts';
import { productsFile } from '../schema/productsFile.ts';
import { analysisRow, lotRow, orderRow, readingRow, sampleRow, sowingRow } from '../schema/tableRows.ts';
import { jsonSchemaOf, type SchemaNode } from './schemaAt.ts';

/** Every file of a greenhouse folder with its schema: YAML files as a whole, tables as one row. */
export const FILE_SCHEMAS = {
  greenhouse: { file: 'greenhouse.yaml', schema: greenhouseFile, isRow: false },
  'crop-card': { file: 'crops/*.yaml', schema: cropCard, isRow: false },
  fertilisers: { file: 'fertilisers.yaml', schema: productsFile, isRow: false },
  lots: { file: 'lots.csv', schema: lotRow, isRow: true },
  orders: { file: 'orders.csv', schema: orderRow, isRow: true },
  readings: { file: 'readings.csv', schema: readingRow, isRow: true },
  samples: { file: 'samples.csv', schema: sampleRow, isRow: true },
  sowings: { file: 'sowings.csv', schema: sowingRow, isRow: true },
  'water-analyses': { file: 'water-analyses.csv', schema: analysisRow, isRow: true },
} as const;

/** The JSON Schemas that editors use, by file name: greenhouse.schema.json and so on. */
export function publishedSchemas(): Record<string, SchemaNode> {
  return Object.fromEntries(Object.entries(FILE_SCHEMAS).map(([name, { schema }]) => [`${name}.schema.json`, jsonSchemaOf(schema)]));
}
