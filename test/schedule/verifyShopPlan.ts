/**
 * Checks a job shop's plan against its file with nothing but the numbers of the two: no code of the planner is used. Returns what
 * is broken, in words; empty when the plan is good. Tolerance 1e-6 units of time.
 */
interface ShopFile {
  readonly vehicles: number; readonly locations: readonly string[]; readonly travelTime?: readonly (readonly number[])[]; readonly startAt?: string | null;
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
  const travel = (from: string, to: string): number => file.travelTime![file.locations.indexOf(from)]![file.locations.indexOf(to)]!;
  let latest = 0, expectedMoves = 0;
  for (const job of file.jobs) {
    const own = plan.operations.filter((operation) => operation.job === job.id);
    if (own.length !== job.operations.length) broken.push(`${job.id} has ${own.length} operations`);
    const moves = plan.moves.filter((move) => move.job === job.id).sort((a, b) => a.depart - b.depart);
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
        }
      }
      if (done.start < ready - tolerance) broken.push(`${name} starts before it is there`);
      [place, ready] = [done.at, done.end];
      latest = Math.max(latest, done.end);
    });
  }
  if (plan.moves.length !== expectedMoves) broken.push(`${plan.moves.length} moves where ${expectedMoves} are needed`);
  if (plan.operations.length !== file.jobs.reduce((sum, job) => sum + job.operations.length, 0)) broken.push('operations that nobody asked for');
  for (const at of file.locations) {
    const there = plan.operations.filter((operation) => operation.at === at).sort((a, b) => a.start - b.start || a.end - b.end);
    there.forEach((operation, i) => { if (i > 0 && operation.start < there[i - 1]!.end - tolerance) broken.push(`two operations at ${at} at ${operation.start}`); });
  }
  const vehicles = new Set(plan.moves.map(({ vehicle }) => vehicle));
  for (const vehicle of vehicles) {
    if (!Number.isInteger(vehicle) || vehicle < 0 || vehicle >= file.vehicles) broken.push(`there is no vehicle ${vehicle}`);
    let [place, free] = [file.startAt ?? '', 0];
    for (const move of plan.moves.filter((one) => one.vehicle === vehicle).sort((a, b) => a.depart - b.depart || a.arrive - b.arrive)) {
      const empty = place === move.from ? 0 : travel(place, move.from);
      if (move.depart < free + empty - tolerance) broken.push(`vehicle ${vehicle} cannot be at ${move.from} at ${move.depart}`);
      [place, free] = [move.to, move.arrive];
    }
  }
  if (Math.abs(latest - plan.makespan) > tolerance) broken.push(`makespan is ${latest}, not ${plan.makespan}`);
  if (plan.lowerBound > plan.makespan + tolerance) broken.push('the bound lies above the plan');
  if (plan.proven !== (Math.abs(plan.makespan - plan.lowerBound) < tolerance)) broken.push('proven and the bound disagree');
  return broken;
}
