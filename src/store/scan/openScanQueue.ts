import type { Pool } from 'pg';
import type { Refusal } from '../../science/refusal.ts';
import { PATIENCE_MS } from '../journal/openJournal.ts';
import { untilAnswered } from '../sql/untilAnswered.ts';
import type { QueuedCloud, ScanQueue } from './scanQueue.ts';

/** A worker that has not been heard of for so long is dead. */
const STALE_S = 15;

interface Row {
  readonly sha256: string; readonly name: string; readonly bytes: string; readonly modified_ms: number; readonly basin: string | null; readonly taken_at: string | null;
  readonly arrived_at: string; readonly state: QueuedCloud['state']; readonly attempt: number; readonly share: number; readonly step: string | null; readonly ended_at: string | null; readonly refusals: readonly Refusal[] | null;
}

const COLUMNS = 'sha256, name, bytes, modified_ms, basin, taken_at, arrived_at, state, attempt, share, step, ended_at, refusals';

/** The queue of one greenhouse. Everything in it may be done twice without harm, so it is repeated after a lost connection. */
export function openScanQueue(greenhouse: number, pool: Pool): ScanQueue {
  // One program at a time has a greenhouse open: what was worked on when this one opened it, nobody works on any more.
  let staleS = 0;
  const ask = <R extends object = Row>(sql: string, values: readonly unknown[]): Promise<R[]> => untilAnswered(async () => (await pool.query<R>(sql, [greenhouse, ...values])).rows, PATIENCE_MS);
  return {
    knowsFile: async ({ name, bytes, modifiedMs }) => (await ask('select 1 from watermeadow.scan_job where greenhouse = $1 and name = $2 and bytes = $3 and modified_ms = $4', [name, bytes, modifiedMs])).length > 0,
    arrive: async ({ sha256, name, bytes, modifiedMs, basin = null, takenAt = null, arrivedAt }) => {
      const [row] = await ask<{ fresh: boolean }>(
        `insert into watermeadow.scan_job (greenhouse, sha256, name, bytes, modified_ms, basin, taken_at, arrived_at, state) values ($1, $2, $3, $4, $5, $6, $7, $8, 'queued')
         on conflict (greenhouse, sha256) do update set name = excluded.name, modified_ms = excluded.modified_ms, basin = excluded.basin, taken_at = excluded.taken_at, arrived_at = excluded.arrived_at,
           state = 'queued', attempt = 0, share = 0, step = null, ended_at = null, refusals = null
         where scan_job.state = 'refused' returning xmax = 0 as fresh`, [sha256, name, bytes, modifiedMs, basin, takenAt, arrivedAt]);
      return row === undefined ? 'known' : row.fresh ? 'queued' : 'again';
    },
    take: async (owner, except = []) => {
      const [row] = await ask(
        `update watermeadow.scan_job set state = 'running', owner = $2, heartbeat_at = now(), attempt = attempt + 1, share = 0, step = null
         where greenhouse = $1 and sha256 = (
           select waiting.sha256 from watermeadow.scan_job waiting
           where waiting.greenhouse = $1 and (waiting.state = 'queued' or (waiting.state = 'running' and waiting.heartbeat_at < now() - make_interval(secs => $3)))
             and not waiting.sha256 = any($4)
             and not exists (select 1 from watermeadow.scan_job other where other.greenhouse = $1 and other.basin = waiting.basin and other.sha256 <> waiting.sha256
               and other.state = 'running' and other.heartbeat_at >= now() - make_interval(secs => $3))
           order by waiting.taken_at nulls first, waiting.name limit 1 for update skip locked)
         returning ${COLUMNS}`, [owner, staleS, except]);
      staleS = STALE_S;
      return row === undefined ? undefined : cloudOf(row);
    },
    beat: async (sha256, owner, share, step) => (await ask(`update watermeadow.scan_job set heartbeat_at = now(), share = $4, step = $5 where greenhouse = $1 and sha256 = $2 and owner = $3 and state = 'running' returning 1`, [sha256, owner, share, step])).length > 0,
    finish: async (sha256, owner, endedAt, refusals) => (await ask(
      `update watermeadow.scan_job set state = $4, ended_at = $5, refusals = $6, share = 1, step = null where greenhouse = $1 and sha256 = $2 and owner = $3 and state = 'running' returning 1`,
      [sha256, owner, refusals === undefined ? 'done' : 'refused', endedAt, refusals === undefined ? null : JSON.stringify(refusals)])).length > 0,
    putBack: async (sha256, owner, blameless) => { await ask(`update watermeadow.scan_job set state = 'queued', share = 0, step = null, attempt = attempt - $4 where greenhouse = $1 and sha256 = $2 and owner = $3 and state = 'running' returning 1`, [sha256, owner, blameless ? 1 : 0]); },
    list: async (endedSince) => (await ask(
      `select ${COLUMNS} from watermeadow.scan_job where greenhouse = $1 and (state in ('queued', 'running') or ended_at >= $2) order by arrived_at, taken_at, name`, [endedSince])).map(cloudOf),
  };
}

function cloudOf(row: Row): QueuedCloud {
  return {
    sha256: row.sha256, name: row.name, bytes: Number(row.bytes), modifiedMs: row.modified_ms, arrivedAt: row.arrived_at, state: row.state, attempt: row.attempt, share: row.share,
    ...(row.basin === null ? {} : { basin: row.basin }), ...(row.taken_at === null ? {} : { takenAt: row.taken_at }), ...(row.step === null ? {} : { step: row.step }),
    ...(row.ended_at === null ? {} : { endedAt: row.ended_at }), ...(row.refusals === null ? {} : { refusals: row.refusals }),
  };
}
