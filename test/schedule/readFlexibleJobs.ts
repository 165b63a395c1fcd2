import type { JobShopProblem } from '../../src/planning/jobShop/jobShopProblem.ts';

/** Jobs from the text that the literature keeps flexible job shops in: a line a job, the number of operations, and for each the number of alternatives with machine and duration. */
export function readFlexibleJobs(text: string): JobShopProblem['jobs'] {
  return text.trim().split('\n').map((row, j) => readJob(`J${j + 1}`, row.trim().split(/\s+/).map(Number)));
}

function readJob(id: string, [operations, ...numbers]: readonly number[]): JobShopProblem['jobs'][number] {
  let at = 0;
  const next = (): number => numbers[at++]!;
  const job = { id, operations: Array.from({ length: operations! }, () => ({ alternatives: Array.from({ length: next() }, () => ({ at: `M${next()}`, duration: next() })) })) };
  if (at !== numbers.length) throw new Error(`${id}: ${numbers.length} numbers where its operations take ${at}`);
  return job;
}
