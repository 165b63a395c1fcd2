import { expect, test } from 'vitest';
import type { Outcome } from '../../src/science/refusal.ts';
import { REFUSAL_CODES } from '../../src/science/refusalCodes.ts';
import type { PointCloud } from '../../src/science/scan/pointCloud.ts';
import { CLOUD_LIMITS } from '../../src/science/scan/read/cloudFile.ts';
import { loadLazPerf } from '../../src/store/scan/loadLazPerf.ts';
import { FARTHEST } from '../../src/science/scan/read/pointRange.ts';
import { startRandom } from '../../src/science/seededRandom.ts';
import { readFileSync, existsSync } from 'node:fs';
import type { BasinLayout } from '../../src/science/scan/basinLayout.ts';
import { scanCloud } from '../../src/science/scan/scanBasin.ts';
import { DAMAGES } from './damageCloud.ts';
import { readWhole } from './readWhole.ts';
import { join, writeCloud } from './writeClouds.ts';
import { writeLas } from './writeLas.ts';

const TRIALS = 5000;
const KINDS = Object.keys(DAMAGES);
/** Damage after which the length of the file cannot be right. */
const LENGTH_WRONG: ReadonlySet<string> = new Set(['cut short', 'last byte lost', 'bytes added', 'piece lost']);

/** A refusal must name a known code and a place and say something; a cloud must be whole, sound and no larger than its file allows. */
function checkOutcome(outcome: Outcome<PointCloud>, bytes: number, what: string): void {
  if (!outcome.ok) {
    expect(outcome.refusals.length, what).toBeGreaterThan(0);
    for (const { code, path, message } of outcome.refusals) expect([Object.hasOwn(REFUSAL_CODES, code), path.length > 0, message.length > 20], what).toEqual([true, true, true]);
    return;
  }
  const { count, x, y, z } = outcome.value;
  expect(count, what).toBeGreaterThanOrEqual(CLOUD_LIMITS.leastPoints);
  expect(count * 3, what).toBeLessThan(bytes);
  for (const column of [x, y, z]) expect(column.length === count && column.every((value) => Math.abs(value) <= FARTHEST), what).toBe(true);
}

const ANY_BASIN: BasinLayout = { rimHeightMm: 60, innerMm: [1300, 1300], rafts: [{ id: 'A', centreMm: [0, 0], sizeMm: [630, 630], positions: [{ id: 1, xMm: 0, yMm: 0 }] }] };

test(`${TRIALS} damaged clouds: a clear refusal or a whole cloud`, () => {
  const random = startRandom(31);
  const wholes = Array.from({ length: 60 }, () => writeCloud(1000 + random.below(9), random));
  const tally = new Map<string, [refused: number, read: number]>(KINDS.map((kind) => [kind, [0, 0]]));
  let slowestMs = 0;
  for (let trial = 0; trial < TRIALS; trial += 1) {
    const kind = KINDS[trial % KINDS.length]!;
    const whole = wholes[random.below(wholes.length)]!;
    const damaged = DAMAGES[kind]!(whole.bytes, random);
    const start = performance.now();
    const outcome = readWhole(damaged, () => 1 + random.below(40_000));
    slowestMs = Math.max(slowestMs, performance.now() - start);
    checkOutcome(outcome, damaged.length, `${kind} ${whole.kind} ${trial}`);
    // No basin is among these points: the scan must say so.
    if (outcome.ok) expect(scanCloud(outcome.value, ANY_BASIN, []).ok, `${kind} ${whole.kind} ${trial}`).toBe(false);
    tally.get(kind)![outcome.ok ? 1 : 0] += 1;
    // Text may lose or gain the last digits and empty lines; anything else of a wrong length may not pass. And no damage may change the count.
    if (outcome.ok && LENGTH_WRONG.has(kind)) expect(whole.kind, `${kind} ${trial}`).toMatch(/ascii/);
    if (outcome.ok) expect(outcome.value.count, `${kind} ${whole.kind} ${trial}`).toBe(whole.points.length);
  }
  console.log(`slowest ${slowestMs.toFixed(0)} ms; refused/read:`, [...tally].map(([kind, [refused, read]]) => `${kind} ${refused}/${read}`).join(', '));
  // Loose: it tells a hang from a slow machine.
  expect(slowestMs).toBeLessThan(10_000);
});

test('damaged LAZ files are refused or unpacked, each with a library of its own', async () => {
  const random = startRandom(32);
  const whole = writeLas(1000, random, true);
  for (const kind of ['cut short', 'header flipped', 'piece lost']) {
    const damaged = DAMAGES[kind]!(whole.bytes, random);
    checkOutcome(readWhole(damaged, () => 40_000, await loadLazPerf()), damaged.length, `laz ${kind}`);
  }
});

const SCENE = new URL('../../../shared/data/scans/basin-mid.ply', import.meta.url);
const TRUTH = new URL('../../../shared/data/scans/basin-mid.truth.json', import.meta.url);

interface Truth {
  readonly rafts: readonly { readonly id: number; readonly nominal: readonly [number, number] }[];
  readonly sites: readonly { readonly id: number; readonly raft: number; readonly sx: number; readonly sy: number }[];
}

/** The shared scene with every fifth point, thin but dense enough to be trusted, and its layout. */
function thinScene(): { readonly bytes: Uint8Array; readonly layout: BasinLayout } {
  const whole = readFileSync(SCENE);
  const headEnd = whole.indexOf('end_header\n') + 11;
  const [every, recordBytes] = [5, 15];
  const count = Math.floor((whole.length - headEnd) / recordBytes / every);
  const records = Array.from({ length: count }, (_, i) => whole.subarray(headEnd + i * every * recordBytes, headEnd + i * every * recordBytes + recordBytes));
  const truth = JSON.parse(readFileSync(TRUTH, 'utf8')) as Truth;
  const rafts = truth.rafts.map(({ id, nominal }) => ({ id, centreMm: nominal, sizeMm: [630, 630] as const, positions: truth.sites.filter(({ raft }) => raft === id).map(({ id: site, sx, sy }) => ({ id: site, xMm: sx, yMm: sy })) }));
  return { bytes: join([whole.subarray(0, headEnd).toString('latin1').replace(/vertex \d+/, `vertex ${count}`), ...records]), layout: { rimHeightMm: 60, innerMm: [1300, 1300], rafts } };
}

test.runIf(existsSync(SCENE))('damaged scans of a basin: refused, or every position measured with sound numbers', () => {
  const random = startRandom(33);
  const { bytes, layout } = thinScene();
  let [refusedCount, measured] = [0, 0];
  for (let trial = 0; trial < 40; trial += 1) {
    const kind = KINDS[trial % KINDS.length]!;
    const cloud = readWhole(DAMAGES[kind]!(bytes, random), () => 40_000);
    const result = cloud.ok ? scanCloud(cloud.value, layout, []) : cloud;
    if (!result.ok) { refusedCount += 1; continue; }
    measured += 1;
    expect(result.value.result.plants.length, kind).toBe(64);
    for (const plant of result.value.result.plants) for (const value of Object.values(plant)) if (typeof value === 'number') expect(Number.isFinite(value) && value >= 0, `${kind} ${JSON.stringify(plant)}`).toBe(true);
  }
  console.log(`damaged scans of a basin: ${refusedCount} refused, ${measured} measured`);
  expect(Math.min(refusedCount, measured)).toBeGreaterThan(5);
});
