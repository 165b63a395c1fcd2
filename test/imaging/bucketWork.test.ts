import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { fetchedFolder } from '../../src/store/scan/pictureFiles.ts';
import { demoGreenhouse } from '../../src/twin/demo/demoGreenhouse.ts';
import { demoScans, type DemoScan } from '../../src/twin/demo/demoScans.ts';
import { readDemoSources } from '../../src/twin/demo/readDemoSources.ts';
import { bucketPlace } from './bucket/bucketPlace.ts';
import { startBucketServer, type BucketServer } from './bucket/bucketServer.ts';
import { killAfter } from './killAfter.ts';
import { openImaging, type OpenImaging } from './openImaging.ts';

const DATE = '2026-11-25', NOW = `${DATE}T07:00:00.000Z`;
const KEYS = { accessKeyId: 'test-key', secretAccessKey: 'test-secret' };
const folder = mkdtempSync(join(tmpdir(), 'watermeadow-bucket-work-')), clouds: DemoScan[] = [];
let server: BucketServer;

beforeAll(async () => {
  process.env.AWS_ACCESS_KEY_ID = KEYS.accessKeyId;
  process.env.AWS_SECRET_ACCESS_KEY = KEYS.secretAccessKey;
  for (const cloud of demoScans(7, DATE)) if (clouds.push(cloud) === 3) break;
  for (const [path, text] of Object.entries(demoGreenhouse({ seed: 7, date: DATE, written: readDemoSources() }))) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  server = await startBucketServer('clouds', KEYS);
}, 60_000);
afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true, force: true });
  delete process.env.AWS_ACCESS_KEY_ID;
  delete process.env.AWS_SECRET_ACCESS_KEY;
});

const measured = ({ session }: OpenImaging) => session.allEvents().flatMap((event) => (event.kind === 'scan-measured' ? [event.body] : []));
const gotten = () => server.asked.filter((line) => line.endsWith('.ply'));

it('clouds of a bucket are measured once each, also after a kill -9 and while the storage is away, beside those of the folder', async () => {
  const [first, second, third] = clouds as [DemoScan, DemoScan, DemoScan];
  for (const { path, bytes } of [first, second]) server.objects.set(`day/${basename(path)}`, bytes);
  server.objects.set('copies/again.ply', first.bytes).set('copies/again.ply.json', Buffer.from(JSON.stringify({ basin: basename(first.path).slice(0, 4), takenAt: `${DATE}T05:00:00Z` })));
  const said = await killAfter([folder, NOW, server.endpoint], (line) => line.startsWith('running'));
  expect(said).not.toContain('finished');
  expect(gotten()).toHaveLength(3);
  expect(readdirSync(fetchedFolder(folder))).toHaveLength(2);

  // The storage goes away: its clouds wait, the place says why, and what lies in the folder is measured all the same.
  mkdirSync(join(folder, 'scans'), { recursive: true });
  writeFileSync(join(folder, third.path), third.bytes);
  server.mishaps.push(...Array.from({ length: 40 }, () => 'busy' as const));
  const away = await openImaging(folder, NOW, undefined, [bucketPlace(folder, server.endpoint)]);
  try {
    await away.imaging.look();
    expect(away.imaging.troubles()).toMatchObject([{ code: 'storage-answer-wrong', path: 'greenhouse.yaml imaging.bucket' }]);
    await away.imaging.look();
    expect(measured(away).map(({ cloud }) => cloud.name)).toContain(basename(third.path));
    expect(measured(away)).toHaveLength(1);
    expect(away.errors).toEqual([]);
  } finally {
    await away.close();
  }

  server.mishaps.length = 0;
  const back = await openImaging(folder, NOW, undefined, [bucketPlace(folder, server.endpoint)]);
  try {
    await back.imaging.look();
    await back.imaging.look();
    expect(back.imaging.troubles()).toEqual([]);
    const names = measured(back).map(({ cloud }) => cloud.name);
    expect(names).toHaveLength(3);
    expect(names.filter((name) => name.startsWith('clouds/'))).toHaveLength(2);
    expect((await back.imaging.jobs()).every(({ state }) => state === 'done')).toBe(true);
    expect(gotten().length).toBeLessThanOrEqual(4);
    expect(readdirSync(fetchedFolder(folder))).toEqual([]);
    expect(existsSync(join(folder, third.path))).toBe(true);
    expect(await back.session.checkChain()).toMatchObject({ breaks: [] });
    console.log(`3 objects, 2 of them the same bytes, fetched in ${gotten().length} requests over three runs; scans: ${names.join(', ')}`);
  } finally {
    await back.close();
  }
}, 120_000);
