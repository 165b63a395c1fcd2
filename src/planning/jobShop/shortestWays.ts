import type { ShopModel } from './shopModel.ts';

/** Ticks from place to place where a vehicle may pass through others (Floyd & Warshall 1962): what no chain of moves can beat. */
export function shortestWays({ travel, places }: Pick<ShopModel, 'travel' | 'places'>): Int32Array {
  const ways = travel.slice();
  for (let via = 0; via < places; via += 1) {
    for (let from = 0; from < places; from += 1) {
      const there = ways[from * places + via]!;
      for (let to = 0; to < places; to += 1) {
        const through = there + ways[via * places + to]!;
        if (through < ways[from * places + to]!) ways[from * places + to] = through;
      }
    }
  }
  return ways;
}
