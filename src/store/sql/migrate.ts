import type { ClientBase } from 'pg';
import { StoreFault } from '../storeFault.ts';
import { bracket } from './inTransaction.ts';
import { MIGRATIONS } from './migrations.ts';

const OLDEST_VERSION = 15_00_00;
/** Any number of our own: two programs that open the same database at once migrate it one after the other. */
const MIGRATION_LOCK = 7_264_310_585;

/** Brings the database to the present form. Each step is done wholly or not at all. */
export async function migrate(client: ClientBase): Promise<void> {
  await checkServer(client);
  if (await newestStep(client) === MIGRATIONS.at(-1)!.number) return;
  await bracket(client, async () => {
    await client.query('select pg_advisory_xact_lock($1)', [MIGRATION_LOCK]);
    await client.query('create schema if not exists watermeadow');
    await client.query('create table if not exists watermeadow.migration (number integer primary key, name text not null, applied_at timestamptz not null default now())');
    await applyAfter(client, await newestStep(client));
  });
}

async function applyAfter(client: ClientBase, newest: number): Promise<void> {
  for (const { number, name, sql } of MIGRATIONS.filter((step) => step.number > newest)) {
    await client.query(sql);
    await client.query('insert into watermeadow.migration (number, name) values ($1, $2)', [number, name]);
  }
}

/** Number of the newest step that the database has seen; 0 for an empty one. */
async function newestStep(client: ClientBase): Promise<number> {
  const { rows: [there] } = await client.query<{ is: boolean }>(`select to_regclass('watermeadow.migration') is not null as is`);
  if (there?.is !== true) return 0;
  const { rows: [row] } = await client.query<{ newest: number }>('select coalesce(max(number), 0) as newest from watermeadow.migration');
  const newest = row?.newest ?? 0;
  if (newest > MIGRATIONS.at(-1)!.number) {
    throw new StoreFault('database-unsuitable', `The database has form ${newest} and this program knows ${MIGRATIONS.at(-1)!.number} at most: a newer program wrote it. Use that one.`);
  }
  return newest;
}

async function checkServer(client: ClientBase): Promise<void> {
  const { rows: [row] } = await client.query<{ version: string; number: number; encoding: string }>(
    `select current_setting('server_version') as version, current_setting('server_version_num')::int as number, current_setting('server_encoding') as encoding`);
  if (row === undefined || row.number < OLDEST_VERSION) throw new StoreFault('database-unsuitable', `PostgreSQL ${row?.version} is too old; 15 or newer is needed.`);
  if (row.encoding !== 'UTF8') throw new StoreFault('database-unsuitable', `The database is encoded in ${row.encoding}; create one with encoding UTF8.`);
}
