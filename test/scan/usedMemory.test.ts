import { expect, test } from 'vitest';
import type { PointCloud } from '../../src/science/scan/pointCloud.ts';
import { scanCloud } from '../../src/science/scan/scanBasin.ts';
import { makeScene, SCENE_LAYOUT } from '../../src/twin/scan/makeScene.ts';

test('what a memory held before changes no bit of a scan', () => {
  const [first, other] = (['young', 'closed'] as const).map((stage) => makeScene({ stage, seed: 3, rig: { pixelMm: 5 } }).cloud) as [PointCloud, PointCloud];
  const scan = (cloud: PointCloud) => { const scanned = scanCloud(cloud, SCENE_LAYOUT, []); return JSON.stringify(scanned.ok ? { ...scanned.value.result, label: [...scanned.value.labels.label], cover: [...scanned.value.map.cover] } : scanned.refusals); };
  const before = scan(first);
  scan(other);
  expect(before).toContain('"plants"');
  expect(scan(first)).toBe(before);
});
