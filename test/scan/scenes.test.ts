import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { PointCloud } from '../../src/science/scan/pointCloud.ts';
import { openCloud } from '../../src/science/scan/read/openCloud.ts';
import type { EarlierPlant } from '../../src/science/scan/readPreviousScan.ts';
import { readLayout } from '../../src/science/scan/readLayout.ts';
import { scanCloud, type MeasuredScan } from '../../src/science/scan/scanBasin.ts';
import { makeScene, SCENE_LAYOUT, type Scene } from '../../src/twin/scan/makeScene.ts';
import { scoreScene, type SceneScore } from './scoreScene.ts';

const COARSE = { pixelMm: 3.2 };
const SHARED = new URL('../../../shared/data/scans/', import.meta.url);

function scanOf(cloud: PointCloud, earlier: readonly EarlierPlant[] = []): MeasuredScan {
  const scan = scanCloud(cloud, SCENE_LAYOUT, earlier);
  if (!scan.ok) throw new Error(JSON.stringify(scan.refusals));
  return scan.value;
}

function print(name: string, score: SceneScore): void {
  const { areaPercent: a, volumePercent: v, heightMm: h } = score;
  console.log(`${name}: area ${a.toFixed(1)} % (sd ${score.areaScatterPercent.toFixed(1)}), volume ${v.toFixed(1)} % (sd ${score.volumeScatterPercent.toFixed(1)}), P95 ${h.toFixed(2)} mm (sd ${score.heightScatterMm.toFixed(1)}), false ${score.falsePlants}, missed ${score.missedPlants}, labels ${score.labels.toFixed(3)}, visible by raft ${score.visiblePercent.map((p) => p.toFixed(1)).join(' ')} %`);
}

function expectWithin(score: SceneScore): void {
  expect(Math.abs(score.areaPercent)).toBeLessThan(5);
  expect(Math.abs(score.volumePercent)).toBeLessThan(7);
  expect(Math.abs(score.heightMm)).toBeLessThan(1.5);
  expect(score.falsePlants).toBe(0);
  expect(score.missedPlants).toBe(0);
}

describe('scenes of our own, 0.22 million points', () => {
  it.each([['young', 1], ['touching', 2]] as const)('%s plants, seed %i', (stage, seed) => {
    const scene = makeScene({ stage, seed, rig: COARSE });
    const score = scoreScene(scanOf(scene.cloud), scene.plants, scene);
    print(`${stage} ${seed}`, score);
    expectWithin(score);
    expect(score.labels).toBeGreaterThan(0.99);
  });

  it('closed plants, alone and with an earlier scan whose radii are 7 % off', () => {
    const scene = makeScene({ stage: 'closed', seed: 1, rig: COARSE });
    const score = scoreScene(scanOf(scene.cloud), scene.plants, scene);
    const informed = scoreScene(scanOf(scene.cloud, earlierOf(scene)), scene.plants, scene);
    print('closed 1', score);
    print('closed 1 with an earlier scan', informed);
    expect(score.labels).toBeGreaterThan(0.8);
    expect(informed.labels).toBeGreaterThan(0.84);
    expectRafts(score, 3, 8);
  });
});

/** Sums of visible area by raft: rosettes on the first two, upright plants and herbs on the others. */
function expectRafts({ visiblePercent }: SceneScore, rosettes: number, others: number): void {
  visiblePercent.forEach((percent, raft) => expect(Math.abs(percent), `raft ${raft}`).toBeLessThan(raft < 2 ? rosettes : others));
}

describe('airy plants, built after the figures of another generator', () => {
  it('touching, seed 7', () => {
    const scene = makeScene({ build: 'airy', stage: 'touching', seed: 7, rig: COARSE }), score = scoreScene(scanOf(scene.cloud), scene.plants, scene);
    print('airy touching 7', score);
    expectWithin(score);
    expect(score.labels).toBeGreaterThan(0.97);
  });

  it('closed, seed 7: visible area by raft', () => {
    const scene = makeScene({ build: 'airy', stage: 'closed', seed: 7, rig: COARSE }), score = scoreScene(scanOf(scene.cloud), scene.plants, scene);
    print('airy closed 7', score);
    expect(score.labels).toBeGreaterThan(0.8);
    expectRafts(score, 3, 6);
  });
});

const earlierOf = (scene: Scene): EarlierPlant[] => scene.plants.flatMap((plant, i) => (plant.empty ? [] : [{
  raft: plant.raft, position: SCENE_LAYOUT.rafts[plant.raft]!.positions[plant.position]!.id, radiusMm: Math.sqrt(plant.areaMm2 / Math.PI) * (1 + 0.1 * Math.sin(i * 7.3)) }]));

describe('poses', () => {
  it.each([['y', 0.4, 'm'], ['-z', -0.6, 'mm'], ['x', 0.1, 'm']] as const)('axis %s up, turned by %f, in %s, far from zero', (up, yawRad, unit) => {
    const request = { stage: 'touching', seed: 3, rig: { pixelMm: 4 } } as const;
    const plain = makeScene(request), turned = makeScene({ ...request, up, yawRad, unit, offsetMm: [4000, -2500, 900] });
    const one = scanOf(plain.cloud), other = scanOf(turned.cloud);
    expect(other.result.quality.unit).toBe(unit);
    const worst = Math.max(...one.result.plants.map((plant, i) => Math.abs(other.result.plants[i]!.areaMm2 - plant.areaMm2) / Math.max(3000, plant.areaMm2)));
    console.log(`${up} up: yaw ${other.result.quality.yawDeg.toFixed(1)} degrees, areas within ${(100 * worst).toFixed(1)} %`);
    expect(worst).toBeLessThan(0.12);
    expect(other.result.plants.map((plant) => plant.present)).toEqual(one.result.plants.map((plant) => plant.present));
  });

  it('the same cloud gives the same answer, bit for bit', () => {
    const { cloud } = makeScene({ stage: 'young', seed: 5, rig: { pixelMm: 5 } });
    expect(scanOf(cloud).result).toEqual(scanOf(cloud).result);
  });
});

describe('scans that cannot be trusted', () => {
  const { cloud } = makeScene({ stage: 'young', seed: 6, rig: { pixelMm: 4 } });
  const part = (keeps: (i: number) => boolean): PointCloud => {
    const kept = Array.from({ length: cloud.count }, (_, i) => i).filter(keeps);
    const { x, y, z, red, green, blue } = cloud as Required<PointCloud>;
    const pick = <T extends Float32Array | Uint8Array>(column: T): T => column.slice().map((_, k) => column[kept[k] ?? 0]!) as T;
    return { count: kept.length, origin: [0, 0, 0], x: pick(x), y: pick(y), z: pick(z), red: pick(red), green: pick(green), blue: pick(blue) };
  };
  const codes = (thing: PointCloud, layout = SCENE_LAYOUT) => { const scan = scanCloud(thing, layout, []); return scan.ok ? [] : scan.refusals.map((refusal) => refusal.code); };

  it('a basin of another size', () => expect(codes(cloud, { ...SCENE_LAYOUT, innerMm: [2600, 2600] })).toEqual(['scan-wrong-size']));
  it('half a basin', () => expect(codes(part((i) => cloud.x[i]! < 0)).length).toBeGreaterThan(0));
  it('a rim of another height', () => expect(codes(cloud, { ...SCENE_LAYOUT, rimHeightMm: 160 })).toEqual(['scan-untrusted']));
  it('a handful of points', () => expect(codes(part((i) => i % 100 === 0))).toEqual(['scan-too-few-points']));
  it('a loose cloud without a basin', () => {
    const wild = (column: Float32Array, by: number) => column.map((_, i) => (((i * by) % 9973) / 9973 - 0.5) * 1300);
    expect(codes({ ...cloud, x: wild(cloud.x, 7919), y: wild(cloud.y, 104_729), z: wild(cloud.z, 15_485) }).length).toBeGreaterThan(0);
  });
});

describe('the shared scene', () => {
  const path = new URL('basin-mid.ply', SHARED);
  it.skipIf(!existsSync(path))('touching plants of four types, 0.26 million points', () => {
    const bytes = readFileSync(path), opened = openCloud(bytes, { name: 'basin-mid.ply', bytes: bytes.length });
    const layout = readLayout(JSON.parse(readFileSync(new URL('../../data/examples/basin-layout.json', import.meta.url), 'utf8')), 'layout');
    if (!opened.ok || !layout.ok) throw new Error('unreadable');
    const stream = opened.value.startStream();
    stream.push(bytes);
    const cloud = stream.finish();
    const scan = cloud.ok ? scanCloud(cloud.value, layout.value, []) : cloud;
    if (!scan.ok) throw new Error(JSON.stringify(scan.refusals));
    const truth = JSON.parse(readFileSync(new URL('basin-mid.truth.json', SHARED), 'utf8')) as { sites: { raft: number; empty: boolean; projArea: number; vol: number; h95: number; visArea: number }[] };
    const score = scoreScene(scan.value, truth.sites.map((site) => ({ raft: site.raft, empty: site.empty, areaMm2: site.projArea, volumeMm3: site.vol, heightP95Mm: site.h95, visibleMm2: site.visArea })));
    print('shared scene', score);
    expectWithin(score);
  });
  if (!existsSync(path)) console.log('shared scene: skipped, ../shared/data/scans is not here');
});
