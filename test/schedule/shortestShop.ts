import type { JobShopProblem } from '../../src/planning/jobShop/jobShopProblem.ts';

/**
 * The shortest makespan by trying everything: at each step one job makes its next step (a move by one of the vehicles to one of the
 * alternatives, or the operation itself), as early as what was decided before allows. Every order of steps is tried, so moves and
 * operations may be ordered differently. Branches that cannot beat the best are left.
 */
export function shortestShop({ vehicles, locations, travelTime, startAt, jobs }: JobShopProblem): number {
  const at = (name: string): number => locations.indexOf(name);
  const home = at(startAt);
  let best = Infinity;
  const state = jobs.map(() => ({ next: 0, place: home, ready: 0, chosen: -1 }));
  const carts = Array.from({ length: vehicles }, () => ({ place: home, free: 0 }));
  const placeFree = locations.map(() => 0);

  const step = (makespan: number): void => {
    if (makespan >= best) return;
    if (state.every(({ next }, j) => next === jobs[j]!.operations.length)) { best = makespan; return; }
    state.forEach((job, j) => {
      const operation = jobs[j]!.operations[job.next];
      if (operation === undefined) return;
      const before = { ...job };
      if (job.chosen >= 0) {
        const { duration } = operation.alternatives[job.chosen]!;
        const free = placeFree[job.place]!;
        const end = Math.max(job.ready, free) + duration;
        placeFree[job.place] = end;
        Object.assign(job, { next: job.next + 1, ready: end, chosen: -1 });
        step(Math.max(makespan, end));
        placeFree[before.place] = free;
        Object.assign(job, before);
        return;
      }
      operation.alternatives.forEach((alternative, chosen) => {
        const to = at(alternative.at);
        if (vehicles === 0 || to === job.place) {
          Object.assign(job, { chosen, place: to });
          step(makespan);
          Object.assign(job, before);
          return;
        }
        carts.forEach((cart, v) => {
          if (carts.findIndex((other) => other.place === cart.place && other.free === cart.free) < v) return;
          const was = { ...cart };
          const arrive = Math.max(job.ready, cart.free + (cart.place === job.place ? 0 : travelTime[cart.place]![job.place]!)) + travelTime[job.place]![to]!;
          Object.assign(cart, { place: to, free: arrive });
          Object.assign(job, { chosen, place: to, ready: arrive });
          step(Math.max(makespan, arrive));
          Object.assign(cart, was);
          Object.assign(job, before);
        });
      });
    });
  };
  step(0);
  return best;
}
