import { tmpdir } from 'node:os';
import { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openStore } from '../../src/store/openStore.ts';
import type { StoreBench } from './contract/storeBench.ts';
import { type DistributionServer, findDistributionBin, startDistributionServer } from './distributionServer.ts';
import { withClient } from './embeddedBench.ts';
import { storeContract } from './storeContract.ts';

const bin = findDistributionBin();
if (bin === undefined) console.log('skipped: the distribution\'s PostgreSQL server is not installed (package postgresql)');

describe.skipIf(bin === undefined)('store on a PostgreSQL server', () => {
  let server: DistributionServer;
  let bench: StoreBench;
  beforeAll(async () => {
    server = await startDistributionServer(bin!);
    console.log(`store contract on ${server.version}`);
    bench = {
      settings: (greenhouse) => ({ folder: tmpdir(), greenhouse, serverUrl: server.url }),
      behind: (work) => withClient(new Client(server.url), work),
      remove: () => server.stop(),
    };
  });
  afterAll(() => server.stop());
  storeContract(() => bench);

  it('keeps greenhouses of one database apart, open at the same time', async () => {
    const [a, b] = await Promise.all(['apart a', 'apart b'].map((greenhouse) => openStore(bench.settings(greenhouse))));
    if (!a?.ok || !b?.ok) throw new Error('refused');
    await a.value.journal.append([{ kind: 'k', happenedAt: '2026-11-25T06:30:00Z', recordedBy: 'x', identity: 'same', body: {} }]);
    await a.value.readings.append([{ at: '2026-11-25T06:30:00Z', place: 'outdoor', quantity: 'airC', value: 7 }]);
    expect(await b.value.journal.read()).toEqual([]);
    expect(await b.value.readings.latest()).toEqual([]);
    const outcome = await b.value.journal.append([{ kind: 'k', happenedAt: '2026-11-25T06:30:00Z', recordedBy: 'x', identity: 'same', body: {} }]);
    expect(outcome.ok && outcome.value.events).toHaveLength(1);
    await Promise.all([a.value.close(), b.value.close()]);
  });

  it('shows its place without the password', async () => {
    const opened = await openStore(bench.settings('place'));
    if (!opened.ok) throw new Error('refused');
    expect(opened.value.place).toMatch(/^PostgreSQL \d+\.\d+ at postgresql:\/\/grower@127\.0\.0\.1:\d+\/postgres$/);
    await opened.value.close();
  });

  it.each([
    ['a wrong password', (url: string) => url.replace('a%20word', 'no%20word'), 'login-refused', false],
    ['a database that is not there', (url: string) => `${url}s`, 'login-refused', false],
    ['a port where nobody listens', (url: string) => url.replace(/:\d+\/postgres$/, ':1/postgres'), 'engine-unreachable', true],
    ['no address', () => 'somewhere', 'engine-unreachable', true],
  ])('answers %s with a fault', async (_, change, fault, retryHelps) => {
    await expect(openStore({ ...bench.settings('fault'), serverUrl: change(server.url) })).rejects.toMatchObject({ fault, retryHelps });
  });
});
