import type { GreenhouseState } from '../../greenhouse/state.ts';

/** What ids of crops, products, sources, stations, vehicles and bays are called. */
export function stateTitles({ file, crops, products }: GreenhouseState): Record<string, string> {
  const titled = [...Object.values(crops), ...Object.values(products), ...(file ? [...file.sources, ...file.stations, ...file.vehicles, ...file.bays] : [])];
  return Object.fromEntries(titled.map(({ id, title }) => [id, title]));
}
