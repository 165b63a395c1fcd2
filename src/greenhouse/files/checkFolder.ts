import type { Refusal } from '../../science/refusal.ts';
import { checkCrops } from './checkCrops.ts';
import { checkGreenhouse } from './checkGreenhouse.ts';
import { checkProducts } from './checkProducts.ts';
import { checkSense } from './checkSense.ts';
import { checkTables } from './checkTables.ts';
import type { ReadFolder } from './greenhouseFolder.ts';

/** What only shows when files are held against each other: references, duplicates, weights, dates, densities, floor. */
export function checkFolder(read: ReadFolder): Refusal[] {
  return [...checkGreenhouse(read), ...checkCrops(read), ...checkProducts(read), ...checkTables(read), ...checkSense(read)];
}
