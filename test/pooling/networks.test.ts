import { existsSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { LinearSolver } from '../../src/planning/solver/linearModel.ts';
import { loadLinearSolver } from '../../src/planning/solver/loadLinearSolver.ts';
import { solvePooling } from '../../src/planning/solver/pooling/solvePooling.ts';
import { checkPooling } from './checkPooling.ts';
import { readPoolingInstance, type PoolingInstance } from './readPoolingInstance.ts';

const FILE = '../shared/data/scheduling/pooling.json';
const present = existsSync(FILE);
if (!present) console.warn(`Networks of the literature skipped: ${FILE} is not here.`);
const instances = present ? (JSON.parse(readFileSync(FILE, 'utf8')) as { instances: PoolingInstance[] }).instances : [];

let solver: LinearSolver;
beforeAll(async () => { solver = await loadLinearSolver(); });

// Haverly 1978; Ben-Tal, Eiger & Gershovitz 1994; Foulds, Haugland & Jornsten 1992; Adhya, Tawarmalani & Sahinidis 1999; rt2: Audet et al. 2004.
// Optima: MINLPLib, primal and dual bound equal; of rt2 the best known of the network's own file.
describe.skipIf(!present)('pooling networks of the literature', () => {
  it.each(instances.map((instance) => [instance.name, instance] as const))('%s: proven, equal to the published optimum, and it holds every limit', (name, instance) => {
    const problem = readPoolingInstance(instance);
    const published = (instance.optimum ?? instance.objective)!;
    const found = solvePooling(problem, solver, { maxNodes: 500 });
    const { broken, cost } = checkPooling(problem, found);
    console.log(`${name}: ${found.status}, cost ${found.cost.toFixed(4)}, bound ${found.lowerBound.toFixed(4)}, published ${published}, ${found.nodes} boxes`);
    expect(broken).toEqual([]);
    expect(cost).toBeCloseTo(found.cost, 5);
    expect(found.status).toBe('optimal');
    expect(Math.abs(found.cost - published)).toBeLessThan(2e-6 * Math.abs(published));
    expect(found.cost - found.lowerBound).toBeLessThanOrEqual(1.001e-6 * Math.abs(published));
  });

  it('never bounds above the optimum when the boxes run out, and says so', () => {
    for (const instance of instances) {
      const found = solvePooling(readPoolingInstance(instance), solver, { maxNodes: 1 });
      const published = (instance.optimum ?? instance.objective)!;
      expect(found.lowerBound).toBeLessThanOrEqual(published + 1e-5 * Math.abs(published));
      if (found.cost - found.lowerBound > 1e-5 * Math.abs(published)) expect(found.status).toBe('stopped');
    }
  });
});
