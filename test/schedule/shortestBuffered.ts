import type { JobShopProblem } from '../../src/planning/jobShop/jobShopProblem.ts';

interface Job { next: number; place: number; spot: number; since: number; isDone: boolean }

/**
 * The shortest makespan with finite waiting places by trying every order of steps, each as early as what was decided before allows: a job is picked up and brought
 * to one spot of a location (0 is the machine, the others wait); a job at the machine that is not worked on steps to a free spot; an operation begins for a job
 * at the machine, or one that steps there from its spot. Every spot is kept by itself; nothing is shared with the planner.
 */
export function shortestBuffered({ vehicles, locations, travelTime, startAt, jobs, buffers }: JobShopProblem): number {
  const home = locations.indexOf(startAt);
  const state: Job[] = jobs.map(() => ({ next: 0, place: home, spot: -1, since: 0, isDone: true }));
  const carts = Array.from({ length: vehicles }, () => ({ place: home, free: 0 }));
  // Since when a spot is free; Infinity while somebody is there. The start has a spot 0, its machine, and room without end (spot -1).
  const spots = locations.map((name) => Array.from({ length: 1 + (buffers?.[name] ?? 0) }, () => 0));
  const rest = jobs.map(({ operations }) => { const sum = [0]; for (let i = operations.length - 1; i >= 0; i -= 1) sum.unshift(sum[0]! + Math.min(...operations[i]!.alternatives.map(({ duration }) => duration))); return sum; });
  let best = Infinity;

  const step = (makespan: number): void => {
    if (state.some((job, j) => job.since + rest[j]![job.next]! >= best) || makespan >= best) return;
    if (state.every(({ next }, j) => next === jobs[j]!.operations.length)) { best = makespan; return; }
    state.forEach((job, j) => {
      if (job.next === jobs[j]!.operations.length) return;
      if (job.isDone) bring(job, j, makespan); else begin(job, j, makespan);
      stepAside(job, makespan);
    });
  };
  const leave = (job: Job, time: number): (() => void) => {
    if (job.spot < 0) return () => undefined;
    const { place, spot } = job, before = spots[place]![spot]!;
    spots[place]![spot] = time;
    return () => { spots[place]![spot] = before; };
  };
  const bring = (job: Job, j: number, makespan: number): void => {
    for (const place of new Set(jobs[j]!.operations[job.next]!.alternatives.map(({ at }) => locations.indexOf(at)))) {
      const before = { ...job };
      if (place === job.place) { job.isDone = false; step(makespan); Object.assign(job, before); continue; }
      carts.forEach((cart, v) => {
        if (carts.findIndex((other) => other.place === cart.place && other.free === cart.free) < v) return;
        spots[place]!.forEach((free, spot) => {
          if (free === Infinity || spots[place]!.indexOf(free, 1) < spot && spot > 0) return;
          const was = { ...cart }, ticks = travelTime[job.place]![place]!;
          const depart = Math.max(job.since, cart.free + (cart.place === job.place ? 0 : travelTime[cart.place]![job.place]!), free - ticks);
          const undo = leave(job, depart);
          spots[place]![spot] = Infinity;
          Object.assign(job, { place, spot, since: depart + ticks, isDone: false });
          Object.assign(cart, { place, free: depart + ticks });
          step(Math.max(makespan, depart + ticks));
          spots[place]![spot] = free;
          undo();
          Object.assign(cart, was); Object.assign(job, before);
        });
      });
    }
  };
  const begin = (job: Job, j: number, makespan: number): void => {
    const machine = spots[job.place]![0]!;
    if (job.spot !== 0 && machine === Infinity) return;
    const before = { ...job };
    const start = job.spot === 0 ? job.since : Math.max(job.since, machine);
    const { duration } = jobs[j]!.operations[job.next]!.alternatives.find(({ at }) => locations.indexOf(at) === job.place)!;
    const undo = job.spot === 0 ? () => undefined : leave(job, start);
    const isLast = job.next + 1 === jobs[j]!.operations.length;
    const isHome = job.place === home;
    spots[job.place]![0] = isLast || isHome ? start + duration : Infinity;
    Object.assign(job, { spot: isLast || isHome ? -1 : 0, next: job.next + 1, since: start + duration, isDone: true });
    step(Math.max(makespan, start + duration));
    spots[before.place]![0] = machine;
    undo();
    Object.assign(job, before);
  };
  const stepAside = (job: Job, makespan: number): void => {
    if (job.spot !== 0) return;
    const before = { ...job };
    const own = spots[job.place]!;
    own.forEach((free, spot) => {
      if (spot === 0 || free === Infinity || own.indexOf(free, 1) < spot) return;
      const time = Math.max(job.since, free);
      own[0] = time; own[spot] = Infinity;
      Object.assign(job, { spot, since: time });
      step(makespan);
      own[0] = Infinity; own[spot] = free;
      Object.assign(job, before);
    });
  };
  step(0);
  return best;
}
