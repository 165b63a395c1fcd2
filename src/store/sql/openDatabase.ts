import { Pool, type ClientBase, type ClientConfig } from 'pg';
import type { Outcome } from '../../science/refusal.ts';
import { accepted, refused } from '../../science/refusal.ts';
import { exportJournal } from '../backup/exportJournal.ts';
import { importJournal } from '../backup/importJournal.ts';
import { openJournal } from '../journal/openJournal.ts';
import { openReadings } from '../readings/openReadings.ts';
import { openScanQueue } from '../scan/openScanQueue.ts';
import type { Store } from '../store.ts';
import { type Holder, nameHolder, numberOfGreenhouse, readHolder, retakeGreenhouse, takeGreenhouse } from './greenhouseHold.ts';
import { once } from '../once.ts';
import { migrate } from './migrate.ts';
import { refuseInUse } from './refuseInUse.ts';
import { type WriteSession, openWriteSession } from './writeSession.ts';

const CONNECT_MS = 10_000;
const READERS = 4;

/** A store, and what the opener has to say about the database that it lies in. */
export interface OpenedDatabase extends Omit<Store, 'place'> {
  readonly version: string;
  /** Whether the server waits for the disk. */
  readonly isDurable: boolean;
}

/** Opens a greenhouse in a PostgreSQL database, wherever that runs. Refused while another program has it open. */
export async function openDatabase(database: ClientConfig, greenhouse: string, holder: Holder): Promise<Outcome<OpenedDatabase>> {
  const config: ClientConfig = { ...database, connectionTimeoutMillis: CONNECT_MS, application_name: 'watermeadow', options: '-c synchronous_commit=on -c timezone=UTC', keepAlive: true };
  let found: number | undefined;
  const session = openWriteSession(config, async (client) => {
    if (found !== undefined) return retakeGreenhouse(client, greenhouse);
    await migrate(client);
    const number = await numberOfGreenhouse(client, greenhouse);
    if (!await takeGreenhouse(client, greenhouse)) throw new Taken(await readHolder(client, number));
    found = number;
  });
  try {
    await session.use((client) => nameHolder(client, found!, holder));
    const server = await session.use(askServer);
    return accepted({ ...joinParts(config, session, greenhouse, found!, holder), ...server });
  } catch (error) {
    await session.close();
    if (error instanceof Taken) return refused([refuseInUse(greenhouse, error.holder)]);
    throw error;
  }
}

function joinParts(config: ClientConfig, session: WriteSession, greenhouse: string, number: number, holder: Holder): Omit<Store, 'place'> {
  const pool = new Pool({ ...config, max: READERS, idleTimeoutMillis: 60_000, allowExitOnIdle: true });
  // A connection that breaks is told to whoever uses it; nobody else need hear of it.
  pool.on('error', () => undefined);
  pool.on('connect', (client) => client.on('error', () => undefined));
  return {
    greenhouse,
    journal: openJournal(number, session, pool),
    readings: openReadings(number, pool),
    scans: openScanQueue(number, pool),
    exportJournal: () => exportJournal(pool, number, greenhouse),
    importJournal: async (lines) => {
      const restored = await session.use((client) => importJournal(client, number, lines));
      session.outdate();
      return restored;
    },
    announceAddress: (address) => session.use((client) => nameHolder(client, number, { ...holder, address })),
    close: once(async () => {
      await session.close();
      await pool.end();
    }),
  };
}

async function askServer(client: ClientBase): Promise<{ version: string; isDurable: boolean }> {
  const { rows: [row] } = await client.query<{ version: string; isDurable: boolean }>(
    `select split_part(current_setting('server_version'), ' ', 1) as version, current_setting('fsync')::boolean as "isDurable"`);
  return row!;
}

class Taken extends Error {
  readonly holder: Holder | undefined;
  constructor(holder: Holder | undefined) {
    super('taken');
    this.holder = holder;
  }
}
