/**
 * How long 240 basins and 14 sources take to a proven optimum: `npx tsx bench/blend.ts [seed] [distinct]`.
 * A fresh process, as the `blend` command is one: loading the solver, the first blend, and nine more of other greenhouses. Two fresh
 * waters, two return tanks, ten stocks; lettuce, herbs and tomato with bands of 10 %, a third of the basins half full of used solution,
 * returned solution and one stock too scarce for all: the empty basins of a crop are alike and are mixed as one. With `distinct`
 * every basin has bands of its own (9 to 11 %), so that no two are alike. Seeded; the problems are made before the clock starts.
 */
import { cpus } from 'node:os';
import { startRandom } from '../src/science/seededRandom.ts';
import { loadLinearSolver } from '../src/planning/solver/loadLinearSolver.ts';
import { blendFile } from '../src/planning/water/blendFile.ts';

const BASINS = 240;
/** Sonneveld & Straver 1994 (lettuce, tomato), Hoagland & Arnon 1950 for herbs; all from memory, mmol/L. */
const TARGETS = [
  { NH4: 1.25, K: 11, Ca: 4.5, Mg: 1, NO3: 19, SO4: 1.125, P: 2, Fe: 0.04 },
  { NH4: 1, K: 6, Ca: 4, Mg: 2, NO3: 14, SO4: 2, P: 1, Fe: 0.03 },
  { NH4: 1.2, K: 9.5, Ca: 5.4, Mg: 2.4, NO3: 16, SO4: 4.4, P: 1.5, Fe: 0.015 },
];
const source = (id: string, mmolPerL: Record<string, number>, availableL: number, costPerL: number) => ({ id, mmolPerL, availableL, costPerL });

/** One greenhouse, from its seed. */
function greenhouse(seed: number, isDistinct: boolean) {
  const random = startRandom(seed);
  const near = (value: number): number => value * (0.8 + 0.4 * random.uniform());
  const used = (): Record<string, number> => ({ K: near(5), Ca: near(4), Mg: near(1.5), NO3: near(14), SO4: near(2), P: near(0.8), Na: near(3), Cl: near(2.5), Fe: near(0.01) });
  return {
    dischargeCostPerL: 0.004,
    sources: [
      source('rain', { Na: near(0.1), Cl: near(0.1) }, 70_000, 0.0008), source('tap', { Ca: near(2.2), Mg: near(0.5), Na: near(1), Cl: near(0.9), SO4: near(0.5), HCO3: near(4) }, 60_000, 0.002),
      source('return-1', used(), 9000, 0.0003), source('return-2', used(), 6000, 0.0003),
      source('calcium', { Ca: near(1000), NO3: near(2000) }, 900, 0.24), source('potassium-nitrate', { K: near(1000), NO3: near(1000) }, 2000, 0.14), source('mkp', { K: near(500), P: near(500) }, 800, 0.12),
      source('magnesium', { Mg: near(1000), SO4: near(1000) }, 800, 0.11), source('ammonium-nitrate', { NH4: near(1000), NO3: near(1000) }, 300, 0.06), source('potassium-sulfate', { K: near(500), SO4: near(250) }, 1500, 0.05),
      source('magnesium-nitrate', { Mg: near(1000), NO3: near(2000) }, 300, 0.3), source('iron', { Fe: near(100), Na: near(100) }, 100, 0.9), source('nitric-acid', { NO3: near(1000), HCO3: -near(1000) }, 200, 0.08), source('lye', { K: near(500), HCO3: near(500) }, 200, 0.1),
    ],
    basins: Array.from({ length: BASINS }, (_, b) => {
      const target = TARGETS[b % TARGETS.length]!;
      const share = isDistinct ? 0.09 + 0.02 * random.uniform() : 0.1;
      const band = Object.fromEntries(Object.entries(target).map(([ion, at]) => [ion, [(1 - share) * at, (1 + share) * at]]));
      return { id: `B${b}`, volumeL: b % 3 === 0 ? near(240) : 0, mmolPerL: b % 3 === 0 ? used() : {}, targetVolumeL: [485, 500], mmolPerLBand: { ...band, Na: [0, 4], Cl: [0, 4], HCO3: [0, 0.6] } };
    }),
  };
}

const seed = Number(process.argv[2] ?? 1);
const isDistinct = process.argv[3] === 'distinct';
const problems = Array.from({ length: 10 }, (_, k) => greenhouse(seed + k, isDistinct));
const started = performance.now();
const solver = await loadLinearSolver();
const loaded = performance.now();
const runs = problems.map((problem) => {
  const before = performance.now();
  const answer = blendFile(problem, solver);
  const took = performance.now() - before;
  if (!answer.ok) throw new Error(JSON.stringify(answer.refusals));
  return { took, ...answer.value };
});
const gap = Math.max(...runs.map(({ cost, lowerBound }) => Math.abs(cost - lowerBound) / cost));
const later = runs.slice(1).map(({ took }) => took).sort((a, b) => a - b);
console.log(`${BASINS} basins x ${problems[0]!.sources.length} sources, ${isDistinct ? 'no two alike' : 'empty ones of a crop alike'}, seeds ${seed} to ${seed + 9}: ${runs.filter(({ status }) => status === 'optimal').length} optimal, largest gap ${gap.toExponential(1)}; ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.version}`);
console.log(`load the solver ${(loaded - started).toFixed(0)} ms, first blend ${runs[0]!.took.toFixed(0)} ms, together ${(loaded - started + runs[0]!.took).toFixed(0)} ms; later ones median ${later[4]!.toFixed(0)} ms, slowest ${later.at(-1)!.toFixed(0)} ms`);
