import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { startRandom } from '../../src/science/seededRandom.ts';
import type { PointCloud } from '../../src/science/scan/pointCloud.ts';
import { loadLazPerf } from '../../src/store/scan/loadLazPerf.ts';
import { openCloud } from '../../src/science/scan/read/openCloud.ts';
import { allocateColumns } from '../../src/science/scan/read/pointColumns.ts';
import { readPoints } from '../../src/science/scan/read/readPoints.ts';
import { readWhole } from './readWhole.ts';
import type { WrittenCloud } from './writeClouds.ts';
import { writeCloud } from './writeClouds.ts';
import { writeLas } from './writeLas.ts';

/** Largest distance, in the file's unit, of what was read from what was written; infinite when a colour differs. */
function farthest(cloud: PointCloud, written: WrittenCloud): number {
  let most = 0;
  written.points.forEach((point, i) => {
    [cloud.x, cloud.y, cloud.z].forEach((column, axis) => { most = Math.max(most, Math.abs(column[i]! + cloud.origin[axis]! - point[axis]!)); });
    written.colours?.[i]!.forEach((part, channel) => { if ([cloud.red, cloud.green, cloud.blue][channel]?.[i] !== part) most = Number.POSITIVE_INFINITY; });
  });
  return most;
}

test('every form is read as it was written, wherever its pieces are split', () => {
  const random = startRandom(6);
  const seen = new Map<string, number>();
  for (let trial = 0; trial < 120; trial += 1) {
    const written = writeCloud(1000 + random.below(50), random);
    const outcome = readWhole(written.bytes, () => 1 + random.below(trial % 2 === 0 ? 50_000 : 200));
    expect(outcome.ok ? [] : outcome.refusals, `${written.kind} ${trial}`).toEqual([]);
    if (!outcome.ok) continue;
    expect(outcome.value.count).toBe(written.points.length);
    expect(outcome.value.red === undefined).toBe(written.colours === undefined);
    // 32 bits hold 1300 mm to 0.00006 mm, and up to 10,000 from the origin to 0.0005.
    expect(farthest(outcome.value, written), `${written.kind} ${trial}`).toBeLessThan(0.0005);
    seen.set(written.kind, (seen.get(written.kind) ?? 0) + 1);
  }
  console.log('read back as written:', [...seen].map(([kind, count]) => `${kind}: ${count}`).join(', '));
  for (const kind of ['ply ascii', 'ply binary_little_endian', 'ply binary_big_endian', 'pcd ascii', 'pcd binary', 'pcd binary_compressed']) expect(seen.get(kind)).toBeGreaterThan(2);
});

test('LAZ is unpacked, and refused where no library is given', async () => {
  const written = writeLas(1000, startRandom(8), true);
  const outcome = readWhole(written.bytes, () => 7000, await loadLazPerf());
  expect(outcome.ok ? [] : outcome.refusals).toEqual([]);
  if (outcome.ok) expect(farthest(outcome.value, written)).toBeLessThan(0.0005);
  expect(readWhole(written.bytes, () => 7000)).toMatchObject({ ok: false, refusals: [{ code: 'cloud-format-unknown' }] });
});

const SCENE = new URL('../../../shared/data/scans/basin-mid.ply', import.meta.url);

test.runIf(existsSync(SCENE))('ranges of a binary file read on their own give the same points', () => {
  const bytes = readFileSync(SCENE);
  const opened = openCloud(bytes.subarray(0, 65_536), { name: 'basin-mid.ply', bytes: bytes.length });
  if (!opened.ok || opened.value.records === undefined) throw new Error('not opened');
  const { records, count } = opened.value;
  const stream = opened.value.startStream();
  stream.push(bytes);
  const whole = stream.finish();
  if (!whole.ok) throw new Error('not read');
  const columns = allocateColumns(1000, true);
  const sound = readPoints(bytes, records, { atByte: records.firstByte + 200_000 * records.recordBytes, count: 1000, to: 0 }, columns);
  expect([count, sound]).toEqual([262_854, 1000]);
  expect(columns.x).toEqual(whole.value.x.slice(200_000, 201_000));
  expect(columns.blue).toEqual(whole.value.blue?.slice(200_000, 201_000));
});
