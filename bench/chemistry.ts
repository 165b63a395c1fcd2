/**
 * How many waters a second the chemistry works out on one core: `npx tsx bench/chemistry.ts`.
 * 4,000 waters around a lettuce solution, a tomato solution, a hard tap water and a returned solution, each with pH by charge balance,
 * pH given in air, or pH from alkalinity. Seeded; the waters are made before the clock starts.
 */
import { cpus } from 'node:os';
import { describeWaters } from '../src/science/chemistry/describeWaters.ts';
import { TOTALS } from '../src/science/chemistry/equilibriumSystem.ts';
import type { EquilibriumProblem } from '../src/science/chemistry/equilibriumProblem.ts';
import { saturationIndices } from '../src/science/chemistry/saturation.ts';
import { solveEquilibrium, speciatedEcUsPerCm, type Speciation } from '../src/science/chemistry/speciation.ts';
import type { Composition } from '../src/science/chemistry/composition.ts';
import { startRandom } from '../src/science/seededRandom.ts';

const WATERS: readonly Composition[] = [
  { NH4: 1.25, K: 11, Ca: 4.5, Mg: 1, NO3: 19, SO4: 1.135, P: 2, Fe: 0.04, Mn: 0.005, Zn: 0.004, B: 0.03, Cu: 0.00075, Mo: 0.0005 },
  { NH4: 1.2, K: 9.5, Ca: 5.4, Mg: 2.4, NO3: 16, SO4: 4.4, P: 1.5, Fe: 0.015, Mn: 0.01, Zn: 0.005, B: 0.03, Cu: 0.00075, Mo: 0.0005 },
  { Ca: 2.5, Mg: 0.6, Na: 1.5, K: 0.1, SO4: 0.8, Cl: 1.55, NO3: 0.15, Si: 0.25 },
  { NH4: 0.1, K: 8, Ca: 6, Mg: 3, Na: 9, NO3: 20, Cl: 7, SO4: 5, P: 1.2, Fe: 0.03, Mn: 0.004, Zn: 0.006, B: 0.05, Cu: 0.001 },
];
const random = startRandom(20240501);
const problems = Array.from({ length: 4000 }, (_, index): EquilibriumProblem => {
  const base = WATERS[index % WATERS.length]!;
  const totalsMolPerKg = Float64Array.from(TOTALS, (name) => ((base[name] ?? 0) / 1000) * (0.8 + 0.4 * random.uniform()));
  const kind = Math.floor(index / WATERS.length) % 3;
  return {
    temperatureC: [15, 18, 20, 22, 25][index % 5]!, totalsMolPerKg,
    protons: kind === 0 ? { by: 'charge' } : kind === 1 ? { by: 'pH', pH: 5.2 + 2 * random.uniform() } : { by: 'alkalinity', eqPerKg: 0.004 * random.uniform() },
    carbon: kind === 1 ? { by: 'air', log10PCO2Atm: -3.4 } : { by: 'total', molPerKg: 0.001 + 0.004 * random.uniform() },
  };
});

function solved(problem: EquilibriumProblem): Speciation {
  const outcome = solveEquilibrium(problem);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value;
}

/** Best of five passes, by processor time, so that other programs on the machine do not count. */
function measure(name: string, work: (problem: EquilibriumProblem, index: number) => unknown): void {
  let best = Infinity;
  for (let pass = 0; pass < 6; pass += 1) {
    const before = process.cpuUsage();
    problems.forEach(work);
    const { user, system } = process.cpuUsage(before);
    if (pass > 0) best = Math.min(best, (user + system) / problems.length);
  }
  console.log(`${name.padEnd(62)} ${best.toFixed(1).padStart(7)} us ${Math.round(1e6 / best).toLocaleString('en').padStart(9)} a second`);
}

const found = problems.map(solved);
const newton = found.filter(({ method }) => method === 'newton').length;
console.log(`${problems.length} waters, ${newton} by Newton's method, ${(found.reduce((sum, { rounds }) => sum + rounds, 0) / newton).toFixed(1)} rounds each; ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.version}`);
measure('speciation', solved);
measure('speciation, saturation indices, conductivity', (problem) => { const water = solved(problem); saturationIndices(water); return speciatedEcUsPerCm(water); });
measure('the same from the solution of the same water (warm start)', (problem, index) => { const water = solved({ ...problem, near: found[index]! }); saturationIndices(water); return speciatedEcUsPerCm(water); });
const stated = problems.map((problem, index) => ({ waters: [{ id: `w${index}`, temperatureC: problem.temperatureC, pH: 'charge', log10PCO2Atm: -3.4,
  totalsMmolPerKg: Object.fromEntries(TOTALS.map((name, t) => [name, 1000 * problem.totalsMolPerKg[t]!])) }] }));
measure('describeWaters: checked JSON to JSON, with conductivity at 25 C', (_problem, index) => describeWaters(stated[index]));
