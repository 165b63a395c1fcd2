import { expect, test } from 'vitest';
import type { Outcome } from '../../src/science/refusal.ts';
import { REFUSAL_CODES } from '../../src/science/refusalCodes.ts';
import type { PointCloud } from '../../src/science/scan/pointCloud.ts';
import { CLOUD_LIMITS } from '../../src/science/scan/read/cloudFile.ts';
import { loadLazPerf } from '../../src/science/scan/read/loadLazPerf.ts';
import { FARTHEST } from '../../src/science/scan/read/pointRange.ts';
import { startRandom } from '../../src/science/seededRandom.ts';
import { DAMAGES } from './damageCloud.ts';
import { readWhole } from './readWhole.ts';
import { writeCloud } from './writeClouds.ts';
import { writeLas } from './writeLas.ts';

const TRIALS = 5000;
const KINDS = Object.keys(DAMAGES);
/** Damage after which the length of the file cannot be right. */
const LENGTH_WRONG = ['cut short', 'last byte lost', 'bytes added', 'piece lost'];

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
    tally.get(kind)![outcome.ok ? 1 : 0] += 1;
    // Binary files are read to the last byte, so none of a wrong length may pass; records may follow the points of LAS, and text may lose
    // or gain digits and empty lines.
    if (outcome.ok && LENGTH_WRONG.includes(kind) && /binary/.test(whole.kind)) expect(`${whole.kind} ${kind} ${trial}`).toBe('refused');
    if (outcome.ok && !whole.kind.startsWith('las') && kind !== 'header number changed' && kind !== 'header flipped' && kind !== 'bytes flipped') expect(outcome.value.count, `${kind} ${whole.kind} ${trial}`).toBe(whole.points.length);
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
