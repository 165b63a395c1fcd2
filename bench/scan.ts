// Speed and accuracy of scans on scenes of the generator, fixed seeds.
//   node bin/build.js && npx tsx bench/scan.ts             speed of the built program: 4 and 10 million points, warm and in a fresh process
//   npx tsx bench/scan.ts accuracy [PIXEL_MM] [SEED] [SEEDS]  accuracy over seeds from SEED on, of each build and stage; closed with an earlier scan too
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { EarlierPlant } from '../src/science/scan/readPreviousScan.ts';
import { scanCloud } from '../src/science/scan/scanBasin.ts';
import { startRandom } from '../src/science/seededRandom.ts';
import { makeScene, SCENE_LAYOUT, type Scene } from '../src/twin/scan/makeScene.ts';
import { writePly } from '../src/twin/scan/writePly.ts';
import { scoreScene, type SceneScore } from '../test/scan/scoreScene.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
/**
 * kB. Not the system's maximum resident size: a process begins with that of the process it was forked from, here the bench with its scene
 * and file in memory. What the kernel says of the process's own memory begins at the new program.
 */
const MOST_MEMORY = `(process.platform === 'linux' ? Number(/VmHWM:\\s+(\\d+)/.exec(readFileSync('/proc/self/status', 'utf8'))[1]) : process.resourceUsage().maxRSS)`;

if (process.argv[2] === 'accuracy') accuracy(Number(process.argv[3] ?? 3.2), Number(process.argv[4] ?? 1), Number(process.argv[5] ?? 4));
else speed();

function accuracy(pixelMm: number, first: number, seeds: number): void {
  for (const build of ['leafy', 'airy'] as const) {
    for (const stage of ['young', 'touching', 'closed'] as const) {
      for (let seed = first; seed < first + seeds; seed += 1) measureScene(makeScene({ build, stage, seed, rig: { pixelMm } }), `${build} ${stage} ${seed}`, stage === 'closed');
    }
  }
}

function measureScene(scene: Scene, name: string, again: boolean): void {
  const score = scoreOf(scene, []);
  if (score === undefined) return;
  const informed = again ? scoreOf(scene, earlierOf(scene))?.labels : undefined;
  console.log(`${name}: ${scene.cloud.count} points; area ${score.areaPercent.toFixed(1)} ± ${score.areaScatterPercent.toFixed(1)} %, volume ${score.volumePercent.toFixed(1)} ± ${score.volumeScatterPercent.toFixed(1)} %, P95 ${score.heightMm.toFixed(2)} ± ${score.heightScatterMm.toFixed(1)} mm, labels ${score.labels.toFixed(3)}${informed === undefined ? '' : ` (${informed.toFixed(3)} with an earlier scan)`}, false ${score.falsePlants}, missed ${score.missedPlants}, visible by raft ${score.visiblePercent.map((value) => value.toFixed(1)).join(' / ')} %`);
}

function scoreOf(scene: Scene, earlier: readonly EarlierPlant[]): SceneScore | undefined {
  const scan = scanCloud(scene.cloud, SCENE_LAYOUT, earlier);
  if (scan.ok) return scoreScene(scan.value, scene.plants, scene);
  console.log(JSON.stringify(scan.refusals));
  return undefined;
}

/** Radii of the plants, 10 % off (standard deviation of the logarithm). */
function earlierOf({ plants }: Scene): EarlierPlant[] {
  const random = startRandom(5);
  return plants.flatMap(({ raft, position, empty, areaMm2 }) => (empty ? [] : [{ raft, position: SCENE_LAYOUT.rafts[raft]!.positions[position]!.id, radiusMm: Math.sqrt(areaMm2 / Math.PI) * Math.exp(0.1 * random.normal()) }]));
}

function speed(): void {
  const folder = mkdtempSync(join(tmpdir(), 'scan-bench-'));
  try {
    const scene = makeScene({ stage: 'touching', seed: 4, rig: { pixelMm: 0.8 } });
    const layout = join(folder, 'layout.json');
    writeFileSync(layout, JSON.stringify({ unit: 'mm', ...SCENE_LAYOUT }));
    for (const count of [4_000_000, 10_000_000]) {
      const cloud = join(folder, `${count}.ply`);
      writeFileSync(cloud, writePly(scene.cloud, count));
      warm(cloud, layout, count);
      for (let k = 0; k < 3; k += 1) fresh(cloud, layout, count);
      rmSync(cloud);
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Ten scans in one process that keeps its second thread. */
function warm(cloud: string, layout: string, count: number): void {
  const program = `
    const { scanFile } = await import(${JSON.stringify(join(root, 'dist/store/scan/scanFile.js'))});
    const { startScanHelper } = await import(${JSON.stringify(join(root, 'dist/store/scan/startScanHelper.js'))});
    const { readLayout } = await import(${JSON.stringify(join(root, 'dist/science/scan/readLayout.js'))});
    const { readFileSync } = await import('node:fs');
    const layout = readLayout(JSON.parse(readFileSync(${JSON.stringify(layout)}, 'utf8')), 'layout').value, helper = startScanHelper(), ms = [];
    for (let k = 0; k < 10; k += 1) { const from = performance.now(); const scan = await scanFile(${JSON.stringify(cloud)}, layout, [], helper); if (!scan.ok) throw new Error(JSON.stringify(scan.refusals)); ms.push(Math.round(performance.now() - from)); }
    console.log(ms.join(' '), 'ms; most memory', Math.round(${MOST_MEMORY} / 1000), 'MB');
    await helper?.stop();`;
  const file = `${cloud}.mjs`;
  writeFileSync(file, program);
  const run = spawnSync(process.execPath, [file], { encoding: 'utf8' });
  console.log(`${count} points, ten scans in one process: ${run.stdout.trim()}${run.stderr}`);
}

/** From the start of the process to the printed table. */
function fresh(cloud: string, layout: string, count: number): void {
  const from = performance.now();
  const run = spawnSync(process.execPath, [join(root, 'dist/cli/main.js'), 'scan', cloud, '--basin', layout, '--json'], { encoding: 'utf8', maxBuffer: 1 << 26 });
  const ms = performance.now() - from;
  const answer = JSON.parse(run.stdout) as { plants?: { present: boolean }[]; seconds?: Record<string, number> };
  console.log(`${count} points, fresh process: ${ms.toFixed(0)} ms, ${answer.plants?.filter((plant) => plant.present).length} plants, ${JSON.stringify(answer.seconds)}`);
}
