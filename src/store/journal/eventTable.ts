import type { ClientBase } from 'pg';
import type { JournalEvent } from '../../greenhouse/journalEvent.ts';
import { bracket } from '../sql/inTransaction.ts';
import type { JournalHead, JournalWish } from '../store.ts';
import type { EventRow } from './hashEvent.ts';
import { FIRST_PREVIOUS_HASH } from './hashEvent.ts';

/** Anything that answers a question: a client or a pool. */
export type Asked = Pick<ClientBase, 'query'>;

interface StoredRow {
  sequence: string; id: string; kind: string; happened_at: string; recorded_at: string; recorded_by: string;
  identity: string | null; corrects: string | null; body_text: string; previous_hash: string; hash: string;
}

const COLUMNS = 'sequence, id, kind, happened_at, recorded_at, recorded_by, identity, corrects, body::text as body_text, previous_hash, hash';
/** Rows of one statement: large enough to be quick, small enough for the memory of a small computer. */
const ROWS_A_STATEMENT = 5_000;

export async function readHead(asked: Asked, greenhouse: number): Promise<JournalHead> {
  const { rows: [row] } = await asked.query<{ sequence: string; hash: string }>({
    name: 'head', text: 'select sequence, hash from watermeadow.event where greenhouse = $1 order by sequence desc limit 1', values: [greenhouse] });
  return row === undefined ? { sequence: 0, hash: FIRST_PREVIOUS_HASH } : { sequence: Number(row.sequence), hash: row.hash };
}

/** Events by ascending sequence, bodies as the text that was hashed. */
export async function readRows(asked: Asked, greenhouse: number, wish: JournalWish = {}): Promise<EventRow[]> {
  const { rows } = await asked.query<StoredRow>({
    name: 'read-events',
    text: `select ${COLUMNS} from watermeadow.event
      where greenhouse = $1 and sequence > $2 and sequence <= $3 and ($4::text[] is null or kind = any($4)) order by sequence limit $5`,
    values: [greenhouse, wish.afterSequence ?? 0, wish.upToSequence ?? Number.MAX_SAFE_INTEGER, wish.kinds ?? null, wish.limit ?? null],
  });
  return rows.map(fromStored);
}

const fromStored = (row: StoredRow): EventRow => ({
  kind: row.kind, happenedAt: row.happened_at, recordedBy: row.recorded_by, bodyText: row.body_text,
  ...(row.identity === null ? {} : { identity: row.identity }), ...(row.corrects === null ? {} : { corrects: row.corrects }),
  id: row.id, sequence: Number(row.sequence), recordedAt: row.recorded_at, previousHash: row.previous_hash, hash: row.hash,
});

/** The event as everybody else knows it. */
export function toEvent({ bodyText, ...row }: EventRow): JournalEvent {
  const { kind, happenedAt, recordedBy, identity, corrects, ...chained } = row;
  return {
    kind, happenedAt, recordedBy, body: JSON.parse(bodyText) as unknown,
    ...(identity === undefined ? {} : { identity }), ...(corrects === undefined ? {} : { corrects }), ...chained,
  };
}

/** Id of the event at a place of the journal, where there is one. */
export async function readIdAt(asked: Asked, greenhouse: number, sequence: number): Promise<string | undefined> {
  const { rows: [row] } = await asked.query<{ id: string }>('select id from watermeadow.event where greenhouse = $1 and sequence = $2', [greenhouse, sequence]);
  return row?.id;
}

export async function findIdentities(asked: Asked, greenhouse: number, identities: readonly string[]): Promise<Map<string, string>> {
  if (identities.length === 0) return new Map();
  const { rows } = await asked.query<{ identity: string; id: string }>({
    name: 'find-identities', text: 'select identity, id from watermeadow.event where greenhouse = $1 and identity = any($2::text[])', values: [greenhouse, identities] });
  return new Map(rows.map(({ identity, id }) => [identity, id]));
}

/** Which of these ids are events. What is no UUID at all is none. */
export async function findIds(asked: Asked, greenhouse: number, ids: readonly string[]): Promise<Set<string>> {
  const possible = ids.filter((id) => /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i.test(id));
  if (possible.length === 0) return new Set();
  const { rows } = await asked.query<{ id: string }>('select id from watermeadow.event where greenhouse = $1 and id = any($2::uuid[])', [greenhouse, possible]);
  return new Set(rows.map(({ id }) => id));
}

/** Writes all rows or none; they are on the disk when it returns. */
export async function insertRows(client: ClientBase, greenhouse: number, rows: readonly EventRow[]): Promise<void> {
  if (rows.length <= ROWS_A_STATEMENT) return rows.length === 0 ? undefined : insertRowsWithin(client, greenhouse, rows);
  return bracket(client, async () => {
    for (let from = 0; from < rows.length; from += ROWS_A_STATEMENT) await insertRowsWithin(client, greenhouse, rows.slice(from, from + ROWS_A_STATEMENT));
  });
}

/** One statement: within a transaction of the caller's, or as one of its own. */
export async function insertRowsWithin(client: ClientBase, greenhouse: number, rows: readonly EventRow[]): Promise<void> {
  await client.query({
    name: 'insert-events',
    text: `insert into watermeadow.event (greenhouse, sequence, id, kind, happened_at, recorded_at, recorded_by, identity, corrects, body, previous_hash, hash)
      select $1, * from unnest($2::bigint[], $3::uuid[], $4::text[], $5::text[], $6::text[], $7::text[], $8::text[], $9::uuid[], $10::json[], $11::text[], $12::text[])`,
    values: [greenhouse, rows.map((row) => row.sequence), rows.map((row) => row.id), rows.map((row) => row.kind), rows.map((row) => row.happenedAt),
      rows.map((row) => row.recordedAt), rows.map((row) => row.recordedBy), rows.map((row) => row.identity ?? null), rows.map((row) => row.corrects ?? null),
      rows.map((row) => row.bodyText), rows.map((row) => row.previousHash), rows.map((row) => row.hash)],
  });
}
