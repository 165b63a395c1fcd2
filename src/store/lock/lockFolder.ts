import { hostname } from 'node:os';
import type { Outcome } from '../../science/refusal.ts';
import { accepted, refused } from '../../science/refusal.ts';
import type { Holder } from '../sql/greenhouseHold.ts';
import { refuseInUse } from '../sql/refuseInUse.ts';
import { readHeartbeat, startHeartbeat, watchForeignHeartbeat } from './heartbeat.ts';
import { askHolder, listenFor } from './lockSocket.ts';

/** A folder that this program holds. */
export interface FolderLock {
  readonly announceAddress: (address: string) => Promise<void>;
  readonly release: () => Promise<void>;
}

/**
 * Holds a folder for one program. The lock is a listening socket named after the folder, so that it ends with the program however
 * that ends, and the second program hears from the first itself who it is. A heartbeat file beside it covers programs that
 * cannot see each other's sockets (containers that share a volume).
 */
export async function lockFolder(folder: string, stateFolder: string, program: string): Promise<Outcome<FolderLock>> {
  let holder: Holder = { pid: process.pid, program, host: hostname() };
  const socket = await listenFor(folder, () => holder);
  if (socket === undefined) return refused([refuseInUse(folder, await askHolder(folder) ?? await readHeartbeat(stateFolder))]);
  const foreign = await watchForeignHeartbeat(stateFolder);
  if (foreign !== undefined) {
    await socket.close();
    return refused([refuseInUse(folder, foreign)]);
  }
  const heartbeat = await startHeartbeat(stateFolder, holder);
  return accepted({
    announceAddress: async (address) => {
      holder = { ...holder, address };
      await heartbeat.tell(holder);
    },
    release: async () => {
      await heartbeat.stop();
      await socket.close();
    },
  });
}
