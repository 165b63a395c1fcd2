import { inventFlexible, type FlexibleKind } from './inventFlexible.ts';
import type { PublishedShop } from './publishedShops.ts';

const KINDS: Readonly<Record<string, FlexibleKind>> = {
  'free-10x6-2v': { jobs: 10, machines: 6, vehicles: 2, routing: 'free', operations: [5, 7], flexibility: 2, durations: [2, 10], travelShare: 0.3 },
  'free-15x8-4v': { jobs: 15, machines: 8, vehicles: 4, routing: 'free', operations: [5, 10], flexibility: 3, durations: [5, 20], travelShare: 0.4 },
  'once-15x10-4v': { jobs: 15, machines: 10, vehicles: 4, routing: 'each once', flexibility: 2, durations: [5, 99], travelShare: 0.5 },
  'once-20x10-6v': { jobs: 20, machines: 10, vehicles: 6, routing: 'each once', flexibility: 1.5, durations: [5, 99], travelShare: 0.3 },
  'free-30x15-6v': { jobs: 30, machines: 15, vehicles: 6, routing: 'free', operations: [8, 12], flexibility: 3, durations: [5, 50], travelShare: 0.3 },
  'once-20x10-0v': { jobs: 20, machines: 10, vehicles: 0, routing: 'each once', flexibility: 1.5, durations: [5, 99], travelShare: 0 },
  'once-15x10-0v': { jobs: 15, machines: 10, vehicles: 0, routing: 'each once', flexibility: 3, durations: [5, 99], travelShare: 0 },
  'free-60x15-6v': { jobs: 60, machines: 15, vehicles: 6, routing: 'free', operations: [15, 22], flexibility: 3, durations: [5, 50], travelShare: 0.3 },
  'once-60x15-3v': { jobs: 60, machines: 15, vehicles: 3, routing: 'each once', flexibility: 2, durations: [5, 50], travelShare: 0.3 },
};

/** Flexible job shops of our own, one of each kind, where no best makespan is known (0). */
export function inventedShops(): PublishedShop[] {
  return Object.entries(KINDS).map(([name, kind], i) => ({ name, shop: inventFlexible(i + 1, kind), bestKnown: 0 }));
}
