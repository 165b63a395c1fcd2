import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { databasePaths } from '../../src/store/engine/databasePaths.ts';
import { postmasterOf, runningOn } from '../../src/store/engine/leftovers.ts';
import { findDistributionBin, startDistributionServer } from './distributionServer.ts';
import { describeTally, killTrials } from './killTrials.ts';
import { mustOpen } from './testStore.ts';

const TRIALS = 20;
const SEED = 20_261_125;
const isLinux = process.platform === 'linux';
const bin = findDistributionBin();
if (bin === undefined) console.log('skipped: kill trials on a server need the distribution\'s PostgreSQL (package postgresql)');

describe.skipIf(!isLinux)('kill -9 during writes', () => {
  it('loses nothing acknowledged in the embedded database', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'watermeadow-trial-'));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    const paths = databasePaths(join(folder, '.watermeadow'));
    const tally = await killTrials({
      folder, postmaster: () => postmasterOf(paths), processes: () => runningOn(paths), revive: () => Promise.resolve(), open: () => mustOpen({ folder, greenhouse: 'trials' }),
    }, TRIALS, SEED);
    console.log(describeTally('kill -9, embedded database', tally));
    expect(tally).toMatchObject({ trials: TRIALS, lost: [], broken: [] });
    expect(tally.acknowledgedCalls).toBeGreaterThan(TRIALS);
    expect(runningOn(paths)).toEqual([]);
  }, 900_000);

  it.skipIf(bin === undefined)('loses nothing acknowledged on a PostgreSQL server', async () => {
    const server = await startDistributionServer(bin!);
    onTestFinished(() => server.stop());
    const folder = tmpdir();
    const tally = await killTrials({
      folder, serverUrl: server.url, postmaster: server.pid, processes: server.processes, revive: server.revive, open: () => mustOpen({ folder, greenhouse: 'trials', serverUrl: server.url }),
    }, TRIALS, SEED + 1);
    console.log(describeTally(`kill -9, ${server.version}`, tally));
    expect(tally).toMatchObject({ trials: TRIALS, lost: [], broken: [] });
    expect(tally.acknowledgedCalls).toBeGreaterThan(TRIALS);
  }, 900_000);
});
