import type { Pool, PoolClient } from 'pg';
import { readHead, readRows, toEvent } from '../journal/eventTable.ts';
import type { PageEnd } from '../readings/readingTable.ts';
import { readPage } from '../readings/readingTable.ts';
import { asStoreFault } from '../sql/asStoreFault.ts';
import { BACKUP_FORM, writeLine } from './backupLine.ts';

const ROWS_A_PAGE = 5_000;

/** All events and readings as they stood at one moment, as lines of JSON. Memory stays small however much there is. */
export async function* exportJournal(pool: Pool, greenhouse: number, name: string): AsyncGenerator<string> {
  const client = await pool.connect().catch((error: unknown) => { throw asStoreFault(error); });
  try {
    await client.query('begin isolation level repeatable read read only');
    yield writeLine({ watermeadowJournal: BACKUP_FORM, greenhouse: name });
    yield* exportEvents(client, greenhouse);
    const counted = { readings: 0 };
    yield* exportReadings(client, greenhouse, counted);
    const { sequence, hash } = await readHead(client, greenhouse);
    yield writeLine({ end: { events: sequence, readings: counted.readings, headHash: hash } });
  } catch (error) {
    throw asStoreFault(error);
  } finally {
    // Ends the transaction with the connection, also when the reader of the lines stopped half way.
    client.release(true);
  }
}

async function* exportEvents(client: PoolClient, greenhouse: number): AsyncGenerator<string> {
  for (let afterSequence = 0; ;) {
    const rows = await readRows(client, greenhouse, { afterSequence, limit: ROWS_A_PAGE });
    if (rows.length === 0) return;
    for (const row of rows) yield writeLine({ event: toEvent(row) });
    afterSequence = rows.at(-1)!.sequence;
  }
}

async function* exportReadings(client: PoolClient, greenhouse: number, counted: { readings: number }): AsyncGenerator<string> {
  for (let after: PageEnd | undefined; ;) {
    const { readings, end } = await readPage(client, greenhouse, after, ROWS_A_PAGE);
    if (end === undefined) return;
    for (const reading of readings) yield writeLine({ reading });
    counted.readings += readings.length;
    after = end;
  }
}
