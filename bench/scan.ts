// Speed and accuracy of scans on scenes of the generator, fixed seeds.
//   node bin/build.js && npx tsx bench/scan.ts             speed of the built program: 4 and 10 million points, warm and in a fresh process
//   npx tsx bench/scan.ts accuracy [PIXEL_MM]              accuracy over seeds 1 to 4 of each stage
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { scanCloud } from '../src/science/scan/scanBasin.ts';
import { makeScene, SCENE_LAYOUT } from '../src/twin/scan/makeScene.ts';
import { writePly } from '../src/twin/scan/writePly.ts';
import { scoreScene } from '../test/scan/scoreScene.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
/**
 * kB. Not the system's maximum resident size: a process begins with that of the process it was forked from, here the bench with its scene
 * and file in memory. What the kernel says of the process's own memory begins at the new program.
 */
const MOST_MEMORY = `(process.platform === 'linux' ? Number(/VmHWM:\\s+(\\d+)/.exec(readFileSync('/proc/self/status', 'utf8'))[1]) : process.resourceUsage().maxRSS)`;

if (process.argv[2] === 'accuracy') accuracy(Number(process.argv[3] ?? 3.2));
else speed();

function accuracy(pixelMm: number): void {
  for (const stage of ['young', 'touching', 'closed'] as const) {
    for (let seed = 1; seed <= 4; seed += 1) {
      const scene = makeScene({ stage, seed, rig: { pixelMm } });
      const scan = scanCloud(scene.cloud, SCENE_LAYOUT, []);
      if (!scan.ok) { console.log(stage, seed, JSON.stringify(scan.refusals)); continue; }
      const score = scoreScene(scan.value, scene.plants, scene);
      console.log(`${stage} ${seed}: ${scene.cloud.count} points; area ${score.areaPercent.toFixed(1)} ± ${score.areaScatterPercent.toFixed(1)} %, volume ${score.volumePercent.toFixed(1)} ± ${score.volumeScatterPercent.toFixed(1)} %, P95 ${score.heightMm.toFixed(2)} ± ${score.heightScatterMm.toFixed(1)} mm, labels ${score.labels.toFixed(3)}, false ${score.falsePlants}, missed ${score.missedPlants}, visible by raft ${score.visiblePercent.map((value) => value.toFixed(1)).join(' / ')} %`);
    }
  }
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
