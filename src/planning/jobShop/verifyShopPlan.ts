/**
 * Checks a job shop's plan against its file with nothing but the numbers of the two: no code of the planner is used. Returns what
 * is broken, in words; empty when the plan is good. Tolerance 1e-6 units of time.
 */
interface ShopFile {
  readonly vehicles: number; readonly locations: readonly string[]; readonly travelTime?: readonly (readonly number[])[] | undefined; readonly startAt?: string | null | undefined;
  readonly buffers?: Readonly<Record<string, number>> | null | undefined;
  readonly jobs: readonly { readonly id: string; readonly operations: readonly { readonly alternatives: readonly { readonly at: string; readonly duration: number }[] }[] }[];
}
interface ShopAnswer {
  readonly makespan: number; readonly lowerBound: number; readonly proven: boolean;
  readonly operations: readonly { readonly job: string; readonly index: number; readonly at: string; readonly start: number; readonly end: number }[];
  readonly moves: readonly { readonly job: string; readonly from: string; readonly to: string; readonly vehicle: number; readonly depart: number; readonly arrive: number }[];
}

export function verifyShopPlan(file: ShopFile, plan: ShopAnswer): string[] {
  const broken: string[] = [];
  const tolerance = 1e-6;
  const carried = file.vehicles > 0;
  const indexOf = new Map(file.locations.map((name, i) => [name, i]));
  const travel = (from: string, to: string): number => file.travelTime![indexOf.get(from)!]![indexOf.get(to)!]!;
  const [operationsOf, movesOf, operationsAt, movesBy] = [listBy(plan.operations, ({ job }) => job), listBy(plan.moves, ({ job }) => job), listBy(plan.operations, ({ at }) => at), listBy(plan.moves, ({ vehicle }) => vehicle)];
  const stays: Stay[] = [];
  let latest = 0, expectedMoves = 0;
  for (const job of file.jobs) {
    const own = operationsOf.get(job.id) ?? [];
    if (own.length !== job.operations.length) broken.push(`${job.id} has ${own.length} operations`);
    const moves = [...(movesOf.get(job.id) ?? [])].sort((a, b) => a.depart - b.depart);
    let stay: Stay | undefined;
    let [place, ready] = [file.startAt ?? '', 0];
    job.operations.forEach((operation, index) => {
      const name = `${job.id}.${index}`;
      const done = own.find((one) => one.index === index);
      if (done === undefined) { broken.push(`${name} is not planned`); return; }
      const chosen = operation.alternatives.find(({ at }) => at === done.at);
      if (chosen === undefined) { broken.push(`${name} cannot be done at ${done.at}`); return; }
      if (Math.abs(done.end - done.start - chosen.duration) > tolerance) broken.push(`${name} takes ${done.end - done.start}, not ${chosen.duration}`);
      if (carried && place !== done.at) {
        const move = moves.shift();
        expectedMoves += 1;
        if (move === undefined) broken.push(`${name} is not carried to`);
        else {
          if (move.from !== place || move.to !== done.at) broken.push(`${name} is carried from ${move.from} to ${move.to}, not from ${place} to ${done.at}`);
          if (move.depart < ready - tolerance) broken.push(`${name} leaves before it is ready`);
          if (Math.abs(move.arrive - move.depart - travel(move.from, move.to)) > tolerance) broken.push(`${name} is carried too fast or too slow`);
          ready = move.arrive;
          if (stay !== undefined) stay.until = move.depart;
          stay = undefined;
        }
      }
      if (done.start < ready - tolerance) broken.push(`${name} starts before it is there`);
      if (stay === undefined) { stay = { job: job.id, at: done.at, from: ready, until: done.end }; stays.push(stay); } else stay.until = done.end;
      [place, ready] = [done.at, done.end];
      latest = Math.max(latest, done.end);
    });
  }
  if (plan.moves.length !== expectedMoves) broken.push(`${plan.moves.length} moves where ${expectedMoves} are needed`);
  if (plan.operations.length !== file.jobs.reduce((sum, job) => sum + job.operations.length, 0)) broken.push('operations that nobody asked for');
  for (const at of file.locations) {
    const there = [...(operationsAt.get(at) ?? [])].sort((a, b) => a.start - b.start || a.end - b.end);
    there.forEach((operation, i) => { if (i > 0 && operation.start < there[i - 1]!.end - tolerance) broken.push(`two operations at ${at} at ${operation.start}`); });
  }
  for (const [vehicle, trips] of movesBy) {
    if (!Number.isInteger(vehicle) || vehicle < 0 || vehicle >= file.vehicles) broken.push(`there is no vehicle ${vehicle}`);
    let [place, free] = [file.startAt ?? '', 0];
    for (const move of [...trips].sort((a, b) => a.depart - b.depart || a.arrive - b.arrive)) {
      const empty = place === move.from ? 0 : travel(place, move.from);
      if (move.depart < free + empty - tolerance) broken.push(`vehicle ${vehicle} cannot be at ${move.from} at ${move.depart}`);
      [place, free] = [move.to, move.arrive];
    }
  }
  for (const [at, waiting] of Object.entries(file.buffers ?? {})) broken.push(...verifyPlaces(at, waiting, stays.filter((one) => one.at === at), operationsAt.get(at) ?? []));
  if (Math.abs(latest - plan.makespan) > tolerance) broken.push(`makespan is ${latest}, not ${plan.makespan}`);
  if (plan.lowerBound > plan.makespan + tolerance) broken.push('the bound lies above the plan');
  if (plan.proven !== (Math.abs(plan.makespan - plan.lowerBound) < tolerance)) broken.push('proven and the bound disagree');
  return broken;
}

/** A job at a location, from its arrival until it is picked up or has ended. */
interface Stay { readonly job: string; readonly at: string; readonly from: number; until: number }

/**
 * At most `waiting` + 1 jobs at once; and before an operation begins, the job that was at the machine before it must have left, or there must have been a moment, after
 * its end, at which not all places were taken, so that it could step aside. Who leaves goes before who comes at the same moment.
 */
function verifyPlaces(at: string, waiting: number, stays: readonly Stay[], operations: ShopAnswer['operations']): string[] {
  const small = 1e-6;
  const there = (time: number): number => stays.filter(({ from, until }) => from < time - small && until > time + small).length;
  const after = (time: number): number => stays.filter(({ from, until }) => from < time + small && until > time + small).length;
  const broken = stays.filter(({ from, until }) => until > from + small && after(from) > waiting + 1).map(({ job, from }) => `${job} comes to ${at} at ${from}, where all places are taken`);
  const inOrder = [...operations].sort((a, b) => a.start - b.start || a.end - b.end);
  inOrder.forEach((next, i) => {
    const last = inOrder[i - 1];
    if (last === undefined || last.job === next.job) return;
    const stay = stays.find(({ job, from, until }) => job === last.job && from <= last.start + small && until >= last.end - small)!;
    if (stay.until <= next.start + small) return;
    const moments = [last.end, ...stays.map(({ until }) => until).filter((time) => time >= last.end && time <= next.start + small)];
    if (!moments.some((time) => there(time) <= waiting)) broken.push(`${last.job} is in the way of ${next.job} at ${at} at ${next.start}`);
  });
  return broken;
}

function listBy<T, K>(items: readonly T[], keyOf: (item: T) => K): Map<K, T[]> {
  const lists = new Map<K, T[]>();
  for (const item of items) { const list = lists.get(keyOf(item)); if (list === undefined) lists.set(keyOf(item), [item]); else list.push(item); }
  return lists;
}
