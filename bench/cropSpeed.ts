/**
 * Speed of the lot forecasts: 600 basins x 200 members x 30 days by the hour on two worker threads, and 70 lots x 100 members
 * x 30 days on one. Run: npx tsx bench/cropSpeed.ts
 */
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { KNOWN_CROP_GROWTHS } from '../src/science/crop/cropGrowths.ts';
import { forecastLot } from '../src/science/crop/forecastLot.ts';
import { createLotEnsemble } from '../src/science/crop/lotEnsemble.ts';
import type { HourlyClimate } from '../src/science/crop/growthModel.ts';
import { createGrowthModel } from '../src/science/crop/growthModels.ts';
import { DEFAULT_GROWTH_PRIOR } from '../src/science/crop/growthPrior.ts';
import { LETTUCE_DRY_MATTER } from '../src/science/crop/dryMatter.ts';
import type { LotForecastInput } from '../src/science/crop/lotForecast.ts';
import { walkLot } from '../src/science/crop/walkLot.ts';
import { startRandom } from '../src/science/seededRandom.ts';

const FIRST_DAY = 19_000;

function makeClimate(days: number): HourlyClimate {
  const of = (value: (hourOfDay: number) => number) => Float64Array.from({ length: days * 24 }, (_, i) => value(i % 24));
  return {
    startUtcHour: FIRST_DAY * 24, utcOffsetH: 0, airC: of((h) => 18 + 3 * Math.sin((h - 8) * Math.PI / 12)), co2Ppm: of(() => 700),
    ppfdUmolM2S: of((h) => (h > 6 && h < 20 ? 350 * Math.sin((h - 6) * Math.PI / 14) : 0)),
  };
}

/** Ensembles alone: growth, re-spacing, disturbances, one look a week. */
function growBasins(modelId: string, basins: number, members: number, days: number): number {
  const climate = makeClimate(days + 2);
  const model = createGrowthModel(modelId, {});
  if (!model.ok) throw new Error('model refused');
  let sum = 0;
  for (let basin = 0; basin < basins; basin += 1) {
    const random = startRandom(basin);
    const ensemble = createLotEnsemble(model.value, DEFAULT_GROWTH_PRIOR, { shootDryGPerPlant: 0.5, logSd: 0.2, plantsPerM2: 60 }, members, random);
    walkLot({
      climate, startDay: FIRST_DAY, endDay: FIRST_DAY + days, plantsPerM2On: (day) => (day < FIRST_DAY + 15 ? 60 : 24), dryMatter: LETTUCE_DRY_MATTER,
      looks: [7, 14, 21].map((day) => ({ day: FIRST_DAY + day, quantity: 'dryG', logMean: Math.log(0.5) + 0.15 * day, logSd: 0.1 })),
    }, ensemble, random);
    sum += ensemble.states[0]![0]!;
  }
  return sum;
}

function lotInput(seed: number): LotForecastInput {
  const at = '2022-02-20';
  return {
    crop: KNOWN_CROP_GROWTHS['lettuce']!, climate: { ...makeClimate(70), startUtcHour: Math.floor(Date.UTC(2022, 1, 1) / 3.6e6) }, planting: '2022-02-03', at, horizonDays: 30, seed, members: 100,
    densities: [{ date: '2022-02-03', plantsPerM2: 90 }, { date: '2022-02-17', plantsPerM2: 45 }, { date: '2022-03-01', plantsPerM2: 22 }],
    samples: [{ date: '2022-02-10', plants: [{ freshG: 4, dryG: 0.3 }, { freshG: 5, dryG: 0.35 }] }, { date: '2022-02-17', plants: [{ freshG: 18, dryG: 1 }, { freshG: 22, dryG: 1.2 }] }],
  };
}

/** Wall clock and processor time, s: on a machine that others use, the second says more. */
function timed(work: () => void): { wallS: number; cpuS: number } {
  const start = performance.now();
  const cpu = process.cpuUsage();
  work();
  const used = process.cpuUsage(cpu);
  return { wallS: (performance.now() - start) / 1000, cpuS: (used.user + used.system) / 1e6 };
}
const told = (time: { wallS: number; cpuS: number }) => `${time.wallS.toFixed(2)} s (${time.cpuS.toFixed(2)} s of processor)`;

function forecastLots(lots: number): void {
  for (let lot = 0; lot < lots; lot += 1) {
    const forecast = forecastLot(lotInput(lot));
    if (!forecast.ok) throw new Error(JSON.stringify(forecast.refusals));
  }
}

/** A thread that reads TypeScript as this one does. */
const STARTS_TYPESCRIPT = `import('tsx/esm/api').then((tsx) => { tsx.register(); return import(${JSON.stringify(import.meta.url)}); })`;

async function onTwoThreads(modelId: string): Promise<{ wallS: number; cpuS: number }> {
  const start = performance.now();
  const cpu = process.cpuUsage();
  await Promise.all([0, 1].map(() => new Promise<void>((resolve, reject) => {
    const worker = new Worker(STARTS_TYPESCRIPT, { eval: true, workerData: { modelId } });
    worker.once('message', () => resolve());
    worker.once('error', reject);
  })));
  const used = process.cpuUsage(cpu);
  return { wallS: (performance.now() - start) / 1000, cpuS: (used.user + used.system) / 1e6 };
}

async function report(): Promise<void> {
  for (const modelId of ['two-state-lettuce', 'expolinear']) {
    const alone = timed(() => growBasins(modelId, 60, 200, 30));
    console.log(`${modelId}: 60 basins x 200 members x 720 h on one core ${told(alone)}: ${(alone.cpuS * 1e9 / (60 * 200 * 720)).toFixed(0)} ns of processor a member-hour`);
    console.log(`${modelId}: 600 basins x 200 members x 720 h on two worker threads, start of the threads included: ${told(await onTwoThreads(modelId))}`);
  }
  forecastLots(3);
  console.log(`forecastLot: 70 lots x 100 members, 17 days since planting and 30 ahead, on one core: ${told(timed(() => forecastLots(70)))}`);
}

if (isMainThread) await report();
else {
  growBasins((workerData as { modelId: string }).modelId, 300, 200, 30);
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker thread, not a window
  parentPort!.postMessage('done');
}
