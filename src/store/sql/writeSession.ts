import { Client, type ClientBase, type ClientConfig } from 'pg';
import { StoreFault } from '../storeFault.ts';
import { asStoreFault } from './asStoreFault.ts';

/**
 * The one connection that writes the journal of a greenhouse. It holds the greenhouse for as long as it lives;
 * when it breaks, the next use connects again and must take the greenhouse again.
 */
export interface WriteSession {
  /** Uses run one after the other. What was remembered under another number of `connection` may be out of date. */
  readonly use: <T>(work: (client: ClientBase, connection: number) => Promise<T>) => Promise<T>;
  /** Says that what was remembered of the database is out of date: the next use gets a new number. */
  readonly outdate: () => void;
  readonly close: () => Promise<void>;
}

/** `onConnect` runs on every new connection before anything else; where it throws there is no connection. */
export function openWriteSession(config: ClientConfig, onConnect: (client: ClientBase) => Promise<void>): WriteSession {
  let client: Client | undefined;
  let connection = 0;
  let closed = false;
  let turn: Promise<unknown> = Promise.resolve();

  const connect = async (): Promise<Client> => {
    const fresh = new Client(config);
    const forget = () => { if (client === fresh) client = undefined; };
    fresh.on('error', forget);
    fresh.on('end', forget);
    await fresh.connect();
    try {
      await onConnect(fresh);
    } catch (error) {
      await fresh.end().catch(() => undefined);
      throw error;
    }
    connection += 1;
    client = fresh;
    return fresh;
  };
  const run = async <T>(work: (client: ClientBase, connection: number) => Promise<T>): Promise<T> => {
    if (closed) throw new StoreFault('store-closed', 'The store is closed.');
    try {
      const ready = client ?? await connect();
      return await work(ready, connection);
    } catch (error) {
      throw asStoreFault(error);
    }
  };
  return {
    use: (work) => {
      const result = turn.then(() => run(work));
      turn = result.catch(() => undefined);
      return result;
    },
    outdate: () => { connection += 1; },
    close: async () => {
      await turn;
      closed = true;
      await client?.end().catch(() => undefined);
      client = undefined;
    },
  };
}
