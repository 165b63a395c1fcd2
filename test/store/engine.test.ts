import { chmodSync, chownSync, cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { Client } from 'pg';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { chooseOwner } from '../../src/store/engine/chooseOwner.ts';
import { databasePaths } from '../../src/store/engine/databasePaths.ts';
import { findEngine } from '../../src/store/engine/findEngine.ts';
import { chooseListening, connectionTo } from '../../src/store/engine/listening.ts';
import { reachableEngine } from '../../src/store/engine/reachableEngine.ts';
import { openStore } from '../../src/store/openStore.ts';
import { withClient } from './embeddedBench.ts';
import { mustOpen } from './testStore.ts';

const isRoot = process.getuid?.() === 0;
if (!isRoot) console.log('skipped: what the database does when this program runs as root');

describe('embedded database', () => {
  let folder: string;
  const paths = () => databasePaths(join(folder, '.watermeadow'));
  const openAndClose = async (settings: { folder: string } = { folder }) => {
    const store = await mustOpen({ greenhouse: 'engine', ...settings });
    await store.journal.append([{ kind: 'k', happenedAt: '2026-11-25T06:30:00Z', recordedBy: 'x', body: {} }]);
    const { sequence } = await store.journal.head();
    await store.close();
    return sequence;
  };
  beforeEach(() => { folder = mkdtempSync(join(tmpdir(), 'watermeadow-engine-')); });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  it('is closed to others, and belongs to no root', async () => {
    // mkdtemp made the folder private to this user: the database works in it all the same.
    expect(statSync(folder).mode & 0o777).toBe(0o700);
    await openAndClose();
    expect(statSync(paths().home).mode & 0o777).toBe(0o700);
    expect(statSync(paths().password).mode & 0o777).toBe(0o600);
    expect(statSync(paths().cluster).uid).not.toBe(0);
    expect(readFileSync(join(folder, '.watermeadow', '.gitignore'), 'utf8')).toBe('*\n');
  });

  it('opens after whatever lies about from before', async () => {
    mkdirSync(paths().fresh, { recursive: true });
    writeFileSync(join(paths().fresh, 'half'), 'made');
    expect(await openAndClose()).toBe(1);
    expect(existsSync(paths().fresh)).toBe(false);
    // A pid file whose number belongs to another program by now: this one.
    writeFileSync(paths().postmasterPid, `${process.pid}\n${paths().cluster}\n1764000000\n5432\n${paths().cluster}\n*\n  1 1\nready   \n`);
    expect(await openAndClose()).toBe(2);
  });

  it('opens a folder named from where the program stands', async () => {
    expect(await openAndClose({ folder: relative(process.cwd(), folder) })).toBe(1);
    expect(await openAndClose()).toBe(2);
  });

  it('listens on the loopback interface, with its password, where the folder\'s path is too long for a socket', async () => {
    const deep = join(folder, 'a-greenhouse-with-a-name-that-is-rather-long', 'and-then-some-more-of-it');
    mkdirSync(deep, { recursive: true });
    const store = await mustOpen({ folder: deep, greenhouse: 'engine' });
    const deepPaths = databasePaths(join(deep, '.watermeadow'));
    const port = Number(readFileSync(deepPaths.postmasterPid, 'utf8').split('\n')[3]);
    expect((await chooseListening(deepPaths)).address).toBe('127.0.0.1');
    const ask = (password: string) => withClient(new Client(connectionTo(deepPaths, { address: '127.0.0.1', port }, password)), (client) => client.query('select 1'));
    await expect(ask(readFileSync(deepPaths.password, 'utf8'))).resolves.toMatchObject({ rowCount: 1 });
    await expect(ask('a guess')).rejects.toMatchObject({ code: '28P01' });
    await store.close();
  });

  it('refuses a folder that is not there, and says what is wrong with one that cannot be used', async () => {
    const opened = await openStore({ folder: join(folder, 'nowhere'), greenhouse: 'x' });
    expect(opened.ok ? [] : opened.refusals).toMatchObject([{ code: 'file-missing' }]);
    writeFileSync(join(folder, '.watermeadow'), 'a file');
    await expect(openStore({ folder, greenhouse: 'x' })).rejects.toMatchObject({ fault: 'folder-unusable', retryHelps: false });
  });

  it('says what is wrong with a database that it cannot open, and lets the folder go', async () => {
    await openAndClose();
    writeFileSync(join(paths().cluster, 'PG_VERSION'), '17\n');
    await expect(openStore({ folder, greenhouse: 'x' })).rejects.toMatchObject({ fault: 'database-unsuitable' });
    writeFileSync(join(paths().cluster, 'PG_VERSION'), '18\n');
    const store = await mustOpen({ folder, greenhouse: 'engine' });
    await withClient(new Client(connectionTo(paths(), await chooseListening(paths()), readFileSync(paths().password, 'utf8'))), (client) =>
      client.query(`insert into watermeadow.migration (number, name) values (9999, 'of the future')`));
    await store.close();
    await expect(openStore({ folder, greenhouse: 'engine' })).rejects.toMatchObject({ fault: 'database-unsuitable' });
    rmSync(paths().password);
    await expect(openStore({ folder, greenhouse: 'engine' })).rejects.toMatchObject({ fault: 'storage-damaged' });
    writeFileSync(paths().password, 'not it');
    await expect(openStore({ folder, greenhouse: 'engine' })).rejects.toMatchObject({ fault: 'login-refused' });
    rmSync(join(paths().cluster, 'global'), { recursive: true });
    await expect(openStore({ folder, greenhouse: 'engine' })).rejects.toMatchObject({ fault: 'engine-failed' });
  });

  it.skipIf(!isRoot)('runs from a copy of its programs where they lie in a private folder', () => {
    const engine = findEngine();
    const home = join(folder, 'private', 'native');
    cpSync(engine.folder, home, { recursive: true, verbatimSymlinks: true });
    const hidden = { ...engine, folder: home, initdb: join(home, 'bin', 'initdb'), postgres: join(home, 'bin', 'postgres') };
    const open = mkdtempSync(join(tmpdir(), 'watermeadow-copies-'));
    chmodSync(open, 0o755);
    const log: string[] = [];
    const owner = chooseOwner(folder, folder);
    const copy = reachableEngine(hidden, owner, (message) => log.push(message), [join(open, 'engine')]);
    expect(copy.folder.startsWith(open)).toBe(true);
    expect(log).toHaveLength(1);
    expect(reachableEngine(hidden, owner, () => undefined, [join(open, 'engine')])).toEqual(copy);
    chmodSync(join(open, 'engine'), 0o777);
    expect(() => reachableEngine(hidden, owner, () => undefined, [join(open, 'engine')])).toThrow(/private folder/);
    expect(reachableEngine(hidden, undefined, () => undefined)).toBe(hidden);
    rmSync(open, { recursive: true });
  });

  it.skipIf(!isRoot)('runs as whoever owns the folder, where that is not root', () => {
    const [own, database] = [join(folder, 'own'), join(folder, 'own', 'database')];
    mkdirSync(database, { recursive: true });
    expect(chooseOwner(own, database)?.uid).toBeGreaterThan(0);
    chownSync(own, 12_345, 12_346);
    expect(chooseOwner(own, database)).toEqual({ uid: 12_345, gid: 12_346 });
    chownSync(database, 23_456, 23_457);
    expect(chooseOwner(own, database)).toEqual({ uid: 23_456, gid: 23_457 });
  });
});
