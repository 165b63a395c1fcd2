import { hostname } from 'node:os';
import { setTimeout as sleep } from 'node:timers/promises';
import type { ClientBase } from 'pg';
import { StoreFault } from '../storeFault.ts';

/** The program that has a greenhouse open. */
export interface Holder {
  readonly pid: number;
  readonly program: string;
  readonly host?: string;
  /** Where it answers, once it does. */
  readonly address?: string;
}

const RETAKE_MS = 10_000;

/** The number of a greenhouse in this database, given to it at its first opening. */
export async function numberOfGreenhouse(client: ClientBase, name: string): Promise<number> {
  await client.query('insert into watermeadow.greenhouse (name) values ($1) on conflict do nothing', [name]);
  const { rows: [row] } = await client.query<{ id: number }>('select id from watermeadow.greenhouse where name = $1', [name]);
  return row!.id;
}

/** Takes the greenhouse for this connection; false while another connection has it. The lock ends with the connection, however it ends. */
export async function takeGreenhouse(client: ClientBase, name: string): Promise<boolean> {
  const { rows: [row] } = await client.query<{ taken: boolean }>(`select pg_try_advisory_lock(hashtextextended('watermeadow ' || $1, 0)) as taken`, [name]);
  return row!.taken;
}

/** Takes it again after a lost connection: the server may need a moment to notice that the former one is gone. */
export async function retakeGreenhouse(client: ClientBase, name: string): Promise<void> {
  const untilMs = performance.now() + RETAKE_MS;
  while (!await takeGreenhouse(client, name)) {
    if (performance.now() > untilMs) throw new StoreFault('lock-lost', `The connection broke and another program took ${name} over meanwhile. Stop one of the two.`);
    await sleep(100);
  }
}

/** Writes down who has the greenhouse, for the message to the next one. */
export async function nameHolder(client: ClientBase, greenhouse: number, holder: Holder): Promise<void> {
  await client.query(
    `insert into watermeadow.holder (greenhouse, pid, program, host, address) values ($1, $2, $3, $4, $5)
     on conflict (greenhouse) do update set pid = excluded.pid, program = excluded.program, host = excluded.host, address = excluded.address`,
    [greenhouse, holder.pid, holder.program, holder.host ?? hostname(), holder.address ?? null]);
}

export async function readHolder(client: ClientBase, greenhouse: number): Promise<Holder | undefined> {
  const { rows: [row] } = await client.query<{ pid: number; program: string; host: string; address: string | null }>(
    'select pid, program, host, address from watermeadow.holder where greenhouse = $1', [greenhouse]);
  return row === undefined ? undefined : { pid: row.pid, program: row.program, host: row.host, address: row.address ?? undefined };
}
