import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ScanMeasured } from '../../src/greenhouse/scanEvents.ts';
import { watchScan } from '../../src/planning/imaging/watchScan.ts';
import { picturesFolder } from '../../src/store/scan/pictureFiles.ts';
import { demoGreenhouse } from '../../src/twin/demo/demoGreenhouse.ts';
import { demoScans, type DemoScan } from '../../src/twin/demo/demoScans.ts';
import { readDemoSources } from '../../src/twin/demo/readDemoSources.ts';
import { killAfter } from './killAfter.ts';
import { openImaging, type OpenImaging } from './openImaging.ts';

const DATE = '2026-11-25';
const NOW = `${DATE}T07:00:00.000Z`;

/** The first three clouds of the demo: one basin on three days. */
let clouds: DemoScan[];
const folders: string[] = [];

beforeAll(() => {
  clouds = [];
  for (const cloud of demoScans(7, DATE)) if (clouds.push(cloud) === 3) break;
}, 60_000);
afterAll(() => folders.forEach((folder) => rmSync(folder, { recursive: true, force: true })));

function makeFolder(scans: readonly DemoScan[]): string {
  const folder = mkdtempSync(join(tmpdir(), 'watermeadow-imaging-'));
  folders.push(folder);
  for (const [path, text] of Object.entries(demoGreenhouse({ seed: 7, date: DATE, written: readDemoSources() }))) put(folder, path, text);
  for (const { path, bytes } of scans) put(folder, path, bytes);
  return folder;
}

function put(folder: string, path: string, content: string | Uint8Array): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), content);
}

async function workThrough(open: OpenImaging): Promise<void> {
  // A file is complete when two looks in a row find it the same.
  await open.imaging.look();
  await open.imaging.look();
}

const measured = ({ session }: OpenImaging) => session.allEvents().flatMap((event) => (event.kind === 'scan-measured' ? [event.body] : []));
const refusedOf = ({ session }: OpenImaging) => session.allEvents().flatMap((event) => (event.kind === 'scan-refused' ? [event.body] : []));

describe('work on clouds of a folder, with a real database', () => {
  it('measures each cloud once, whatever it is called, builds on the scan before, and keeps nothing of what it refuses', async () => {
    const [first, second, third] = clouds as [DemoScan, DemoScan, DemoScan];
    const folder = makeFolder([first, second]), basin = basename(first.path).slice(0, 4);
    put(folder, 'scans/copy of the first.ply', first.bytes);
    put(folder, 'scans/copy of the first.ply.json', JSON.stringify({ basin, takenAt: `${DATE}T05:00:00Z` }));
    put(folder, `scans/${basin}_2026-11-24T05-00-00Z.ply`, third.bytes.subarray(0, third.bytes.length - 4000));
    put(folder, 'scans/nobody knows.ply', third.bytes.subarray(0, 100_000));
    const open = await openImaging(folder, NOW);
    try {
      await workThrough(open);
      expect(open.errors).toEqual([]);
      const scans = measured(open);
      expect(scans).toHaveLength(2);
      expect(new Set(scans.map(({ scan }) => scan)).size).toBe(2);
      const later = scans.find(({ previousScan }) => previousScan !== undefined)!;
      expect(later.plants.raft.length).toBeGreaterThan(60);
      expect(later.plants.mass!.freshG.every((g) => g > 0)).toBe(true);
      expect(later.plants.colour!.green.every((value) => value > 50)).toBe(true);
      expect(refusedOf(open).map(({ refusals }) => refusals[0]!.code).sort()).toEqual(['cloud-length-wrong', 'value-missing']);
      expect(readdirSync(picturesFolder(folder)).sort()).toEqual(scans.flatMap(({ scan }) => [`${scan}.field.gz`, `${scan}.points`]).sort());
      expect((await open.imaging.jobs()).map(({ state }) => state).sort()).toEqual(['done', 'done', 'refused', 'refused']);
      expect(open.told.filter(({ state }) => state === 'running').length).toBeGreaterThan(3);
      const events = open.session.state().sequence;
      await workThrough(open);
      expect(open.session.state().sequence).toBe(events);
      expect(await open.session.checkChain()).toMatchObject({ breaks: [] });
    } finally {
      await open.close();
    }
  }, 120_000);

  it('goes on after a kill -9 in the middle of the queue, each scan once', async () => {
    const folder = makeFolder(clouds);
    const killed = await killAfter([folder, NOW], (line) => line.startsWith('done'));
    expect(killed.some((line) => line === 'finished')).toBe(false);
    const open = await openImaging(folder, NOW);
    try {
      const before = measured(open).length;
      await workThrough(open);
      const scans = measured(open);
      console.log(`killed with ${before} of 3 scans recorded; afterwards ${scans.length}, jobs ${(await open.imaging.jobs()).map(({ state }) => state).join(', ')}`);
      expect(before).toBeLessThan(3);
      expect(scans.map(({ cloud }) => cloud.name).sort()).toEqual(clouds.map(({ path }) => basename(path)).sort());
      expect((await open.imaging.jobs()).every(({ state }) => state === 'done')).toBe(true);
      // The demonstration lets one plant lag and one turn yellow before the last scan; both are listed, with a forecast of the mean plant or without.
      const [old, last] = [...scans].sort((a, b) => a.takenAt.localeCompare(b.takenAt)).slice(-2) as [ScanMeasured, ScanMeasured], expecting = (scan: ScanMeasured, p50G: number) => ({ ...scan, expected: { p05G: 0.8 * p50G, p50G, p95G: 1.2 * p50G } });
      for (const notes of [watchScan(last, old), watchScan(expecting(last, 165), expecting(old, 100))]) expect([...new Set(notes.map(({ reason }) => reason))]).toEqual(expect.arrayContaining(['lags', 'yellows']));
      for (const { scan } of scans) expect(existsSync(join(picturesFolder(folder), `${scan}.field.gz`))).toBe(true);
      expect(await open.session.checkChain()).toMatchObject({ breaks: [] });
    } finally {
      await open.close();
    }
  }, 120_000);

  it('scores go to the journal; what no scan knows is refused', async () => {
    const folder = makeFolder(clouds.slice(0, 1)), open = await openImaging(folder, NOW);
    try {
      await workThrough(open);
      const [scan] = measured(open), grower = open.session.state().file!.people.find(({ role }) => role === 'grower')!.id;
      const score = (raft: number, by: string) => open.session.act({ do: 'score-plants', scored: { scan: scan!.scan, basin: scan!.basin, by, marks: [{ raft, position: 1, class: 'slow' }] } }, NOW);
      expect((await score(1, grower)).ok).toBe(true);
      expect(open.session.allEvents().at(-1)).toMatchObject({ kind: 'plants-scored', recordedBy: grower });
      expect(await score(7, grower)).toMatchObject({ ok: false, refusals: [{ code: 'reference-unknown' }] });
      expect(await score(1, 'nobody')).toMatchObject({ ok: false, refusals: [{ code: 'reference-unknown' }] });
    } finally {
      await open.close();
    }
  }, 120_000);
});
