/** Pooling networks of the literature: proven or not, gap, boxes, time. `npx tsx bench/pooling.ts [name ...]` */
import { readFileSync } from 'node:fs';
import { loadLinearSolver } from '../src/planning/solver/loadLinearSolver.ts';
import { solvePooling } from '../src/planning/solver/pooling/solvePooling.ts';
import { readPoolingInstance, type PoolingInstance } from '../test/pooling/readPoolingInstance.ts';

const path = new URL('../../shared/data/scheduling/pooling.json', import.meta.url);
const wanted = process.argv.slice(2);
const solver = await loadLinearSolver();
const { instances } = JSON.parse(readFileSync(path, 'utf8')) as { instances: PoolingInstance[] };
for (const instance of instances) {
  if (wanted.length > 0 && !wanted.includes(instance.name)) continue;
  const from = performance.now();
  const found = solvePooling(readPoolingInstance(instance), solver, { maxNodes: 20_000 });
  const ms = performance.now() - from;
  const gapPct = (100 * (found.cost - found.lowerBound)) / Math.max(1, Math.abs(found.cost));
  console.log(`${instance.name.padEnd(9)} ${found.status.padEnd(8)} cost ${found.cost.toFixed(4).padStart(11)}  bound ${found.lowerBound.toFixed(4).padStart(11)}  gap ${gapPct.toFixed(4)} %  published ${instance.optimum ?? instance.objective ?? '-'}  ${found.nodes} boxes, ${found.programmes} programmes, ${ms.toFixed(0)} ms`);
}
