import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { databasePaths } from '../../src/store/engine/databasePaths.ts';
import { postmasterOf, runningOn } from '../../src/store/engine/leftovers.ts';
import { openStore } from '../../src/store/openStore.ts';
import { runWriter } from './programs/runWriter.ts';
import { mustOpen } from './testStore.ts';

describe.skipIf(process.platform !== 'linux')('programs on one folder', () => {
  let folder: string;
  const paths = () => databasePaths(join(folder, '.watermeadow'));
  beforeEach(() => { folder = mkdtempSync(join(tmpdir(), 'watermeadow-programs-')); });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));
  const untilNothingRuns = async () => { while (runningOn(paths()).length > 0) await sleep(20); };

  it('refuses a second process, also while the first is too busy to answer; takes over from a killed one and its database', async () => {
    const first = runWriter(folder, 'one');
    await first.until(({ call }) => call !== undefined);
    for (const pause of [undefined, 'SIGSTOP'] as const) {
      if (pause !== undefined) first.child.kill(pause);
      const opened = await openStore({ folder, greenhouse: 'one' });
      expect(opened.ok ? [] : opened.refusals).toMatchObject([{ code: 'folder-in-use', value: { pid: first.child.pid, program: 'a writer' } }]);
    }
    const orphan = postmasterOf(paths())!;
    first.child.kill('SIGKILL');
    await first.ended;
    expect(runningOn(paths())).toContain(orphan);
    const log: string[] = [];
    const store = await mustOpen({ folder, greenhouse: 'one', log: (message) => log.push(message) });
    expect(log).toEqual([`A database that an earlier program left running (process ${orphan}) is stopped first.`]);
    expect(runningOn(paths())).not.toContain(orphan);
    expect(await store.journal.verifyChain()).toEqual([]);
    await store.close();
    expect(runningOn(paths())).toEqual([]);
  });

  it.each(['SIGTERM', 'SIGINT'] as const)('stops the database in good order on %s and ends by it', async (signal) => {
    const writer = runWriter(folder, 'one');
    await writer.until(({ call }) => call !== undefined);
    writer.child.kill(signal);
    await writer.ended;
    expect(writer.child.signalCode ?? writer.errors()).toBe(signal);
    expect(runningOn(paths())).toEqual([]);
    expect(readFileSync(paths().log, 'utf8')).toMatch(/database system is shut down\n$/);
  });

  it('stops the database when a program leaves without closing', async () => {
    const left = spawnSync(process.execPath, ['--import', 'tsx', fileURLToPath(new URL('programs/openAndLeave.ts', import.meta.url)), folder], { encoding: 'utf8' });
    expect([left.status, left.stderr]).toEqual([7, '']);
    await untilNothingRuns();
    const store = await mustOpen({ folder, greenhouse: 'left' });
    expect((await store.journal.head()).sequence).toBe(1);
    await store.close();
  });

  it('heeds a program that it cannot see, as long as that one lives', async () => {
    const store = await mustOpen({ folder, greenhouse: 'one' });
    await store.close();
    const beat = join(folder, '.watermeadow', 'open.json');
    const foreign = { pid: 4711, program: 'a desk in a container', host: 'elsewhere', reach: 'another machine' };
    writeFileSync(beat, JSON.stringify(foreign));
    const beating = setInterval(() => utimesSync(beat, new Date(), new Date()), 200);
    const opened = await openStore({ folder, greenhouse: 'one' });
    clearInterval(beating);
    expect(opened.ok ? [] : opened.refusals).toMatchObject([{ code: 'folder-in-use', value: { pid: 4711, program: 'a desk in a container', host: 'elsewhere' } }]);
    const longAgo = new Date(Date.now() - 60_000);
    utimesSync(beat, longAgo, longAgo);
    await (await mustOpen({ folder, greenhouse: 'one' })).close();
  });
});
