import { expect, it } from 'vitest';
import { CostQueue } from './costQueue.ts';

it('gives cells in the order of their buckets and knows what is past', () => {
  const queue = new CostQueue(0.5);
  const costs = Array.from({ length: 100_000 }, (_, cell) => (cell * 7919) % 5003);
  costs.forEach((cost, cell) => queue.put(cell, cost));
  let last = 0, taken = 0, ordered = true;
  for (let cell = queue.take(); cell >= 0; cell = queue.take()) { ordered &&= costs[cell]! >= last; last = costs[cell]!; taken += 1; }
  expect(ordered).toBe(true);
  expect(taken).toBe(costs.length);
  expect(queue.isPast(4000)).toBe(true);
});
