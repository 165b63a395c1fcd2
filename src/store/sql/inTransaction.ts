import type { ClientBase, Pool, PoolClient } from 'pg';

/** Runs work in one transaction of one connection: all of it or nothing. */
export async function inTransaction<T>(pool: Pool, work: (client: PoolClient) => Promise<T>, begin = 'begin'): Promise<T> {
  const client = await pool.connect();
  try {
    const result = await bracket(client, () => work(client), begin);
    client.release();
    return result;
  } catch (error) {
    // A connection that failed is not used again.
    client.release(true);
    throw error;
  }
}

/** Brackets work of a connection in a transaction. */
export async function bracket<T>(client: ClientBase, work: () => Promise<T>, begin = 'begin'): Promise<T> {
  await client.query(begin);
  try {
    const result = await work();
    await client.query('commit');
    return result;
  } catch (error) {
    await client.query('rollback').catch(() => undefined);
    throw error;
  }
}
