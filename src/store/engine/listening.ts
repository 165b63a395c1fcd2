import { createServer } from 'node:net';
import type { ClientConfig } from 'pg';
import { DATABASE_USER } from './createCluster.ts';
import type { DatabasePaths } from './databasePaths.ts';

/** Where the embedded database listens: a socket in its own folder (no address), or a port of the loopback interface. */
export interface Listening {
  readonly address: '' | '127.0.0.1';
  readonly port: number;
}

/** The kernel holds at most 107 bytes of a socket's path; the name of the socket itself takes 17. */
const LONGEST_FOLDER_B = 80;
const SOCKET_PORT = 5432;

/** A socket where its path is short enough, else a free port. */
export async function chooseListening(paths: DatabasePaths): Promise<Listening> {
  if (process.platform !== 'win32' && Buffer.byteLength(paths.cluster) < LONGEST_FOLDER_B) return { address: '', port: SOCKET_PORT };
  return { address: '127.0.0.1', port: await findFreePort() };
}

export const connectionTo = (paths: DatabasePaths, { address, port }: Listening, password: string): ClientConfig =>
  ({ host: address === '' ? paths.cluster : address, port, user: DATABASE_USER, password, database: 'postgres', ssl: false });

function findFreePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer().once('error', reject).listen(0, '127.0.0.1', () => {
      const bound = server.address();
      server.close(() => resolve(typeof bound === 'object' && bound !== null ? bound.port : 0));
    });
  });
}
