import type { JobShopProblem } from '../../src/planning/jobShop/jobShopProblem.ts';
import { startRandom } from '../../src/science/seededRandom.ts';

export interface ShopSize { readonly jobs: number; readonly operations: number; readonly places: number; readonly vehicles: number; readonly alternatives: number; readonly unit?: number }

/** A job shop drawn from a seed: places may come twice in a row, moves may take no time, the matrix is neither symmetric nor a metric. */
export function randomShop(seed: number, size: ShopSize): JobShopProblem {
  const random = startRandom(seed);
  const unit = size.unit ?? 1;
  const locations = ['home', ...Array.from({ length: size.places }, (_, i) => `place ${i + 1}`)];
  const travelTime = locations.map((_, from) => locations.map((_to, to) => (from === to ? 0 : random.below(12) * unit)));
  const alternatives = () => {
    const open = locations.slice(random.below(6) === 0 ? 0 : 1);
    return Array.from({ length: Math.min(open.length, 1 + random.below(size.alternatives)) }, () => ({ at: open.splice(random.below(open.length), 1)[0]!, duration: random.below(20) * unit }));
  };
  const jobs = Array.from({ length: size.jobs }, (_, j) => ({ id: `J${j + 1}`, operations: Array.from({ length: 1 + random.below(size.operations) }, () => ({ alternatives: alternatives() })) }));
  return { vehicles: size.vehicles, locations, travelTime, startAt: 'home', jobs };
}
