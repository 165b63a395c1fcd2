import { expect, it } from 'vitest';
import { startRandom } from '../../science/seededRandom.ts';
import { bufferFloor } from './bufferFloor.ts';
import { dispatchBuffered } from './dispatchBuffered.ts';
import { modelShop } from './shopModel.ts';

it('goes on to the end on crowded floors where whoever comes first would lock', () => {
  // Jobs run to and fro between places without waiting places, half of them each way.
  for (let seed = 1; seed <= 20; seed += 1) {
    const random = startRandom(seed), locations = ['home', 'A', 'B', 'C'];
    const way = (from: number): { alternatives: { at: string; duration: number }[] }[] => [0, 1, 2, 3, 4].map((i) => ({ alternatives: [{ at: 'ABC'[(from + i * (from === 0 ? 1 : 2)) % 3]!, duration: 1 + random.below(9) }] }));
    const model = modelShop({
      vehicles: 2, locations, startAt: 'home', travelTime: locations.map((from) => locations.map((to) => (from === to ? 0 : 2))),
      jobs: Array.from({ length: 12 }, (_, j) => ({ id: `${j}`, operations: way(j % 2 === 0 ? 0 : 2) })), buffers: { A: 0, B: 0, C: seed % 2 },
    });
    const floor = bufferFloor(model, model.altTicks, model.travel);
    const built = dispatchBuffered(model, floor, random)!;
    expect(built.turns).toHaveLength(60);
    // Again, step by step: none has to wait.
    floor.clear();
    const next = model.jobFirst.slice(0, model.jobs);
    for (const j of built.turns) {
      const o = next[j]!++, from = o === model.jobFirst[j] ? 0 : model.altPlace[built.alternative[o - 1]!]!;
      expect(floor.carry(o, built.alternative[o]!, floor.firstVehicle(from, o === model.jobFirst[j] ? 0 : floor.end[o - 1]!), true) && floor.run(o), `seed ${seed}`).toBe(true);
    }
  }
});
